"""The paste seal, against plain geometry."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.errors import OutOfRange
from app.trade.seal import collar_volume, equal_parts, seal_needed, seal_volume


def test_a_strip_of_the_published_size():
    # MLIT Japan (2016) §4.3.4: about 30 mm wide and 2 mm thick; 3 m of it hold 180 mL.
    assert seal_volume(3000, 30, 2) == pytest.approx(180)
    assert seal_volume(3000, 30, 2, sides=2) == pytest.approx(360)


def test_collars_are_flat_rings():
    # Geometry: π·(20² − 10²)·5 mm³ each.
    assert collar_volume(8, 40, 20, 5) == pytest.approx(8 * math.pi * 300 * 5 / 1000)


def test_a_collar_inside_its_port_is_refused():
    with pytest.raises(OutOfRange, match="inner_diameter_mm is 40"):
        collar_volume(8, 40, 40, 5)


@given(st.floats(0, 1e4), st.floats(0, 1e3), st.floats(0, 1))
def test_the_paste_is_measured_in_two_equal_parts(strip, collars, waste):
    needed = seal_needed(strip, collars, waste)
    assert needed.a_ml == needed.b_ml
    assert needed.a_ml + needed.b_ml == pytest.approx(needed.total_ml)
    assert needed.total_ml == pytest.approx((strip + collars) * (1 + waste))
    assert equal_parts(needed.total_ml).a_ml == needed.a_ml
