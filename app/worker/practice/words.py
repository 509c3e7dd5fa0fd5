"""What happened at the wall, and what the lesson says about it, in words of the page's language."""

from collections.abc import Sequence

from flask_babel import gettext as _

from app.trade.errors import NotAChoice, OutOfRange, Refusal
from app.trade.set_cracks import SET_CRACKS
from app.trade.showing import show
from app.web.telling import in_language, tell
from app.web.who import choice
from app.worker.practice.acts import HARDENS_S
from app.worker.practice.job_crack import JobCrack
from app.worker.practice.lesson_order import Remark
from app.worker.practice.papers import Done, Happened


def shown(value: float, quantity: str) -> str:
    """A quantity in its base unit, as the reader's units write it."""
    return in_language(show(value, quantity, choice("units")))  # type: ignore[arg-type]


def pressure(value_pa: float) -> str:
    """A pressure kept in Pa."""
    return shown(value_pa / 1e6, "pressure")


def volume(value_ml: float) -> str:
    """A volume in mL."""
    return shown(value_ml, "volume")


def share(value: float) -> str:
    """A share from 0 to 1 in whole per cent; a crack is only full at 100."""
    whole = round(value * 100)
    if whole == 100 and value < 0.9999:
        return f"{int(value * 1000) / 10:g} %"
    return f"{whole} %"


def clock(time_s: float) -> str:
    """Minutes and seconds since the start, as a stop-watch shows them."""
    whole = round(time_s)
    return f"{whole // 60}:{whole % 60:02d}"


def title_of(name: str) -> str:
    """The title of a set crack; one that has no words here keeps the model's."""
    words = {
        "plain-vertical": _("A plain crack up a wall"),
        "horizontal": _("A level crack"),
        "overhead": _("A crack on the underside of a slab"),
        "tapering": _("A crack that narrows upwards"),
        "pinhole-leak": _("A hole left in the seal"),
        "branch-with-island": _("A branch, and a strand around an island"),
        "back-not-sealed": _("A back that is open for a stretch"),
        "deep-with-close-ports": _("A deep crack with ports close together"),
        "too-cold": _("A cold wall in winter"),
        "too-narrow": _("A crack too narrow for its ports"),
        "nearly-gelled": _("A batch that is nearly too old"),
        "wrong-viscosity": _("The wrong resin for the width"),
    }
    return words.get(name) or SET_CRACKS[name].title


def teaches(name: str) -> str:
    """What a set crack teaches. The sentences stand with the cracks and are translated here."""
    return _(SET_CRACKS[name].teaches)


def orientation(word: str) -> str:
    """How the crack runs."""
    return {
        "vertical": _("Up a wall"),
        "horizontal": _("Level, along a wall"),
        "overhead": _("On an underside"),
    }[word]


def port_state(state: str) -> str:
    """What can be seen at a port."""
    return {
        "open": _("open, dry"),
        "shows": _("resin shows"),
        "capped": _("capped"),
        "hose": _("hose, valve shut"),
        "hose-open": _("hose, pumping"),
    }[state]


def act_words(done: Done) -> str:
    """What the trainee did, in few words."""
    port = done.act.port
    return {
        "pump": _("Opened and pumped"),
        "close": _("Shut the valve"),
        "watch": _("Watched"),
        "watch-long": _("Watched on"),
        "move": _("Hose to port %(port)s", port=port),
        "cap": _("Capped port %(port)s", port=port),
        "uncap": _("Took the cap off port %(port)s", port=port),
        "up": _("Pressure up to %(pressure)s", pressure=pressure(done.set_pa)),
        "down": _("Pressure down to %(pressure)s", pressure=pressure(done.set_pa)),
        "seal": _("Sealed the leak and let it harden"),
    }[done.act.name]


def seen_words(event: Happened) -> str:
    """An event that a hand can see."""
    match event.kind:
        case "resin-at-port":
            return _("Resin shows at port %(port)s.", port=event.number)
        case "leak-at-pinhole":
            return _("Resin leaks through the seal.")
        case "port-over-limit":
            return _(
                "Port %(port)s is over its limit: %(pressure)s.",
                port=event.number,
                pressure=pressure(event.value),
            )
        case "pressure-limit":
            return _("The gauge has climbed to the pressure you set.")
        case "refusal":
            return _("Hardly anything goes in any more.")
        case "gel":
            return _("The resin has gelled.")
    return ""


