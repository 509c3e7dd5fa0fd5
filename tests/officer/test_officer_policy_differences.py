"""A policy that came into force is told as what made the difference, by its approval."""

import re
import shutil
from html import unescape

import pytest

from app.curriculum.loading.content import load_curriculum
from app.settings import ROOT
from tests.officer.text_servers import servers_at


@pytest.fixture(scope="module")
def stricter(tmp_path_factory: pytest.TempPathFactory):
    """The content with a policy that asks for work every month instead of every six."""
    folder = tmp_path_factory.mktemp("stricter") / "content"
    shutil.copytree(ROOT / "content", folder)
    path = folder / "qualifications.yaml"
    words = path.read_text()
    for old, new in (("continuity_months: 6", "continuity_months: 1"), ('"2026-2"', '"2026-3"')):
        assert words.count(old) == 1
        words = words.replace(old, new)
    path.write_text(words)
    return load_curriculum(folder)


@pytest.fixture
def running(firm, settings, clock, curriculum, stricter):
    both = servers_at(settings, clock, curriculum, stricter)
    assert both.as_delivered().status_code == 303
    firm.ready()  # the last repair on 20 February
    firm.decide("grant", both.client("olga", both.delivered))
    yield both
    both.stop()


def compare(running, **query: str) -> tuple[str, str]:
    answer = running.client("olga").get("/differences", query_string=query)
    page = unescape(answer.get_data(as_text=True))
    assert answer.status_code == 200, page
    inside = page.split("<main")[1].split("<footer")[0]
    return page, " ".join(re.sub(r"<[^>]+>", " ", inside).split())


def test_it_is_named_with_its_record(running, clock):
    clock.pass_time(days=28)
    query = {"as_of": "2026-03-25", "then": "2026-03-25"}
    assert "Nothing differs." in compare(running, **query)[1]
    answer = running.approve(text="policy", occurred_on="2026-03-30")
    assert answer.status_code == 303, answer.get_data(as_text=True)
    approval = running.approvals()[-1]
    page, said = compare(running, **query)
    assert "In between people came to be judged by another policy." in said
    assert "Ben Invented Pump operator Believed then Current Known now Lapsed" in said
    made = page.split("This record made the difference:")[1].split("</ul>")[0]
    assert f'href="/records/{approval.id}"' in made
    assert "Current → Lapsed" in said


def test_a_policy_that_is_still_to_come_changes_nothing_until_its_day(running, clock):
    clock.pass_time(days=20)
    assert running.approve(text="policy", occurred_on="2026-03-26").status_code == 303
    query = {"as_of": "2026-03-22", "then": "2026-03-21"}
    assert "Nothing differs." in compare(running, **query)[1]
    clock.pass_time(days=6)  # 28 March
    said = compare(running, **query)[1]
    assert "26 Mar 2026, 00:00 EDT" in said
    assert "Believed then Current Known now Lapsed" in said
    # Between two days gone by that both come before it, nothing differs.
    assert "Nothing differs." in compare(running, **query, known_on="2026-03-25")[1]


def test_before_the_first_approval_nothing_is_compared_with_nothing(running, clock):
    clock.pass_time(days=3)
    said = compare(running, as_of="2026-03-02", then="2026-03-01")[1]
    assert "In between people came" not in said
    assert "Not qualified Known now Current" in said  # by the grant
