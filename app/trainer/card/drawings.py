"""The drawings of the job card with their words: sketch, reach, pot life, where the resin goes."""

from dataclasses import dataclass
from typing import Any

from flask_babel import gettext as _

from app.drawing.crack_sketch import crack_sketch
from app.drawing.pot_life_plot import PotLifeWords, pot_life_plot
from app.drawing.reach_plot import ReachWords, reach_plot
from app.drawing.resin_bar import Piece, resin_bar
from app.trade.errors import Refusal
from app.trainer.card.pages import Card
from app.trainer.card.words import line_label, verdict_words
from app.trainer.words import shown
from app.web.telling import in_language
from app.web.who import choice


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing and the line under it."""

    svg: str
    caption: str


def drawings(card: Card) -> dict[str, Drawing]:
    """Every drawing that can be made; one for which a value is missing is left out."""
    makers = {"sketch": _sketch, "resin": _resin, "reach": _reach, "life": _life}
    made = {name: maker(card) for name, maker in makers.items()}
    return {name: drawing for name, drawing in made.items() if drawing is not None}


def _system() -> Any:
    return choice("units")


def _sketch(card: Card) -> Drawing | None:
    layout = card.crack.layout
    if layout is None:
        return None
    title = _("The crack with its ports, to scale")
    words = _(
        "%(count)s ports, numbered in the order of injection. Port 1 is filled: start there. "
        "Widest gap between ports %(gap)s.",
        count=layout.count,
        gap=shown(layout.largest_gap_mm, "length"),
    )
    return Drawing(crack_sketch(card.crack.drawn, layout, title, words), words)


def _resin(card: Card) -> Drawing:
    pieces = [
        Piece(
            0 if line.is_open else line.number,
            f"{line_label(line.name)}: "
            + (_("not known yet") if line.is_open else shown(line.value, line.quantity)),
        )
        for line in card.amounts[:-1]
    ]
    title = _("Where the resin goes")
    return Drawing(resin_bar(pieces, title, "; ".join(piece.words for piece in pieces)), title)


def _reach(card: Card) -> Drawing | None:
    flow, crack = card.flow, card.crack
    if flow.drive is None or flow.next_port is None:
        return None
    spacing = shown(crack.largest_gap_mm, "length")
    width = shown(crack.narrowest_mm, "length")
    verdict = verdict_words(flow.next_port.verdict)
    words = ReachWords(
        title=_("How far the resin gets before it gels"),
        description=_(
            "Reach over the width of the crack for a straight and a round front. At %(width)s "
            "the straight front gets %(straight)s, the round one %(round)s; the next port is "
            "%(spacing)s away.",
            width=width,
            straight=shown(flow.next_port.straight_reach_mm, "length"),
            round=shown(flow.next_port.radial_reach_mm, "length"),
            spacing=spacing,
        ),
        width=_("Width of the crack"),
        reach=_("Reach before gel"),
        straight=_("straight front"),
        round=_("round front"),
        spacing=_("next port: %(spacing)s", spacing=spacing),
        this_crack=_("this crack: %(width)s", width=width),
    )
    try:
        svg = reach_plot(flow.drive, crack.narrowest_mm, crack.largest_gap_mm, words, _system())
    except Refusal:
        return None
    caption = _(
        "Next port: %(verdict)s. Both curves are upper bounds: a smooth crack, full pressure.",
        verdict=verdict,
    )
    return Drawing(in_language(svg), caption)


def _life(card: Card) -> Drawing | None:
    sheet, at = card.resin.values, card.plan.resin_temperature_c
    band = card.clock.band
    if band is None or at is None:
        return None
    here = shown(at, "temperature")
    low, high = shown(band.low_min, "time"), shown(band.high_min, "time")
    words = PotLifeWords(
        title=_("Pot life over temperature"),
        description=_(
            "A band around the rule of thumb. At %(here)s the pot life lies from %(low)s to "
            "%(high)s.",
            here=here,
            low=low,
            high=high,
        ),
        temperature=_("Temperature of the resin"),
        pot_life=_("Pot life"),
        resin_now=_("this resin: %(here)s", here=here),
    )
    reference = (float(sheet.pot_life_min or 0), float(sheet.pot_life_reference_c or 0))
    caption = _("The dot is the data sheet's own figure. Plan with the lower edge.")
    return Drawing(pot_life_plot(*reference, at, words, _system()), caption)
