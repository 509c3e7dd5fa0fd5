"""What to wear and what to beware of on this job, each with its ANSI Z535 signal word."""

from collections.abc import Iterator

from flask_babel import gettext as _

from app.trainer.card.pages import Card
from app.trainer.words import shown

Caution = tuple[str, str]  # signal word, text

# Above a tenth of the lower explosive limit the vapour is too near to burning.
MOST_SHARE = 0.1


def gear() -> list[str]:
    """Protective gear: what the safety data sheet says comes first."""
    return [
        _("Sealed goggles. A face shield on top where resin can spray."),
        _("The gloves the safety data sheet names: nitrile or laminate, not latex."),
        _("Sleeves down, cuffs closed, no skin between glove and sleeve."),
        _("Eyewash within ten seconds of the work, nothing in the way."),
        _("Hands and face washed before eating, drinking, smoking."),
    ]


def cautions(card: Card) -> list[Caution]:
    """The warnings of this job, the gravest first."""
    order = ("DANGER", "WARNING", "CAUTION", "NOTICE")
    return sorted(
        [*_vapour(card), *_always(), *_dust(card), *_pressure(card), *_repair(card)],
        key=lambda caution: order.index(caution[0]),
    )


def _always() -> Iterator[Caution]:
    yield (
        "WARNING",
        _(
            "Resin under pressure can blind or go through skin. Stand to the side of the port. "
            "Pressure out first, wrench second."
        ),
    )
    yield (
        "WARNING",
        _("Resin, hardener and paste can start an allergy for life. Keep them off your skin."),
    )
    yield (
        "WARNING",
        _("Mixed leftovers heat themselves and can burn you. Spread them thin; A and B apart."),
    )


def _vapour(card: Card) -> Iterator[Caution]:
    share = card.line("vapour_share")
    if share is not None and share.number >= 1:
        yield (
            "DANGER",
            _(
                "All of the solvent in the air of this room makes %(times)s × the lower explosive "
                "limit. One spark and it will explode. Do the flush outside.",
                times=f"{share.number:.1f}",
            ),
        )
    elif share is not None and share.number >= MOST_SHARE:
        yield (
            "WARNING",
            _(
                "All of the solvent in the air of this room makes %(share)s of the lower explosive "
                "limit. It can catch fire. Move fresh air before a can is opened.",
                share=shown(share.number, "share"),
            ),
        )
    else:
        yield (
            "WARNING",
            _(
                "Solvent vapour can burn and can put you to sleep. Fresh air first, no sparks. In "
                "a pit, tank or closed room: only with the safety officer's word."
            ),
        )


def _dust(card: Card) -> Iterator[Caution]:
    if card.plan.grinding != "none":
        yield (
            "WARNING",
            _("Concrete dust can scar your lungs for good. No shroud, no collector: no grinding."),
        )


def _pressure(card: Card) -> Iterator[Caution]:
    line = card.line("port_pressure")
    if line is not None and line.value in ("may-leak", "leaks"):
        yield (
            "WARNING",
            _(
                "Ports of this kind leaked at the pressure planned. One can fly off. Ask the "
                "engineer before you pump."
            ),
        )
    line = card.line("sheet_pressure")
    if line is not None and line.value == "outside":
        yield (
            "WARNING",
            _("The pressure planned is above the data sheet's. A port or a hose can burst."),
        )


def _repair(card: Card) -> Iterator[Caution]:
    found = card.flow.next_port
    if found is not None and not found.is_within:
        yield (
            "NOTICE",
            _(
                "The resin may gel before it reaches the next port. Ask the engineer: closer "
                "ports, a thinner or slower resin, warmth. More pressure is the wrong first answer."
            ),
        )
    line = card.line("sheet_temperature")
    if line is not None and line.value == "outside":
        yield (
            "NOTICE",
            _("The resin is outside the temperatures of its data sheet. It may not cure."),
        )
    line = card.line("batch_size")
    if line is not None and line.value == "larger-gels-sooner":
        yield (
            "NOTICE",
            _("The batches are larger than the one tested. They gel sooner; nobody can say when."),
        )
    yield ("NOTICE", _("No thinner and no solvent in the resin. It ruins the bond."))
