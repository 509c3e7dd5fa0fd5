"""What was seen, judged and refused, in words of the page's language."""

from datetime import date, datetime
from fractions import Fraction

from flask import current_app
from flask_babel import format_date, format_datetime
from flask_babel import gettext as _

from app.curriculum.model import Curriculum
from app.curriculum.scoring import Reason as ScoreReason
from app.records.deciding.refusals import AlreadyRecorded
from app.trade.errors import Refusal
from app.trade.showing import System, show
from app.trade.spacing import SpacingRule
from app.trade.units import BASE_UNITS, UNITS
from app.web.judged_words import judgements, outcomes
from app.web.kept_words import kept_in_each_language
from app.web.telling import in_language, tell
from app.web.value_words import value_word
from app.web.who import choice

# One line of a product data sheet or of a job, in words.
sheet_value = value_word


@kept_in_each_language
def day(on: date) -> str:
    """Return a day as people write it: 2 Mar 2026."""
    return format_date(on, "d MMM y")


def moment(at: datetime) -> str:
    """Return a moment where the firm works, with the zone it is told in."""
    zone = current_app.extensions["lowport_settings"].zone
    return f"{format_datetime(at, 'd MMM y, HH:mm')} ({zone})"


def shown(value: Fraction | float | None, quantity: str) -> str:
    """Return a quantity in the reader's units; words where it is not known."""
    return _("not given") if value is None else _shown(value, quantity, choice("units"))


@kept_in_each_language
def _shown(value: Fraction | float, quantity: str, units: System) -> str:
    return in_language(show(value, quantity, units))


def shown_in(value: Fraction | float, unit: str) -> str:
    """Return a number kept in a base unit in the reader's units."""
    if unit in BASE_UNITS:
        return shown(value, unit)
    known = UNITS.get(unit)
    if known is not None and BASE_UNITS[known.quantity] == unit:
        return shown(value, known.quantity)
    return f"{float(value):.6g} {unit}".strip()


def score_reason(reason: ScoreReason, item_words: str) -> str:
    """Return why a repair is not a pass yet."""
    outcome = outcomes().get(reason.outcome, "")
    match reason.kind:
        case "critical-not-done":
            return _("Critical step, %(outcome)s: %(item)s", outcome=outcome, item=item_words)
        case "critical-out-of-tolerance":
            return _("Critical step out of limits: %(item)s", item=item_words)
        case "critical-not-judged":
            return _("Critical step without a limit to judge it by: %(item)s", item=item_words)
        case "share-below-cut":
            return _("Too few of the other steps were done alone.")
    words = judgements()
    return _(
        "The overall judgement is “%(given)s”. A pass needs at least “%(least)s”.",
        given=words.get(reason.outcome, reason.outcome),
        least=words["works-safely-alone"],
    )


def tell_refusal(refusal: Refusal, curriculum: Curriculum) -> str:
    """Return a refusal's sentence with titles and days in place of ids and dates."""
    if isinstance(refusal, AlreadyRecorded):
        return _("This is in the records already: this person has one on this job that counts.")
    places = dict(refusal.places)
    name = places.get("qualification")
    if name in curriculum.qualifications:
        title = curriculum.qualification(str(name)).title.in_language(choice("language"))
        places["qualification"] = title.lower()
    if isinstance(places.get("on"), date):
        places["on"] = day(places["on"])  # type: ignore[arg-type]
    worded = Refusal(reason="")
    worded.template, worded.places = refusal.template, places
    return tell(worded)


def rule_bounds(rule: SpacingRule) -> str:
    """Return what a spacing rule gives for a member, in the reader's units."""
    low, high = rule.low_mm, rule.high_mm
    if low is not None and low == high:
        return _whole(low)
    if low is None:
        return _("%(most)s or less", most=_whole(high))
    if high is None:
        return _("%(least)s or more", least=_whole(low))
    return _("%(low)s to %(high)s", low=_whole(low), high=_whole(high))


def _whole(length_mm: float | None) -> str:
    """A length that no line breaks in two: 11 13/16 in must not be read as 13/16 in."""
    return shown(length_mm, "length").replace(" ", "\N{NO-BREAK SPACE}")


def rule_words(rule: SpacingRule, is_known: object = None) -> str:
    """Return a spacing rule in words, with its figure once the member is known."""
    said = {
        "spacing-half-thickness": _("Half the thickness"),
        "spacing-depth": _("No more than the crack's depth"),
        "spacing-thickness": _("About the thickness"),
        "spacing-every-150": _("A fixed spacing"),
        "spacing-low-pressure-injectors": _("Low-pressure injectors"),
        "spacing-over-thickness": _("More than the thickness"),
    }.get(rule.source, rule.says)
    return f"{said}: {rule_bounds(rule)}" if is_known else said
