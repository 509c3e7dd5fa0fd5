"""A trainer asks whether injection is right: the page gives the charts' answer and every source."""

import re

import pytest

from tests.trainer.card_reading import plain

CRACK = {
    "movement": "dormant",
    "pattern": "isolated",
    "strength": "yes",
    "water": "dry",
    "member": "reinforced",
    "width": "15 mil",
    "temperature": "65 F",
}


def asked(yard, **changes: str):
    return yard.client.get("/repair-choice", query_string=CRACK | changes)


def page_of(yard, **changes: str) -> str:
    answer = asked(yard, **changes)
    assert answer.status_code == 200
    return answer.get_data(as_text=True)


@pytest.mark.parametrize(
    ("changes", "answer"),
    [
        # EM 1110-2-2002 fig. 4-4, as restated: dry, wet, no strength, a net of cracks, moving.
        ({}, "The sources lead to injection."),
        ({"water": "wet"}, "The sources lead to injection with reinforcement added."),
        ({"strength": "no", "water": "wet"}, "a flexible seal, not to injection."),
        ({"pattern": "pattern"}, "The sources do not lead to injection."),
        ({"movement": "moving"}, "The sources do not lead to injection."),
    ],
)
def test_the_answer_is_that_of_the_chart(yard, changes: dict[str, str], answer: str):
    said = plain(page_of(yard, **changes))
    assert answer in said
    assert "The engineer decides." in said


def test_every_source_of_width_stands_side_by_side_in_the_readers_units(yard):
    page = page_of(yard, width="5 mil")  # 0.127 mm: over 0.12, under 0.13 and 0.15 mm
    table = plain(page[page.index('id="widths"') :])
    assert table.count("wide enough") == 4
    assert table.count("too narrow") == 2
    assert "4.72 mil the resin must still enter here UFGS 03900" in table


def test_doubts_are_told_in_the_readers_units(yard):
    yard.post("/show", units="metric")
    said = plain(page_of(yard, width="0.13 mm", temperature="9 C"))
    assert "Doubt: inject above this: 0.15 mm" in said
    assert "Doubt: This source asks for 10 °C or warmer." in said


def test_what_is_only_remembered_is_marked(yard):
    page = page_of(yard, width="5 mil")
    row = page[page.index("smallest for load-bearing epoxy") :].split("</tr>")[0]
    assert "from memory: check it" in row


def test_each_reason_leads_to_its_source(yard):
    page = page_of(yard, water="damp", member="plain")
    wanted = set(re.findall(r'href="#(src-[\w-]+)"', page))
    assert len(wanted) >= 6
    assert wanted <= set(re.findall(r'id="([^"]+)"', page))


def test_a_question_left_out_is_asked_again_with_the_rest_kept(yard):
    answer = asked(yard, movement="", width="5")
    page = answer.get_data(as_text=True)
    assert answer.status_code == 422
    assert "Choose one." in plain(page)
    assert "5 what? Add the unit" in plain(page)
    assert 'value="65 F"' in page
    assert "The sources" not in plain(page).split("What do the sources say?")[0]


def test_the_page_first_asks(yard):
    page = yard.page("/repair-choice")
    assert "Something needs another look" not in page
    assert page.count("<h1") == 1
