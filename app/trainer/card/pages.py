"""The whole job card, worked out and in order, ready for words and drawings. No Flask here."""

from dataclasses import dataclass
from itertools import chain

from app.curriculum.model import Curriculum, Source
from app.trade.crack_network import Port
from app.trade.errors import Refusal
from app.trade.ratio import RatioCheck, ratio_check
from app.trainer.card.amounts import parts_lines, resin_lines, seal_lines
from app.trainer.card.clock import Clock, clock_of
from app.trainer.card.crack import Crack, crack_of
from app.trainer.card.flow import Flow, check_lines, flow_of
from app.trainer.card.line import Line
from app.trainer.card.plan import Plan
from app.trainer.card.site import dust_lines, shutdown_lines
from app.trainer.jobs.pages import RuleLine, rule_lines
from app.workbook.jobs import Job
from app.workbook.resins import VALUES, Resin


@dataclass(frozen=True, slots=True)
class SheetLine:
    """One value the data sheet must confirm: what the card took, None where it is missing."""

    name: str
    value: float | None


@dataclass(frozen=True, slots=True)
class Card:
    """A job card. Each list of lines is one block of the page; `sources` numbers every source."""

    job: Job
    resin: Resin
    plan: Plan
    crack: Crack
    rules: list[RuleLine]
    amounts: list[Line]
    parts: list[Line]
    seal: list[Line]
    clock: Clock
    flow: Flow
    checks: list[Line]
    shutdown: list[Line]
    dust: list[Line]
    sheet: list[SheetLine]
    ratio: RatioCheck | None
    sources: dict[str, Source]

    @property
    def ports(self) -> tuple[Port, ...]:
        """The ports in the order of injection."""
        return self.crack.listed

    def line(self, name: str) -> Line | None:
        """The line of that name, or None."""
        return next((line for line in self.every_line() if line.name == name), None)

    def every_line(self) -> list[Line]:
        """Every line of the card in its order."""
        blocks = (self.amounts, self.parts, self.seal, self.clock.lines, self.flow.lines)
        return list(chain(*blocks, self.checks, self.shutdown, self.dust))

    def missing(self) -> tuple[str, ...]:
        """The names of everything some line is open for, each once."""
        return tuple(dict.fromkeys(name for line in self.every_line() for name in line.missing))


# Of blocks that are no lines: what their words and tables rest on.
PORTS_SOURCES = ("ports-ends-junctions", "ports-islands-branches")
ORDER_SOURCES = {
    "vertical": ("injection-lowest-first",),
    "horizontal": ("injection-end-to-end", "injection-widest-first"),
    "overhead": ("injection-overhead",),
}
RATIO_A_ML = 100.0  # of A, for the band of B
RATIO_SOURCES = ("ratio-tolerance", "ratio-test-times", "physical-sample")
GEAR_SOURCES = ("gloves", "skin-sensitiser", "eyewash-distance", "signal-words")
SHUTDOWN_SOURCES = ("mixer-used-once", "solvent-light-oil")


def card_of(curriculum: Curriculum, job: Job, resin: Resin, plan: Plan) -> Card:
    """Work the card out. Errors: the refusals of crack_of, which the form has shown before."""
    crack = crack_of(job, plan)
    sheet = resin.values
    amounts = resin_lines(crack, plan)
    total = amounts[-1].number
    clock = clock_of(total, plan, sheet)
    card = Card(
        job=job,
        resin=resin,
        plan=plan,
        crack=crack,
        rules=rule_lines(curriculum, job.thickness_mm, job.depth_mm, job.spacing_mm),
        amounts=amounts,
        parts=parts_lines(total, sheet),
        seal=seal_lines(crack, plan),
        clock=clock,
        flow=flow_of(crack, plan, sheet, clock.band),
        checks=check_lines(job, plan, sheet),
        shutdown=shutdown_lines(plan),
        dust=dust_lines(plan),
        sheet=[
            *(SheetLine(name, sheet.value(name)) for name in VALUES),
            SheetLine("tested_ml", plan.tested_ml),
        ],
        ratio=_ratio(resin),
        sources={},
    )
    card.sources.update(_sources(curriculum, card))
    return card


def _sources(curriculum: Curriculum, card: Card) -> dict[str, Source]:
    rules = (line.rule.source for line in card.rules)
    order = (*PORTS_SOURCES, *ORDER_SOURCES[card.job.orientation])
    lines = (source for line in card.every_line() for source in line.sources)
    rest = (*RATIO_SOURCES, *GEAR_SOURCES, *SHUTDOWN_SOURCES)
    return {name: curriculum.source(name) for name in (*order, *rules, *lines, *rest)}


def _ratio(resin: Resin) -> RatioCheck | None:
    """The band of B for one amount of A; None while the sheet lacks the parts or the tolerance."""
    values = resin.values
    if None in (values.parts_a, values.parts_b, values.ratio_tolerance):
        return None
    target = RATIO_A_ML * float(values.parts_b or 0) / float(values.parts_a or 1)
    ratio = (values.parts_a or 0, values.parts_b or 0, values.ratio_tolerance or 0)
    try:
        return ratio_check(RATIO_A_ML, target, *ratio)
    except Refusal:
        return None


def ratio_missing(resin: Resin) -> tuple[str, ...]:
    """What the sheet lacks for the ratio sample's band."""
    names = ("parts_a", "parts_b", "ratio_tolerance")
    return tuple(name for name in names if resin.values.value(name) is None)
