"""The job card ready to print: blocks of lines, and the tables that are filled in by hand."""

from dataclasses import dataclass

from flask_babel import gettext as _

from app.curriculum.model import Source
from app.trade.crack_network import Port
from app.trade.units import UNITS
from app.trainer.card.line import Line
from app.trainer.card.pages import (
    GEAR_SOURCES,
    ORDER_SOURCES,
    PORTS_SOURCES,
    RATIO_A_ML,
    RATIO_SOURCES,
    SHUTDOWN_SOURCES,
    Card,
    ratio_missing,
)
from app.trainer.card.words import in_both, missing_words
from app.trainer.resins.views import unit_of
from app.trainer.words import sheet_value, shown
from app.web.who import choice


@dataclass(frozen=True, slots=True)
class Block:
    """One part of the card: its lines and every source they rest on."""

    id: str
    lines: list[Line]
    sources: list[tuple[str, Source]]


def blocks(card: Card) -> dict[str, Block]:
    """The parts of the card by name."""
    lines = {
        "ports": ([], (*PORTS_SOURCES, *ORDER_SOURCES[card.job.orientation])),
        "spacing": ([], tuple(line.rule.source for line in card.rules)),
        "resin": (card.amounts, ()),
        "parts": (card.parts, ()),
        "seal": (card.seal, ()),
        "time": (card.clock.lines, ()),
        "flow": ([*card.flow.lines, *card.checks], ()),
        "ratio": ([], RATIO_SOURCES),
        "safety": (card.dust, GEAR_SOURCES),
        "shutdown": (card.shutdown, SHUTDOWN_SOURCES),
    }
    return {
        name: Block(name, found, _sources(card, found, more))
        for name, (found, more) in lines.items()
    }


def _sources(card: Card, lines: list[Line], more: tuple[str, ...]) -> list[tuple[str, Source]]:
    names = dict.fromkeys((*(name for line in lines for name in line.sources), *more))
    return [(name, card.sources[name]) for name in names]


@dataclass(frozen=True, slots=True)
class Place:
    """Where sources are found: their numbers, ready to print. `is_name`: a publication's name."""

    numbers: str
    where: str
    is_name: bool
    is_recalled: bool


def places(card: Card) -> list[Place]:
    """Every place some source of the card names, in the order of its letters."""
    found: dict[str, list[int]] = {}
    first: dict[str, Source] = {}
    for number, source in enumerate(card.sources.values(), start=1):
        where = source.place(choice("language"))
        found.setdefault(where, []).append(number)
        first.setdefault(where, source)
    return [
        Place(
            numbers=", ".join(map(str, found[where])),
            where=where,
            is_name=isinstance(first[where].where, str),
            is_recalled=first[where].confidence == "from memory",
        )
        for where in sorted(found, key=str.casefold)
    ]


def facts(card: Card) -> list[tuple[str, str]]:
    """The job's facts as pairs of words."""
    job, crack = card.job, card.crack
    runs = {
        "vertical": _("Up a wall"),
        "horizontal": _("Along a wall, or on a floor"),
        "overhead": _("On an underside"),
    }
    width = in_both(crack.mean_width_mm)
    if crack.is_gauged:
        narrowest = shown(crack.narrowest_mm, "length")
        width = _("%(mean)s on average, %(least)s at least", mean=width, least=narrowest)
    return [
        (_("Crack runs"), runs[job.orientation]),
        (
            _("Length, with branches") if crack.branches_mm else _("Length"),
            in_both(crack.length_mm),
        ),
        (_("Width"), width),
        (_("Member"), in_both(job.thickness_mm)),
        (
            _("Depth"),
            _("full thickness") if job.is_full_depth else in_both(job.depth_mm),
        ),
        (_("Sides open"), _("Both") if job.access == "both" else _("One")),
        (
            _("Ports"),
            _("%(count)s, on the surface", count=crack.ports)
            if job.port_kind == "surface"
            else _("%(count)s, in drilled holes", count=crack.ports),
        ),
    ]


@dataclass(frozen=True, slots=True)
class LogRow:
    """One port of the log, in the order of injection."""

    port: int
    where: str


def log_rows(card: Card) -> list[LogRow]:
    """A row for each port: where it lies along its line."""
    return [LogRow(port.number, _where(card, port)) for port in card.ports]


def _where(card: Card, port: Port) -> str:
    along = shown(port.at_mm, "length")
    if port.line == 0:
        return along
    branches = len(card.crack.drawn.branches)
    if port.line <= branches:
        return _("branch %(n)s, %(along)s", n=port.line, along=along)
    return _("island %(n)s, %(along)s", n=port.line - branches, along=along)


@dataclass(frozen=True, slots=True)
class RatioTable:
    """The ratio sample to fill in: when, and the band of B as shares of A and for one amount."""

    when: list[str]
    low: str = ""
    high: str = ""
    a: str = ""
    least: str = ""
    most: str = ""
    missing: str = ""


def ratio_rows(card: Card) -> RatioTable:
    """The samples of a day; without parts or tolerance on the sheet the band stays open."""
    when = [_("Start of the day"), _("After a stop of over an hour"), "", _("End of the day")]
    if card.ratio is None:
        names = ratio_missing(card.resin) or ("ratio_tolerance",)
        return RatioTable(when, missing=", ".join(map(sheet_value, names)))
    low, high = card.ratio.b_low_ml / RATIO_A_ML, card.ratio.b_high_ml / RATIO_A_ML
    # An amount that cups are marked in.
    a_ml = RATIO_A_ML if choice("units") == "metric" else float(4 * UNITS["floz"].factor)
    amounts = (shown(ml, "volume") for ml in (a_ml, a_ml * low, a_ml * high))
    return RatioTable(when, f"{low:.4g}", f"{high:.4g}", *amounts)


def sheet_rows(card: Card) -> list[tuple[str, str]]:
    """Each value the data sheet must confirm with the one the card took; "" where it is missing."""
    rows: list[tuple[str, str]] = []
    for line in card.sheet:
        if line.name == "tested_ml":
            words, quantity = missing_words(line.name), "volume"
        else:
            words, quantity = sheet_value(line.name), unit_of(line.name)
        plain = quantity == "ratio" and line.value is not None
        value = (
            f"{line.value:.4g}"
            if plain
            else ""
            if line.value is None
            else shown(line.value, quantity)
        )
        rows.append((words, value))
    return rows
