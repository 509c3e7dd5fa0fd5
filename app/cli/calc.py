"""``lowport calc``: every calculator of the trade's arithmetic from a shell."""

import json as json_format
from dataclasses import asdict, is_dataclass
from typing import Any

import click

from app.cli.typed_inputs import read_input
from app.trade.registry import CALCULATORS, REQUIRED, Calculator, Input
from app.trade.showing import digits
from app.trade.units import UNITS


@click.command()
@click.argument("name", required=False)
@click.argument("values", nargs=-1, metavar="[KEY=VALUE]...")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
@click.option("--list", "listed", is_flag=True, help="List the calculators, or NAME's inputs.")
def calc(name: str | None, values: tuple[str, ...], as_json: bool, listed: bool) -> None:
    """Work out NAME from its inputs.

    A bare number is in the input's own unit; a value with a unit ("6 in", "12 ft") is converted.
    Lists are separated by commas, points by spaces, lines by semicolons.
    """
    if listed:
        _print_list(name)
        return
    if name is None:
        raise click.UsageError("Which calculator? See: lowport calc --list")
    entry = _named(name)
    arguments = _arguments(entry, values)
    result = entry.function(**arguments)
    fields = _fields(entry, result)
    if as_json:
        click.echo(json_format.dumps(_as_json(entry, fields), ensure_ascii=False, indent=2))
    else:
        _print_result(entry, fields)


def _named(name: str) -> Calculator:
    entry = CALCULATORS.get(name.replace("-", "_"))
    if entry is None:
        raise click.UsageError(f"There is no calculator {name}. See: lowport calc --list")
    return entry


def _arguments(entry: Calculator, values: tuple[str, ...]) -> dict[str, Any]:
    known = {one.name: one for one in entry.inputs}
    given: dict[str, Any] = {}
    for pair in values:
        key, equals, text = pair.partition("=")
        key = _full_name(key.replace("-", "_"), known)
        if not equals or key not in known:
            raise click.UsageError(f"{entry.name} takes no {pair!r}. {_needs(entry)}")
        if key in given:
            raise click.UsageError(f"{key} is given twice.")
        given[key] = read_input(known[key], text)
    missing = [n for n, one in known.items() if one.default is REQUIRED and n not in given]
    if missing:
        raise click.UsageError(f"Missing: {', '.join(missing)}. {_needs(entry)}")
    return given


def _full_name(key: str, known: dict[str, Input]) -> str:
    """``length`` stands for ``length_mm``, since the value may bring its own unit."""
    whole = [name for name, one in known.items() if one.unit and name == f"{key}_{one.unit}"]
    return whole[0] if key not in known and len(whole) == 1 else key


def _needs(entry: Calculator) -> str:
    return "Inputs: " + ", ".join(_described(one) for one in entry.inputs)


def _described(one: Input) -> str:
    kind = "/".join(one.choices) or {"flag": "true/false"}.get(one.kind) or one.unit or one.kind
    optional = "" if one.default is REQUIRED else ", may be left out"
    return f"{one.name} ({kind}{optional})"


def _fields(entry: Calculator, result: Any) -> dict[str, Any]:
    if is_dataclass(result):
        return {out.name: getattr(result, out.name) for out in entry.outputs}
    return {entry.outputs[0].name: result}


def _as_json(entry: Calculator, fields: dict[str, Any]) -> dict[str, Any]:
    return {
        "calculator": entry.name,
        "result": {key: _plain(value) for key, value in fields.items()},
        "units": {out.name: out.unit for out in entry.outputs if out.unit},
        "sources": list(entry.sources),
    }


def _plain(value: Any) -> Any:
    if is_dataclass(value) and not isinstance(value, type):
        return _plain(asdict(value))
    if isinstance(value, dict):
        return {key: _plain(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(inner) for inner in value]
    return value


def _print_result(entry: Calculator, fields: dict[str, Any]) -> None:
    units = {out.name: out.unit for out in entry.outputs}
    for key, value in fields.items():
        if isinstance(value, tuple) and value and is_dataclass(value[0]):
            click.echo(f"{key}:")
            for inner in value:
                facts = ((name, fact) for name, fact in asdict(inner).items() if fact != "")
                click.echo("  " + ", ".join(f"{name} {_written(fact)}" for name, fact in facts))
        else:
            sign = UNITS[units[key]].sign if units[key] in UNITS else units[key]
            click.echo(f"{key}: {_written(value)} {sign}".rstrip())
    click.echo(f"sources: {', '.join(entry.sources)}")


def _written(value: Any) -> str:
    if value is None:
        return "not given"  # never "none": it could read as "no respirator"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return digits(value, 6)
    if isinstance(value, tuple | list):
        return ", ".join(map(_written, value)) or "none"
    return str(value)


def _print_list(name: str | None) -> None:
    if name is None:
        width = max(map(len, CALCULATORS))
        for entry in CALCULATORS.values():
            click.echo(f"{entry.name:{width}}  {entry.title}")
        return
    entry = _named(name)
    click.echo(entry.title)
    for one in entry.inputs:
        bounds = _bounds(one)
        click.echo(f"  {_described(one)}{bounds}{': ' if one.says else ''}{one.says}")


def _bounds(one: Input) -> str:
    low = "" if one.low is None else f" from {digits(one.low)}"
    return low + ("" if one.high is None else f" to {digits(one.high)}")
