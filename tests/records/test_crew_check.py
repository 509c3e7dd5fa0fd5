"""Who of a crew fills which hand: by brute force, by scipy's matching, and by examples.

The brute force tries every way to give people to places. Outside: scipy's maximum bipartite
matching (Hopcroft and Karp 1973) for how many places can be filled at most.
"""

from itertools import product

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.sparse import csr_array
from scipy.sparse.csgraph import maximum_bipartite_matching

from app.curriculum.crew import Hand
from app.curriculum.text import Text
from app.records.boards.crew_check import Could, cover

LEAD, PUMP, PREPARATION = "lead-injector", "pump-operator", "preparation-hand"


def hand(qualification: str, count: int = 1, beside: bool = False) -> Hand:
    one = Text({"en": f"a {qualification}"})
    return Hand(qualification=qualification, one=one, count=count, beside=beside)


NEEDS = (hand(LEAD), hand(PUMP))


def test_two_people_fill_two_hands():
    lead, pump = cover(NEEDS, {"jon": (LEAD, PUMP), "ida": (PUMP,)}, {})
    assert (lead.by, pump.by) == (("jon",), ("ida",))
    assert lead.lacking == pump.lacking == 0
    assert lead.could == pump.could == ()


def test_whoever_comes_first_moves_on_where_that_fills_more_hands():
    # Taking people in order, jon would lead, and nobody would be left for the pump.
    lead, pump = cover(NEEDS, {"jon": (LEAD, PUMP), "uma": (LEAD,)}, {})
    assert (lead.by, pump.by) == (("uma",), ("jon",))


def test_one_person_cannot_be_in_two_places():
    lead, pump = cover(NEEDS, {"jon": (LEAD, PUMP)}, {"ida": (PUMP,), "dov": (PREPARATION,)})
    assert lead.by == ("jon",)  # the earlier hand is filled
    assert (pump.by, pump.lacking) == ((), 1)
    assert pump.could == (Could("ida", PUMP),)


def test_unless_the_needs_say_that_a_hand_is_beside_another():
    needs = (hand(LEAD), hand(PUMP, beside=True))
    lead, pump = cover(needs, {"jon": (LEAD, PUMP)}, {})
    assert (lead.by, pump.by) == (("jon",), ("jon",))
    # Somebody with both hands free is named first.
    _lead, pump = cover(needs, {"jon": (LEAD, PUMP), "uma": (PUMP,)}, {})
    assert pump.by == ("uma",)
    _lead, pump = cover(needs, {"jon": (LEAD,)}, {"ida": (PUMP,), "uma": (LEAD,)})
    assert pump.could == (Could("ida", PUMP),)


def test_whoever_could_cover_with_hands_changed_round_is_found():
    # Nobody else holds the pump; but uma can lead, and jon go to the pump.
    _lead, pump = cover(NEEDS, {"jon": (LEAD, PUMP)}, {"uma": (LEAD,), "ida": (PUMP,)})
    assert pump.could == (Could("ida", PUMP), Could("uma", LEAD))
    _lead, pump = cover(NEEDS, {"jon": (LEAD,)}, {"uma": (LEAD,)})
    assert pump.could == ()  # jon cannot go to the pump


def test_nobody_at_all():
    lead, pump = cover(NEEDS, {}, {"jon": (LEAD, PUMP)})
    assert (lead.lacking, pump.lacking) == (1, 1)
    assert lead.could == (Could("jon", LEAD),)
    assert pump.could == (Could("jon", PUMP),)


NAMES = ("a", "b", "c")
holdings = st.frozensets(st.sampled_from(NAMES)).map(lambda found: tuple(sorted(found)))
crews = st.lists(holdings, max_size=5).map(lambda all_: {f"p{i}": h for i, h in enumerate(all_)})
needs = st.lists(
    st.tuples(st.sampled_from(NAMES), st.integers(1, 2)), min_size=1, max_size=3,
    unique_by=lambda pair: pair[0],
).map(lambda pairs: tuple(hand(name, count) for name, count in pairs))  # fmt: skip


def places_of(hands: tuple[Hand, ...]) -> list[str]:
    return [one.qualification for one in hands for _ in range(one.count)]


