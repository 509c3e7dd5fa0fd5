"""Plain data -> frozen dataclasses, strictly: what does not fit is refused with its place."""

from collections.abc import Callable, Mapping
from dataclasses import MISSING, fields, is_dataclass
from datetime import UTC, date, datetime
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

from app.trade.errors import Refusal

T = TypeVar("T")


class Malformed(Refusal):
    """Data without the form it must have; the place says where."""

    template = "{place}: {reason}"


def read(kind: type[T], data: object, place: str) -> T:
    """Build a dataclass from plain data.

    kind: a dataclass of text, whole numbers, truth values, days, times, literals, tuples, and
    other such classes; data: a mapping; place: where it stands, for messages. Returns the object.
    Raises Malformed. Source: ours. Example: ``read(Signature, {...}, "events[3].signature")``.
    """
    given = mapping(data, place)
    hashable: Any = kind
    known = _fields(hashable)
    for name in given:
        if name not in known:
            raise Malformed(place=f"{place}.{name}", reason=f"there is no field {name}.")
    values = {}
    for name, (hint, has_default) in known.items():
        if name in given:
            values[name] = value_of(hint, given[name], f"{place}.{name}")
        elif not has_default:
            raise Malformed(place=place, reason=f"{name} is missing.")
    try:
        return kind(**values)
    except Malformed:
        raise
    except ValueError as error:
        raise Malformed(place=place, reason=f"{error}.") from None


def mapping(data: object, place: str) -> Mapping[str, object]:
    """The data, if it is a mapping. Raises Malformed."""
    if not isinstance(data, Mapping):
        raise Malformed(place=place, reason=f"must hold named values, not {data!r:.60}.")
    return data


@cache
def _fields(kind: type[Any]) -> dict[str, tuple[Any, bool]]:
    hints = get_type_hints(kind)
    return {
        f.name: (hints[f.name], f.default is not MISSING or f.default_factory is not MISSING)
        for f in fields(kind)
    }


def value_of(hint: Any, value: object, place: str) -> Any:
    """One value read as its type hint says. Raises Malformed."""
    origin = get_origin(hint)
    if origin in (Union, UnionType):
        (inner,) = (arm for arm in get_args(hint) if arm is not NoneType)
        return None if value is None else value_of(inner, value, place)
    if origin is Literal:
        return _one_of(get_args(hint), value, place)
    if origin is tuple:
        return _several(get_args(hint)[0], value, place)
    if is_dataclass(hint) and isinstance(hint, type):
        return read(hint, value, place)
    return _PLAIN[hint](value, place)


def _one_of(choices: tuple[Any, ...], value: object, place: str) -> object:
    if value not in choices:
        raise Malformed(place=place, reason=f"must be one of {', '.join(choices)}, not {value!r}.")
    return value


def _several(inner: Any, value: object, place: str) -> tuple[Any, ...]:
    if not isinstance(value, list):
        raise Malformed(place=place, reason=f"must be a list, not {value!r:.60}.")
    return tuple(value_of(inner, item, f"{place}[{i}]") for i, item in enumerate(value))


def _exactly(kind: type, says: str) -> Callable[[object, str], object]:
    def check(value: object, place: str) -> object:
        if type(value) is not kind:  # True is an int, and not what was meant
            raise Malformed(place=place, reason=f"must be {says}, not {value!r:.60}.")
        return value

    return check


def _day(value: object, place: str) -> date:
    try:
        if isinstance(value, str) and len(value) == 10 and value[4] == value[7] == "-":
            return date.fromisoformat(value)
    except ValueError:
        pass
    raise Malformed(place=place, reason=f"must be a day like 2024-02-29, not {value!r:.60}.")


def _moment(value: object, place: str) -> datetime:
    try:
        if isinstance(value, str):
            moment = datetime.fromisoformat(value)
            if moment.tzinfo is not None:
                return moment.astimezone(UTC)
    except (ValueError, OverflowError):
        pass
    reason = f"must be a time with its zone like 2024-02-29T18:00:00Z, not {value!r:.60}."
    raise Malformed(place=place, reason=reason)


_PLAIN: dict[Any, Callable[[object, str], object]] = {
    str: _exactly(str, "text"),
    int: _exactly(int, "a whole number"),
    bool: _exactly(bool, "true or false"),
    date: _day,
    datetime: _moment,
}
