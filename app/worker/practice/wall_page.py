"""The closed wall, ready to print: the face, the gauge, the clock, what was just seen."""

from dataclasses import dataclass

from flask_babel import gettext as _

from app.drawing.pump_gauge import Reading, pump_gauge, turn_of
from app.drawing.wall_front import LeakSeen, PortSeen, wall_front
from app.trade.filling.crack import Crack
from app.trade.units import UNITS
from app.web.who import choice
from app.workbook.practice_runs import PracticeRun
from app.worker.practice.acts import TOP_PRESSURE_PA
from app.worker.practice.face import lines_of
from app.worker.practice.papers import Done, Papers, WallNow, papers_from
from app.worker.practice.setup import crack_from
from app.worker.practice.words import clock, just_done, port_state, pressure, volume

UPRIGHT, LYING = (176.0, 336.0), (360.0, 150.0)
WITH_BRANCHES = (250.0, 400.0)
# The scale of the gauge: its last tick, and how far the ticks are apart, in the unit named.
SCALES = {"metric": ("mpa", 0.5, 0.1), "us": ("psi", 80.0, 20.0)}


@dataclass(frozen=True, slots=True)
class PortButton:
    """One port to choose: its number, its state by name and in words."""

    number: int
    state: str
    words: str


@dataclass(frozen=True, slots=True)
class WallPage:
    """Everything the run's page shows."""

    run: PracticeRun
    crack: Crack
    now: WallNow
    next_number: int
    chosen: int
    wall_svg: str
    gauge_svg: str
    gauge_turn: float
    gauge_words: str
    set_words: str
    clock: str
    from_s: float
    mixed: str
    gels: str
    used: str
    said: list[str]
    ports: list[PortButton]
    is_lying: bool


def wall_page(run: PracticeRun, chosen: int) -> WallPage:
    """Gather the page of a run whose wall is closed; chosen: the port that the buttons mean."""
    crack, papers = crack_from(run.setup), papers_from(run.acts)
    now = papers.now
    last = papers.done[-1] if papers.done else None
    buttons = [
        PortButton(n, state, port_state(state))
        for n, state in ((n, state_of(n, now)) for n in range(1, len(crack.ports) + 1))
    ]
    reading = _reading(crack, now)
    return WallPage(
        run=run,
        crack=crack,
        now=now,
        next_number=run.acts_count + 1,
        wall_svg=_wall(crack, now, buttons, chosen or now.hose_at),
        chosen=chosen or now.hose_at,
        gauge_svg=_gauge(reading, now),
        gauge_turn=turn_of(min(reading.now, 1.02)),
        gauge_words=pressure(now.gauge_pa),
        set_words=pressure(now.set_pa),
        clock=clock(now.time_s),
        from_s=last.from_s if last else 0.0,
        mixed=clock(now.time_s + crack.resin.age_s),
        gels=clock(crack.resin.gel_time_s),
        used=volume(now.used_ml),
        said=_said(papers, last),
        ports=buttons,
        is_lying=crack.orientation != "vertical",
    )


def state_of(port: int, now: WallNow) -> str:
    """What can be seen at a port: one word for drawing and page."""
    if port == now.hose_at:
        return "hose-open" if now.is_valve_open else "hose"
    if port in now.capped:
        return "capped"
    return "shows" if port in now.showing else "open"


def _said(papers: Papers, last: Done | None) -> list[str]:
    if last is None:
        return [
            _("Every port is open. The hose is on none. Choose a port and move the hose there.")
        ]
    said = just_done(last)
    if papers.now.leaking and not any(e.kind == "leak-at-pinhole" for e in last.events):
        said.append(_("The seal still leaks."))
    return said


def _wall(crack: Crack, now: WallNow, buttons: list[PortButton], chosen: int) -> str:
    ports = [
        PortSeen(button.number, port.strip, port.at_m, button.state, button.number == chosen)
        for button, port in zip(buttons, crack.ports, strict=True)
    ]
    leaks = [
        LeakSeen(crack.pinholes[hole - 1].strip, crack.pinholes[hole - 1].at_m)
        for hole in now.leaking
    ]
    words = [_("port %(port)s: %(state)s", port=b.number, state=b.words) for b in buttons]
    words += [_("the seal leaks")] * bool(leaks)
    size = LYING
    if crack.orientation == "vertical":
        size = WITH_BRANCHES if crack.branches else UPRIGHT
    title = _("The wall from the front, to scale")
    return wall_front(lines_of(crack), ports, leaks, size, title, "; ".join(words))


def _reading(crack: Crack, now: WallNow) -> Reading:
    unit, top, step = SCALES[choice("units")]
    known = UNITS[unit]
    full_pa = top * float(known.factor) * 1e6
    count = round(top / step)
    ticks = [(n / count, f"{n * step:g}") for n in range(count + 1)]
    return Reading(
        now=now.gauge_pa / full_pa,
        set_to=now.set_pa / full_pa,
        limit=crack.port_limit_pa / full_pa,
        ticks=ticks,
        unit=known.sign,
    )


def _gauge(reading: Reading, now: WallNow) -> str:
    title = _("Gauge at the port")
    words = _("%(now)s. Set to %(set)s.", now=pressure(now.gauge_pa), set=pressure(now.set_pa))
    return pump_gauge(reading, title, words)


def most_pressure() -> str:
    """The highest pressure the practice pump can be set to."""
    return pressure(TOP_PRESSURE_PA)
