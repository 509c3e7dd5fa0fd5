"""The decision to erase somebody's name: on record is that it was done, by whom and why."""

from collections.abc import Iterable

from app.records.deciding.acts import Act, reason_given, settled_before, stamped
from app.records.deciding.refusals import DeciderIsPerson, NameAlreadyErased
from app.records.events import Event, NameErased


def decide_erase_name(
    history: Iterable[Event], act: Act, *, person: str, reason: str
) -> NameErased:
    """A person's name erased. Raises DeciderIsPerson, NameAlreadyErased, ReasonMissing."""
    settled = settled_before(history, act)
    if settled.who(act.by) == settled.who(person):
        raise DeciderIsPerson
    if any(isinstance(e, NameErased) for e in settled.by_person.get(settled.who(person), ())):
        raise NameAlreadyErased
    return NameErased(**stamped(act), person=person, reason=reason_given(reason))