def hidden_words(event: Happened) -> str:
    """An event that shows only once the wall is open."""
    match event.kind:
        case "air-trapped":
            return _("Air was shut in: %(volume)s.", volume=volume(event.value * 1e6))
        case "leak-at-back":
            return _("Resin began to run out at the back.")
    return seen_words(event)


def just_done(done: Done) -> list[str]:
    """What to tell right after an act: what was seen, or that nothing was."""
    sentences = [words for event in done.events if (words := seen_words(event))]
    if sentences:
        return sentences
    port = done.act.port
    passed = clock(done.to_s - done.from_s)
    return [
        {
            "close": _("The valve is shut."),
            "move": _("The hose is on port %(port)s. The valve is shut.", port=port),
            "cap": _("Port %(port)s is capped.", port=port),
            "uncap": _("Port %(port)s is open.", port=port),
            "up": _("The pump is set to %(pressure)s.", pressure=pressure(done.set_pa)),
            "down": _("The pump is set to %(pressure)s.", pressure=pressure(done.set_pa)),
            "seal": _("The leak is sealed. %(minutes)s min have passed.", minutes=_minutes()),
        }.get(done.act.name)
        or _("%(passed)s have passed. Nothing new shows.", passed=passed)
    ]


def _minutes() -> int:
    return round(HARDENS_S / 60)


def remark_words(remark: Remark) -> str:
    """What the lesson says about an act."""
    port = remark.port
    match remark.code:
        case "starts-right":
            return _("The lesson starts at port %(port)s too.", port=port)
        case "next-right":
            return _("Resin showed here: the lesson moves here next.")
        case "next-dry":
            return _("Right port, but no resin had shown here yet. Nothing shows: stop and think.")
        case "not-next":
            return _("The lesson would go to port %(port)s.", port=port)
        case "went-back":
            return _("Back to a port that was pumped before.")
        case "left-open":
            return _("Port %(port)s was left open: resin can run back out.", port=port)
        case "cap-right":
            return _("Shut, cap, move: as in the lesson.")
        case "cap-early":
            return _("Too early: resin had not shown at port %(port)s.", port=port)
        case "cap-shown":
            return _("It showed early. Cap it, stay, come back to it at the end.")
        case "cap-dry":
            return _("No resin had shown here. The air behind it lost its way out.")
        case "pumped-on-leak":
            return _("Pumped on while it leaked. Shut, seal, let it harden, then go on.")
        case "sealed":
            return _("Valve shut, sealed, left to harden: as in the lesson.")
        case "raised":
            return _("More pressure is the wrong first answer when nothing shows.")
        case "over-limit":
            return _("Above what the ports bear. On a wall a port can come off.")
    raise NotAChoice("remark", remark.code, ())


def refused(refusal: Refusal) -> str:
    """Why an act was not done; a port or an act that no page offers is told in general."""
    if isinstance(refusal, (NotAChoice, OutOfRange)):
        return _("Choose a port first: press its number. Then press what to do.")
    return tell(refusal)


def pocket_words(strip: int, sizes: Sequence[str]) -> str:
    """Where a pocket lies: which strip, from where to where, how deep."""
    first, last, from_depth, to_depth = sizes
    where = _("main crack") if strip == 0 else _("branch %(number)s", number=strip)
    return _(
        "%(where)s, %(first)s to %(last)s along, %(from_depth)s to %(to_depth)s deep",
        where=where,
        first=first,
        last=last,
        from_depth=from_depth,
        to_depth=to_depth,
    )


def assumption(name: str, made: JobCrack) -> str:
    """What the model takes for granted about a job's crack."""
    return {
        "even-width": _("The crack has one mean width. Real cracks narrow and widen."),
        "gauged": _("Between two gauged widths the crack narrows or widens evenly."),
        "no-branches": _("Nothing branches off."),
        "branches-alike": _("The branches are as deep as the crack and have its mean width."),
        "branches-left-out": _(
            "The branches are left out: too many ports, or lines that the model does not know."
        ),
        "sealed": _("The back is sealed and the face seal is whole."),
        "thickening": _("The resin doubles its thickness three times before it gels."),
        "stretch": _(
            "The first %(count)s ports only: a stretch of %(length)s.",
            count=made.count,
            length=shown(made.length_mm, "length"),
        ),
        "surface-ports": _("The drilled ports are taken as surface ports."),
        "limit": _("The data sheet gives no highest pressure. An invented figure stands in."),
        "gel": _("The data sheet gives no gel time. An invented figure stands in."),
        "viscosity": _("The data sheet gives no viscosity. An invented figure stands in."),
    }[name]
