"""The order of injection: EM 1110-2-2002 §6-22c(5) and TxDOT ch. 3 §5 for vertical and horizontal
cracks; starting at the widest part is a named variant (ACI 224.1R, from memory).
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.errors import NotListed, OutOfRange
from app.trade.injection_order import injection_order, next_port


def test_a_vertical_crack_goes_from_the_lowest_port_up():
    assert injection_order([0, 150, 300], "vertical") == (1, 2, 3)
    assert injection_order([0, 150, 300], "vertical", "last-end") == (1, 2, 3)


def test_a_horizontal_crack_goes_from_one_end_to_the_other():
    assert injection_order([0, 150, 300], "horizontal") == (1, 2, 3)
    assert injection_order([0, 150, 300], "horizontal", "last-end") == (3, 2, 1)
    assert injection_order([0, 150, 300], "overhead") == (1, 2, 3)


def test_widest_first_is_a_variant_that_must_be_named():
    order = injection_order([0, 150, 300, 460], "horizontal", "widest", [0.2, 0.2, 0.5, 0.3])
    assert order == (3, 2, 4, 1)


def test_widest_first_needs_a_width_at_every_port():
    with pytest.raises(NotListed, match="3 widths needed"):
        injection_order([0, 150, 300], "horizontal", "widest")


def test_ports_in_no_order_are_refused():
    with pytest.raises(NotListed, match="beyond the one before"):
        injection_order([0, 300, 150], "vertical")


@given(
    st.lists(st.integers(1, 500), min_size=2, max_size=30),
    st.sampled_from(["horizontal", "overhead"]),
    st.sampled_from(["first-end", "last-end", "widest"]),
    st.data(),
)
def test_every_port_comes_once_and_beside_one_already_injected(steps, orientation, start, data):
    places = [sum(steps[: n + 1]) for n in range(len(steps))]
    widths = data.draw(st.lists(st.floats(0, 5), min_size=len(places), max_size=len(places)))
    order = injection_order(places, orientation, start, widths)
    assert sorted(order) == list(range(1, len(places) + 1))
    for turn, port in enumerate(order[1:], start=1):
        assert {port - 1, port + 1} & set(order[:turn])


def test_the_next_port_is_the_one_above():
    assert next_port(1, 8, "vertical") == 2
    assert next_port(8, 8, "vertical", start="high") == 7


def test_after_the_last_port_there_is_none():
    assert next_port(8, 8, "horizontal") == 0
    assert next_port(1, 8, "overhead", start="high") == 0


def test_a_port_that_does_not_exist_is_refused():
    with pytest.raises(OutOfRange, match="port is 9"):
        next_port(9, 8, "vertical")
