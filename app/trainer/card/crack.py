"""The crack of a job card: its lines, its ports, its mean width and volume. No Flask here."""

from dataclasses import dataclass

from app.drawing.crack_sketch import Drawn
from app.trade.crack import crack_volume, mean_width
from app.trade.crack_network import Port
from app.trade.errors import Refusal
from app.trade.port_layout import PortLayout, port_layout
from app.trade.spacing import port_count
from app.trade.typed_lines import length_of
from app.trainer.card.plan import Plan
from app.workbook.jobs import Job

MOST_PORTS = 300  # more than this on one card and nobody fills the log in
MAY_DIFFER = 0.05  # drawn against measured: more than this is a slip of the pen


class LengthsDiffer(Refusal):
    """The line drawn is not as long as the crack was measured."""

    template = (
        "The line drawn is {drawn} long, the job says {measured}. Which is right? "
        "A new job takes another length."
    )


class GaugesDoNotSpan(Refusal):
    """The gauged widths do not run from one end of the crack to the other."""

    template = "Gauge from end to end: the first place is 0, the last {measured}."


class TooManyPorts(Refusal):
    """More ports than one card holds."""

    template = (
        "{count} ports are too many for one card. Split the crack into jobs of {most} or fewer."
    )


@dataclass(frozen=True, slots=True)
class Crack:
    """The crack as it will be injected. Lengths in mm, volume in mL.

    `narrowest_mm`: the smallest width gauged, that of the job where nobody gauged more.
    `layout` is None when `refused` says why.
    """

    drawn: Drawn
    length_mm: float  # of every line, branches and islands too
    branches_mm: float  # of it, beside the main line
    mean_width_mm: float
    narrowest_mm: float
    is_gauged: bool
    net_ml: float
    ports: int
    largest_gap_mm: float
    layout: PortLayout | None
    refused: Refusal | None = None

    @property
    def listed(self) -> tuple[Port, ...]:
        """The ports in the order of injection; none when there are too many."""
        return () if self.layout is None else self.layout.ports


def crack_of(job: Job, plan: Plan) -> Crack:
    """The crack of a job with what the plan draws.

    A straight line as long as the crack stands in where nothing was drawn. Branches and islands
    are counted at the main line's depth and mean width; the card says so.
    Errors: LengthsDiffer, GaugesDoNotSpan; the refusals of port_layout.
    """
    drawn = _drawn(job, plan)
    beside = sum(length_of(line) for line in (*plan.branches, *plan.islands))
    widths = [width for _, width in _gauges(job, plan)]
    mean = mean_width(*zip(*plan.gauges, strict=True)) if plan.gauges else job.width_mm
    length = job.length_mm + beside
    layout, refused = _layout(job, plan, drawn, length)
    return Crack(
        drawn=drawn,
        length_mm=length,
        branches_mm=beside,
        mean_width_mm=mean,
        narrowest_mm=min((w for w in widths if w > 0), default=job.width_mm),
        is_gauged=plan.gauges is not None,
        net_ml=crack_volume(length, job.depth_mm, mean),
        ports=layout.count if layout else port_count(job.length_mm, job.spacing_mm),
        largest_gap_mm=layout.largest_gap_mm if layout else job.spacing_mm,
        layout=layout,
        refused=refused,
    )


def _drawn(job: Job, plan: Plan) -> Drawn:
    if plan.path is None:
        end = (0.0, job.length_mm) if job.orientation == "vertical" else (job.length_mm, 0.0)
        return Drawn(((0.0, 0.0), end), plan.branches, plan.islands)
    length = length_of(plan.path)
    if abs(length - job.length_mm) > MAY_DIFFER * job.length_mm:
        raise LengthsDiffer(drawn=length, measured=job.length_mm)
    return Drawn(plan.path, plan.branches, plan.islands)


def _gauges(job: Job, plan: Plan) -> tuple[tuple[float, float], ...]:
    if plan.gauges is None:
        return ()
    first, last = plan.gauges[0][0], plan.gauges[-1][0]
    if first != 0 or abs(last - job.length_mm) > MAY_DIFFER * job.length_mm:
        raise GaugesDoNotSpan(measured=job.length_mm)
    return plan.gauges


def _layout(
    job: Job, plan: Plan, drawn: Drawn, length: float
) -> tuple[PortLayout | None, Refusal | None]:
    close = plan.island_spacing_mm or job.spacing_mm / 2
    rounds = sum(map(length_of, plan.islands)) / close
    count = int(length / job.spacing_mm + rounds) + 1
    if count > MOST_PORTS:
        return None, TooManyPorts(count=count, most=MOST_PORTS)
    layout = port_layout(
        drawn.main,
        job.spacing_mm,
        job.orientation,
        drawn.branches,
        drawn.islands,
        island_spacing_mm=plan.island_spacing_mm,
        start_at=plan.start_at or "first-end",
        widest_at_mm=_widest_at(drawn, plan),
    )
    return layout, None


def _widest_at(drawn: Drawn, plan: Plan) -> float | None:
    if plan.gauges is None or plan.start_at != "widest":
        return None
    place = max(plan.gauges, key=lambda gauge: gauge[1])[0]
    return min(place, length_of(drawn.main))
