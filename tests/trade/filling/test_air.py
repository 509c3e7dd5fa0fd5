"""Air in the crack: let out, shut in, squeezed by Boyle's law, given back.

Boyle 1662: p V is constant at one temperature; the open air is at 101,325 Pa (standard atmosphere).
"""

from dataclasses import replace

import pytest
from scipy.integrate import quad

from app.trade.fill import (
    Contact,
    Filling,
    Port,
    Pump,
    cap,
    close,
    move_to,
    pump,
    uncap,
    wait,
    watch,
)
from tests.trade.filling.strips import LINE, first, off_balance, pumping

ATMOSPHERE_PA = 101_325
SHUT = replace(LINE, ports=(Port(0, drilled_m=0.1),))


@pytest.mark.parametrize("over_pa", [50_000.0, 101_325.0, 202_650.0])
def test_a_shut_crack_fills_as_far_as_the_air_can_be_squeezed(over_pa: float) -> None:
    # By hand: at 101,325 Pa over, the air is squeezed to half; at twice that, to a third.
    filling = pumping(replace(SHUT, pump=Pump(over_pa, 1e-2, 0)))
    filling.apply(wait(3000))
    assert filling.behind.filled_share == pytest.approx(
        over_pa / (over_pa + ATMOSPHERE_PA), abs=1e-4
    )
    (pocket,) = filling.behind.pockets
    assert pocket.pressure_pa == pytest.approx(over_pa + ATMOSPHERE_PA, rel=1e-3)
    assert pocket.pressure_pa * pocket.volume_m3 == pytest.approx(ATMOSPHERE_PA * 2e-5, rel=1e-5)
    assert pocket.to_m == pytest.approx(1.0)


def test_squeezing_takes_the_time_that_the_cubic_law_gives_it() -> None:
    # dL/dt = w² (p − p_air(L)) / (12 μ L) with p_air from Boyle's law, integrated by scipy.
    filling = pumping(replace(SHUT, pump=Pump(200_000, 1e-2, 0)))
    for target in (0.3, 0.5, 0.6):

        def pace(x: float) -> float:
            air = ATMOSPHERE_PA / (1 - x) - ATMOSPHERE_PA
            return 12 * 0.3 * x / ((0.2e-3) ** 2 * (200_000 - air))

        time_s, _ = quad(pace, 0, target)
        filling.apply(wait(time_s - filling.time_s))
        assert filling.behind.filled_share == pytest.approx(target, rel=0.02)


def test_air_that_fades_into_the_concrete_lets_the_crack_fill_up() -> None:
    squeezed = pumping(replace(SHUT, pump=Pump(200_000, 1e-2, 0)))
    fading = pumping(replace(SHUT, pump=Pump(200_000, 1e-2, 0), air_loss_per_min=0.5))
    squeezed.apply(wait(3000))
    shares = []
    for _ in range(4):
        fading.apply(wait(150))
        shares.append(fading.behind.filled_share)
    assert shares == sorted(shares)
    assert shares[-1] > squeezed.behind.filled_share + 0.2


def test_overpressure_fades_by_the_stated_rate() -> None:
    # The valve is shut, so the pocket keeps its volume, and what is over the open air's pressure
    # falls by e^(−k t): the definition of air_loss_per_min.
    filling = pumping(replace(SHUT, pump=Pump(100_000, 1e-2, 0), air_loss_per_min=0.3))
    filling.apply(wait(20))
    filling.apply(close())
    before = filling.behind.pockets[0].pressure_pa - ATMOSPHERE_PA
    filling.apply(wait(120))
    after = filling.behind.pockets[0].pressure_pa - ATMOSPHERE_PA
    assert after / before == pytest.approx(2.718281828**-0.6, rel=1e-3)


