"""Cracks simple enough that paper and pencil know how they fill."""

from dataclasses import replace

from app.trade.fill import Crack, Event, Filling, Port, Pump, Resin, WidthAt, move_to, pump, watch

RESIN = Resin(0.3)
STEADY = Pump(pressure_pa=100_000, flow_m3_per_s=1e-2, refusal_m3_per_s=0)

# 1 m of crack, 0.2 mm wide, 0.1 m deep, filled by a hole drilled across its end: a line source.
LINE = Crack(
    1.0,
    0.1,
    (WidthAt(0, 0.2e-3),),
    (Port(0, drilled_m=0.1), Port(1.0)),
    RESIN,
    STEADY,
    orientation="horizontal",
    columns=100,
    rows=5,
)
# A level crack seen from one port in the middle of its face, with room all round.
ROUND = replace(
    LINE,
    depth_m=0.5,
    ports=(Port(0.5), Port(0.0), Port(1.0)),
    columns=81,
    rows=40,
    port_radius_m=0.002,
)


def pumping(crack: Crack, port: int = 1) -> Filling:
    """A run with the hose on a port and the valve open."""
    filling = Filling(crack)
    filling.apply(move_to(port))
    filling.apply(pump())
    return filling


def first(events: tuple[Event, ...], kind: str) -> Event:
    """The first event of a kind."""
    return next(event for event in events if event.kind == kind)


def shows_at(crack: Crack, port: int, longest_s: float = 80_000) -> float:
    """When resin pumped in at port 1 shows at another."""
    return first(
        pumping(crack).apply(watch(longest_s, "resin-at-port", port)), "resin-at-port"
    ).at_s


def off_balance(filling: Filling) -> float:
    """Resin pumped less resin found, as a share of what was pumped."""
    behind = filling.behind
    return (behind.used_m3 - behind.in_crack_m3 - behind.leaked_m3) / behind.used_m3