def ways(places: list[str], crew: dict) -> set[tuple[bool, ...]]:
    """Every set of places that can be filled at once: each place empty, or given to anybody."""
    found: set = {(frozenset(), ())}  # who sits already, which places are filled
    for name in places:
        empty = {(seated, (*way, False)) for seated, way in found}
        given_to = {
            (seated | {person}, (*way, True))
            for seated, way in found
            for person, holds in crew.items()
            if name in holds and person not in seated
        }
        found = empty | given_to
    return {way for _seated, way in found}


def filled(hands: tuple[Hand, ...], crew: dict) -> dict[str, int]:
    return {one.hand.qualification: len(one.by) for one in cover(hands, crew, {})}


@settings(deadline=None)
@given(needs, crews)
def test_as_many_places_as_possible_the_earlier_ones_first(hands, crew):
    best = max(ways(places_of(hands), crew), key=lambda way: (sum(way), way))
    expected = dict.fromkeys(places_of(hands), 0)
    for name, is_filled in zip(places_of(hands), best, strict=True):
        expected[name] += is_filled
    assert filled(hands, crew) == expected


@settings(deadline=None)
@given(needs, crews)
def test_nobody_stands_in_two_hands_or_in_one_they_do_not_hold(hands, crew):
    answer = cover(hands, crew, {})
    everybody = [person for one in answer for person in one.by]
    assert len(everybody) == len(set(everybody))
    assert all(one.hand.qualification in crew[person] for one in answer for person in one.by)
    assert all(one.lacking == one.hand.count - len(one.by) for one in answer)


@settings(deadline=None)
@given(st.lists(st.tuples(*[st.booleans()] * 6), min_size=1, max_size=25))
def test_as_many_as_scipys_matching_fills(holds):
    names = [f"q{i}" for i in range(6)]
    hands = tuple(hand(name, 3) for name in names)
    crew = {
        f"p{i}": [name for name, has in zip(names, row, strict=True) if has]
        for i, row in enumerate(holds)
    }
    table = np.array([[h for h in row for _ in range(3)] for row in holds], dtype=np.int8)
    most = (maximum_bipartite_matching(csr_array(table), perm_type="column") >= 0).sum()
    assert sum(filled(hands, crew).values()) == most


@settings(deadline=None)
@given(needs, crews, crews)
def test_exactly_those_could_cover_a_hand_with_whom_one_more_of_it_is_filled(hands, crew, more):
    others = {f"o{person}": holds for person, holds in more.items()}
    now = filled(hands, crew)
    for one in cover(hands, crew, others):
        name = one.hand.qualification
        if not one.lacking:
            assert one.could == ()
            continue
        helps = set()
        for person, holds in others.items():
            # Filled by trying everything: what is filled now, and one more of this hand.
            wanted = {**now, name: now[name] + 1}
            seats = [n for n, count in wanted.items() for _ in range(count)]
            if any(all(way) for way in ways(seats, {**crew, person: holds})):
                helps.add(person)
        assert {could.person for could in one.could} == helps
        for could in one.could:
            assert could.takes in others[could.person]
            assert could.takes == name or name not in others[could.person]


def test_a_crew_as_large_as_may_be_is_answered_at_once():
    hands = tuple(hand(f"q{i}", 20) for i in range(4))
    crew = {f"p{i}": [f"q{j}" for j in range(4)] for i in range(70)}
    answer = cover(hands, crew, {f"o{i}": [f"q{i % 4}"] for i in range(5000)})
    assert [one.lacking for one in answer] == [0, 0, 0, 10]
    assert len(answer[3].could) == 5000


def test_every_pair_of_two_people_and_two_hands():
    """All 16 cases by hand: with a the lead's column and b the pump's."""
    for a1, b1, a2, b2 in product((False, True), repeat=4):
        crew = {
            "p1": [n for n, h in ((LEAD, a1), (PUMP, b1)) if h],
            "p2": [n for n, h in ((LEAD, a2), (PUMP, b2)) if h],
        }
        lead, pump = cover(NEEDS, crew, {})
        both = (a1 and b2) or (a2 and b1)
        assert (not lead.lacking and not pump.lacking) == both
        assert bool(lead.by) == (a1 or a2)
