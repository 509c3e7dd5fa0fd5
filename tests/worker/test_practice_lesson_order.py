"""Each act held against the lesson's order: content/modules/injection-order/lesson.en.md.

The lesson's steps: number one is the lowest port (agree-the-order); when resin shows, shut, cap the
port you leave, hook up where it showed (cap-and-move); cap a far port that runs clean, do not move
on yet (cap-and-move, Stop if); nothing shows: stop and think (nothing-shows); shut, seal, wait
(leak).
"""

import pytest

from app.worker.practice.acts import Act
from app.worker.practice.lesson_order import remarks_on
from app.worker.practice.papers import Done, Happened

ORDER = (1, 2, 3, 4)


def done(name: str, port: int = 0, shows: tuple[int, ...] = (), *events: str) -> Done:
    """An act, the ports that show resin after it, and other events by kind."""
    told = tuple(Happened(kind, 1.0) for kind in events)
    return Done(Act(name, port), (), 0.0, 1.0, told, 0.0, 0.0, 150_000.0, shows)


def codes(*acts: Done, order: tuple[int, ...] = ORDER) -> list[tuple[str, ...]]:
    return [tuple(remark.code for remark in one) for one in remarks_on(acts, order)]


def test_by_the_book_every_move_and_cap_is_as_in_the_lesson():
    acts = [done("move", 1), done("pump", 0, (2,))]
    for port in (2, 3, 4):
        acts += [done("close", 0, (port,)), done("cap", port - 1, (port,)), done("move", port)]
        acts += [done("pump", 0, (port + 1,) if port < 4 else ())]
    acts += [done("close"), done("cap", 4)]
    found = [code for one in codes(*acts) for code in one]
    assert found == [
        "starts-right",
        *("cap-right", "next-right") * 3,
        "cap-right",
    ]


def test_beginning_elsewhere_names_the_port_the_lesson_begins_at():
    remark = remarks_on([done("move", 4)], ORDER)[0][0]
    assert (remark.mark, remark.code, remark.port) == ("no", "not-next", 1)


def test_the_order_is_the_cracks_own_not_the_numbers():
    assert codes(done("move", 3), order=(3, 2, 1)) == [("starts-right",)]


def test_moving_on_before_resin_showed_is_told():
    acts = [done("move", 1), done("pump"), done("cap", 1), done("move", 2)]
    assert codes(*acts)[2:] == [("cap-early",), ("next-dry",)]


def test_a_port_left_open_is_told_beside_the_move():
    acts = [done("move", 1), done("pump", 0, (2,)), done("move", 2)]
    assert codes(*acts)[-1] == ("left-open", "next-right")


def test_a_far_port_that_shows_first_is_capped_and_gets_its_turn_last():
    acts = [
        done("move", 1),
        done("pump", 0, (3,)),
        done("cap", 3),
        done("watch", 0, (2,)),
        done("cap", 1, (2,)),
        done("move", 2),
        done("pump", 0, (4,)),
        done("cap", 2, (4,)),
        done("move", 4),
        done("pump"),
        done("cap", 4),
        done("move", 3),
    ]
    told = codes(*acts)
    assert told[2] == ("cap-shown",)
    assert told[8] == ("next-right",)
    assert told[11] == ("next-right",)


def test_capping_a_dry_port_shuts_air_in():
    assert codes(done("cap", 3)) == [("cap-dry",)]
    acts = [done("cap", 2), done("cap", 3), done("cap", 4), done("move", 4)]
    assert codes(*acts)[-1] == ("not-next",)


@pytest.mark.parametrize("act", ["watch", "watch-long"])
def test_pumping_on_while_it_leaks_is_told(act: str):
    leak = done("pump", 0, (), "leak-at-pinhole")
    assert codes(done("move", 1), leak, done(act))[-1] == ("pumped-on-leak",)
    assert codes(done("move", 1), leak, done("close"), done(act))[-1] == ()
    after = [done("move", 1), leak, done("close"), done("seal"), done("pump")]
    assert codes(*after)[-2:] == [("sealed",), ()]


def test_more_pressure_and_too_much_of_it_are_told_apart():
    over = done("watch", 0, (), "port-over-limit")
    told = codes(done("move", 1), done("up"), done("pump"), over)
    assert (told[1], told[3]) == (("raised",), ("over-limit",))


def test_going_back_to_a_port_is_neither_right_nor_wrong():
    acts = [done("move", 1), done("pump", 0, (2,)), done("cap", 1), done("move", 2), done("pump")]
    remark = remarks_on([*acts, done("cap", 2), done("move", 1)], ORDER)[-1][0]
    assert (remark.mark, remark.code) == ("", "went-back")
