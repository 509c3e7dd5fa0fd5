"""The board as a file: the same answers as on the page, and nothing a spreadsheet would run."""

import csv
from io import StringIO

import pytest

from app.officer.board.csv_file import safe_cell


def lines(client, **query: str) -> list[list[str]]:
    answer = client.get("/board.csv", query_string=query)
    assert answer.status_code == 200
    assert answer.headers["Content-Type"] == "text/csv; charset=utf-8"
    return list(csv.reader(StringIO(answer.get_data().decode("utf-8-sig"), newline="")))


def table(client, **query: str) -> list[dict[str, str]]:
    found = lines(client, **query)
    start = found.index([]) + 1
    return [dict(zip(found[start], line, strict=True)) for line in found[start + 1 :]]


def test_it_says_for_which_days_it_was_made(firm, olga):
    heading = {
        line[0]: line[1:] for line in lines(olga, as_of="2026-02-15", known_on="2026-02-20") if line
    }
    assert heading["As of"] == ["2026-02-15"]
    assert heading["As known on"] == ["2026-02-20"]
    assert heading["Made by"] == ["Olga Invented", "2 Mar 2026, 09:00 EST"]
    assert {line[0]: line[1:] for line in lines(olga) if line}["As of"] == ["2026-03-02"]


def test_a_line_says_who_what_since_when_until_when_and_why(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    (line,) = table(olga, qualification="pump-operator", standing="current")
    assert line == {
        "Person": "Ben Invented",
        "Sign-in name": "ben",
        "Qualification": "Pump operator",
        "Standing": "Current",
        "Granted on": "2026-03-02",
        "Last good day": "2028-03-02",
        "Continuity due on": "2026-08-20",
        "Reasons": "Granted on 2026-03-02 by Olga Invented.",
    }


def test_due_soon_carries_both_words_and_its_warning(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    (line,) = table(olga, as_of="2026-08-10", standing="due-soon")
    assert line["Standing"] == "Current, Due soon"
    assert "A repair or verified job must come by 2026-08-20." in line["Reasons"]


def test_every_person_and_qualification_has_a_line(firm, olga):
    found = table(olga)
    people = {line["Person"] for line in found}
    assert people == {"Ben Invented", "Tomas Invented", "Uma Invented"}
    assert len(found) == 3 * len(firm.curriculum.qualifications)


@pytest.mark.parametrize(
    "name",
    [
        *('=HYPERLINK("http://invented.example")', "+1+1", "-2+3", "@SUM(A1)", "  =1+1"),
        *("＝1+1", "＋1", "－1", "＠A1"),
    ],
)
def test_a_name_that_looks_like_a_formula_is_only_text(firm, olga, cast, name: str):
    # The signs are those of the OWASP page "CSV Injection".
    cast.add("mal.formed", "worker", printed_name=name)
    for line in lines(olga):
        for cell in line:
            assert not cell.lstrip().startswith(("=", "+", "-", "@", "＝", "＋", "－", "＠"))
    shown = " ".join(name.split())
    assert any(line["Person"] == f"'{shown}" for line in table(olga))


@pytest.mark.parametrize("text", ["\t=1", "\r=1", "\n=1", "\t1"])
def test_control_signs_at_the_start_are_kept_from_running(text: str):
    assert safe_cell(text) == f"'{text}"


def test_an_ordinary_name_stays_as_it_is(firm, olga, cast):
    cast.add("o.brien", "worker", printed_name="Ñandú O'Brien-Müller, invented")
    assert "Ñandú O'Brien-Müller, invented" in {line["Person"] for line in table(olga)}
