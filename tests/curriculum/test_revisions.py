"""Which revision of a module is in force on a day."""

from datetime import date

import pytest

from app.curriculum.revisions import (
    Revision,
    RevisionsRefused,
    least_revision,
    revision_in_force,
)

LIST = [
    Revision(3, date(2024, 9, 1), "editorial"),
    Revision(1, date(2024, 1, 1), "major"),
    Revision(2, date(2024, 5, 1), "major"),
]


@pytest.mark.parametrize(
    ("on", "in_force", "least"),
    [
        (date(2023, 12, 31), None, None),
        (date(2024, 1, 1), 1, 1),
        (date(2024, 4, 30), 1, 1),
        (date(2024, 5, 1), 2, 2),
        (date(2024, 8, 31), 2, 2),
        (date(2025, 1, 1), 3, 2),
    ],
)
def test_the_newest_begun_is_in_force_and_the_last_major_is_enough(on, in_force, least):
    found = revision_in_force(LIST, on), least_revision(LIST, on)
    assert [one and one.number for one in found] == [in_force, least]


def test_before_any_major_one_the_first_is_enough():
    edits = [
        Revision(1, date(2024, 1, 1), "editorial"),
        Revision(2, date(2024, 2, 1), "editorial"),
    ]
    assert least_revision(edits, date(2024, 3, 1)).number == 1


def test_a_list_that_contradicts_itself_is_refused():
    with pytest.raises(RevisionsRefused, match="2 stands twice"):
        revision_in_force([*LIST, Revision(2, date(2024, 6, 1), "major")], date(2025, 1, 1))
    with pytest.raises(RevisionsRefused, match="4 begins before 3"):
        revision_in_force([*LIST, Revision(4, date(2024, 6, 1), "major")], date(2025, 1, 1))
