"""What crew.yaml must hold, and that the real one asks for what a job needs."""

import pytest

from app.curriculum.load_crew import load_crew
from app.curriculum.problems import ContentErrors
from app.settings import ROOT

CREW = """\
crew_version: "test"
everyone:
  - module: safety-gear
    title: {en: Safety gear}
    quiz_months: 12
hands:
  - qualification: lead-injector
    one: {en: a lead injector}
  - qualification: pump-operator
    one: {en: a pump operator}
    count: 2
    beside: true
"""


def test_it_is_read(tmp_path, curriculum):
    (tmp_path / "crew.yaml").write_text(CREW)
    found = load_crew(tmp_path, curriculum.qualifications)
    lead, pump = found.hands
    assert (lead.qualification, lead.count, lead.beside) == ("lead-injector", 1, False)
    assert (pump.count, pump.beside) == (2, True)
    assert found.everyone[0].module == "safety-gear"


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("qualification: pump-operator", "qualification: astronaut",
         "crew.yaml:9: hands.1.qualification: there is no qualification astronaut"),
        ("qualification: pump-operator", "qualification: lead-injector",
         "crew.yaml:9: hands.1.qualification: the qualification lead-injector stands twice; "
         "give the first a count"),
        ("module: safety-gear", "module: safety",
         "crew.yaml:3: everyone.0.module: there is no module safety"),
        ("module: safety-gear", "module: surface-preparation",
         "crew.yaml:9: hands.1.qualification: the qualification pump-operator does not take in "
         "surface-preparation"),
        ("count: 2", "count: 0", "crew.yaml:11: hands.1.count: input should be greater than or"),
        ("count: 2", "count: two", "crew.yaml:11: hands.1.count: input should be a valid integer"),
        ("beside: true", "besides: true", "crew.yaml:12: hands.1.besides: is not a known key"),
        ("    quiz_months: 12\n", "", "crew.yaml:3: everyone.0.quiz_months: is missing"),
        ("{en: a pump operator}", "{es: un operador}",
         "crew.yaml:10: hands.1.one: the English words (en) are missing"),
        ('crew_version: "test"', 'crew_version: ""', "crew.yaml:1: crew_version: must be a text"),
        ('crew_version: "test"', "crew_version: 3", "crew.yaml:1: crew_version: input should be"),
        ("everyone:", "everybody:", "crew.yaml:2: everybody: is not a known key"),
        (CREW[CREW.index("hands:"):], "hands: []\n", "crew.yaml:6: hands: tuple should have at"),
        (CREW, "- a list\n", "crew.yaml:1: file: keys and values are expected here"),
        (CREW, "a: b: c\n", "crew.yaml:1: file:"),
    ],
)  # fmt: skip
def test_a_mistake_is_named_with_file_line_and_key(tmp_path, curriculum, old, new, said):
    assert old in CREW
    (tmp_path / "crew.yaml").write_text(CREW.replace(old, new, 1))
    with pytest.raises(ContentErrors) as raised:
        load_crew(tmp_path, curriculum.qualifications)
    lines = [str(problem) for problem in raised.value.problems]
    assert any(line.startswith(said) for line in lines), lines


def test_a_missing_file_is_named(tmp_path, curriculum):
    with pytest.raises(ContentErrors, match=r"crew\.yaml:1: file: is missing"):
        load_crew(tmp_path, curriculum.qualifications)


def test_the_real_one_asks_for_a_lead_a_pump_hand_and_the_gear_of_everyone(curriculum):
    """Common practice, and the example of the task: one leads, one stays at the pump."""
    found = load_crew(ROOT / "content", curriculum.qualifications)
    assert [(h.qualification, h.count, h.beside) for h in found.hands] == [
        ("lead-injector", 1, False),
        ("pump-operator", 1, False),
    ]
    assert [one.module for one in found.everyone] == ["safety-gear"]