def test_capping_the_next_port_before_the_back_is_reached_leaves_a_pocket() -> None:
    # Ports closer than the crack is deep (trade-facts §2): resin at the next port does not prove
    # that the back was reached.
    crack = replace(
        LINE, depth_m=0.4, length_m=0.6, ports=(Port(0), Port(0.2)), columns=60, rows=40
    )
    filling = pumping(crack)
    filling.apply(watch(3600, "resin-at-port", 2))
    assert filling.behind.share_by_depth[0] > filling.behind.share_by_depth[-1]
    filling.apply(cap(2))
    events = filling.apply(wait(3000))
    assert first(events, "air-trapped").value > 0.4 * filling.behind.crack_m3
    pocket = filling.behind.pockets[0]
    assert pocket.to_depth_m == pytest.approx(0.4)
    assert filling.behind.trapped_share == pytest.approx(1 - filling.behind.filled_share, rel=0.02)
    # Left open until the back was full, the same port would have let the air out.
    patient = pumping(crack)
    patient.apply(wait(3000))
    assert patient.behind.trapped_share < filling.behind.trapped_share / 2


def test_starting_at_the_top_traps_air() -> None:
    # The lesson's order is the lowest port first (EM 1110-2-2002 §6-22c(5)). A wide crack and a
    # slow pump: resin runs down and cuts off the corner above and behind.
    wall = replace(
        LINE,
        length_m=1.5,
        depth_m=0.2,
        widths=(replace(LINE.widths[0], width_m=0.6e-3),),
        ports=tuple(Port(0.3 * n) for n in range(6)),
        pump=Pump(200_000, 2e-7, 0),
        orientation="vertical",
        columns=75,
        rows=20,
    )
    from_the_top, from_the_foot = pumping(wall, 6), pumping(wall, 1)
    events = from_the_top.apply(wait(400))
    assert first(events, "air-trapped").value > 0
    corner = from_the_top.behind.pockets[0]
    assert corner.to_m == pytest.approx(1.5)
    assert corner.to_depth_m == pytest.approx(0.2)
    assert all(event.kind != "air-trapped" for event in from_the_foot.apply(wait(400)))
    assert from_the_foot.behind.pockets == ()


def test_squeezed_air_pushes_resin_back_out_of_a_port_that_is_opened() -> None:
    filling = pumping(replace(SHUT, pump=Pump(200_000, 1e-2, 0)))
    filling.apply(wait(1000))
    squeezed = filling.behind
    filling.apply(cap(1))
    assert filling.apply(wait(600)) == ()
    assert filling.behind.in_crack_m3 == pytest.approx(squeezed.in_crack_m3, rel=1e-9)
    filling.apply(uncap(1))
    assert first(filling.apply(watch(10)), "resin-at-port").number == 1
    filling.apply(wait(3000))
    assert filling.behind.out_of_ports_m3 > 0.9 * squeezed.in_crack_m3
    assert abs(off_balance(filling)) < 1e-9


def test_two_pockets_that_meet_share_their_air() -> None:
    # Two ends of one shut crack, filled from both sides by turns: one pocket in the middle, and at
    # the end all of it under the pump's pressure. Boyle's law over the whole.
    crack = replace(LINE, ports=(Port(0, drilled_m=0.1), Port(1.0, drilled_m=0.1)))
    filling = Filling(crack)
    filling.apply(cap(2))
    for port in (1, 2):
        filling.apply(move_to(port))
        filling.apply(pump())
        filling.apply(wait(2000))
        filling.apply(close())
        filling.apply(cap(port))
    (pocket,) = filling.behind.pockets
    assert pocket.volume_m3 * pocket.pressure_pa == pytest.approx(ATMOSPHERE_PA * 2e-5, rel=1e-4)
    assert pocket.from_m > 0.1
    assert abs(off_balance(filling)) < 1e-9


def test_air_behind_a_blocked_stretch_stays_where_it_is() -> None:
    crack = replace(LINE, contacts=(Contact(0.4, 0.45, 0, 0.1),))
    filling = pumping(crack)
    filling.apply(wait(2000))
    beyond = [pocket for pocket in filling.behind.pockets if pocket.from_m >= 0.45]
    assert beyond == []  # it still reaches the open port at the far end
    filling.apply(cap(2))
    filling.apply(wait(10))
    (pocket,) = [pocket for pocket in filling.behind.pockets if pocket.from_m >= 0.45]
    assert pocket.pressure_pa == pytest.approx(ATMOSPHERE_PA)
