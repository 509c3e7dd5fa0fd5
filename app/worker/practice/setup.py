"""A crack as JSON and back, so that a run replays the same after the set cracks have changed."""

from dataclasses import asdict
from typing import Any

from app.trade.filling.crack import Crack
from app.trade.filling.parts import Back, Branch, Contact, Pinhole, Port, Roughness, WidthAt
from app.trade.filling.supply import Pump, Resin

VERSION = 1
_PARTS = {
    "widths": WidthAt,
    "ports": Port,
    "pinholes": Pinhole,
    "contacts": Contact,
}


class UnknownVersion(LookupError):
    """A run was kept in a form that this program does not know."""


def setup_of(crack: Crack) -> dict[str, Any]:
    """The crack as it is kept; floats keep every digit in JSON."""
    return {"version": VERSION, "crack": asdict(crack)}


def crack_from(setup: dict[str, Any]) -> Crack:
    """The crack that was kept. Errors: UnknownVersion; the refusals of Crack."""
    if setup.get("version") != VERSION:
        raise UnknownVersion(f"setup version {setup.get('version')!r}")
    try:
        return _crack(dict(setup["crack"]))
    except TypeError as misfit:  # a part that the model no longer has, or has anew
        raise UnknownVersion(f"setup: {misfit}") from misfit


def _crack(kept: dict[str, Any]) -> Crack:
    for name, part in _PARTS.items():
        kept[name] = tuple(part(**one) for one in kept[name])
    kept["branches"] = tuple(_branch(one) for one in kept["branches"])
    kept["resin"] = Resin(**kept["resin"])
    kept["pump"] = Pump(**kept["pump"])
    kept["back"] = Back(**kept["back"])
    kept["roughness"] = Roughness(**kept["roughness"])
    return Crack(**kept)


def _branch(kept: dict[str, Any]) -> Branch:
    return Branch(**(kept | {"widths": tuple(WidthAt(**one) for one in kept["widths"])}))
