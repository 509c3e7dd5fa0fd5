"""What crew.yaml must hold, and that the real one asks for what a job needs."""

import pytest

from app.curriculum.loading.crew import load_crew
from app.curriculum.loading.problems import ContentErrors
from app.settings import ROOT

OLD_FORM = """\
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
CREW = """\
crew_version: "test"
everyone:
  - module: safety-gear
    title: {en: Safety gear}
    quiz_months: 12
default: usual
sets:
  - id: usual
    title: {en: Usual}
    hands:
      - qualification: lead-injector
        one: {en: a lead injector}
      - qualification: pump-operator
        one: {en: a pump operator}
        count: 2
        beside: true
  - id: by-hand
    title: {en: By hand}
    hands:
      - qualification: preparation-hand
        one: {en: a preparation hand}
"""


def test_it_is_read(tmp_path, curriculum):
    (tmp_path / "crew.yaml").write_text(CREW)
    found = load_crew(tmp_path, curriculum.qualifications)
    usual = found.of("usual")
    lead, pump = usual.hands
    assert (lead.qualification, lead.count, lead.beside) == ("lead-injector", 1, False)
    assert (pump.count, pump.beside) == (2, True)
    assert usual.everyone[0].module == "safety-gear"
    assert usual.title.in_language("en") == "Usual"
    assert [hand.qualification for hand in found.of("by-hand").hands] == ["preparation-hand"]


def test_a_job_that_names_no_set_or_one_that_is_gone_gets_the_default(tmp_path, curriculum):
    (tmp_path / "crew.yaml").write_text(CREW)
    found = load_crew(tmp_path, curriculum.qualifications)
    assert found.of("") == found.of("usual")
    assert found.of("astronauts") is None
    assert found.for_job("astronauts") == found.for_job("") == found.of("usual")
    assert found.for_job("by-hand") == found.of("by-hand")


def test_a_policy_approved_before_there_were_sets_stays_readable(tmp_path, curriculum):
    (tmp_path / "crew.yaml").write_text(OLD_FORM)
    found = load_crew(tmp_path, curriculum.qualifications)
    assert [hand.count for hand in found.of("").hands] == [1, 2]
    assert found.of("").title is None
    assert found.of("usual") is None
    assert found.for_job("overhead") == found.of("")


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("qualification: pump-operator", "qualification: astronaut",
         "crew.yaml:13: sets.0.hands.1.qualification: there is no qualification astronaut"),
        ("qualification: preparation-hand", "qualification: astronaut",
         "crew.yaml:20: sets.1.hands.0.qualification: there is no qualification astronaut"),
        ("qualification: pump-operator", "qualification: lead-injector",
         "crew.yaml:13: sets.0.hands.1.qualification: the qualification lead-injector stands "
         "twice; give the first a count"),
        ("module: safety-gear", "module: safety",
         "crew.yaml:3: everyone.0.module: there is no module safety"),
        ("module: safety-gear", "module: surface-preparation",
         "crew.yaml:13: sets.0.hands.1.qualification: the qualification pump-operator does not "
         "take in surface-preparation"),
        ("count: 2", "count: 0",
         "crew.yaml:15: sets.0.hands.1.count: input should be greater than or"),
        ("count: 2", "count: two",
         "crew.yaml:15: sets.0.hands.1.count: input should be a valid integer"),
        ("beside: true", "besides: true",
         "crew.yaml:16: sets.0.hands.1.besides: is not a known key"),
        ("    quiz_months: 12\n", "", "crew.yaml:3: everyone.0.quiz_months: is missing"),
        ("{en: a pump operator}", "{es: un operador}",
         "crew.yaml:14: sets.0.hands.1.one: the English words (en) are missing"),
        ("{en: By hand}", "{es: A mano}",
         "crew.yaml:18: sets.1.title: the English words (en) are missing"),
        ("    title: {en: By hand}\n", "", "crew.yaml:17: sets.1.title: is missing"),
        ("id: by-hand", "id: usual", "crew.yaml:17: sets.1.id: the set usual stands twice"),
        ("id: by-hand", "id: By hand", "crew.yaml:17: sets.1.id: must be lower-case words"),
        ("default: usual", "default: astronauts",
         "crew.yaml:6: default: there is no set astronauts"),
        ("default: usual\n", "", "crew.yaml:1: file: the key default is missing"),
        ('crew_version: "test"', 'crew_version: ""', "crew.yaml:1: crew_version: must be a text"),
        ('crew_version: "test"', "crew_version: 3", "crew.yaml:1: crew_version: input should be"),
        ("everyone:", "everybody:", "crew.yaml:2: everybody: is not a known key"),
        (CREW[CREW.index("sets:"):], "sets: []\n", "crew.yaml:7: sets: tuple should have at"),
        (CREW[CREW.index("sets:"):], "", "crew.yaml:1: file: the key sets is missing"),
        (CREW[CREW.index("sets:"):], OLD_FORM[OLD_FORM.index("hands:"):],
         "crew.yaml:6: default: there are no sets to choose from"),
        ("sets:", OLD_FORM[OLD_FORM.index("hands:"):] + "sets:",
         "crew.yaml:7: hands: stands beside sets; put these hands into one of them"),
        (CREW[CREW.index("    hands:\n      - qualification: prep"):], "    hands: []\n",
         "crew.yaml:19: sets.1.hands: tuple should have at"),
        (CREW, OLD_FORM[:OLD_FORM.index("hands:")] + "hands: []\n",
         "crew.yaml:6: hands: tuple should have at"),
        (CREW, OLD_FORM.replace("pump-operator", "astronaut"),
         "crew.yaml:9: hands.1.qualification: there is no qualification astronaut"),
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


def hands(needs) -> list[tuple[str, int]]:
    assert not any(hand.beside for hand in needs.hands)
    return [(hand.qualification, hand.count) for hand in needs.hands]


def test_the_real_one_has_a_set_for_each_kind_of_job(curriculum):
    """Common practice: one leads, one stays at each pump, one more hand overhead."""
    found = load_crew(ROOT / "content", curriculum.qualifications)
    lead, pump, hand = ("lead-injector", 1), ("pump-operator", 1), ("preparation-hand", 1)
    assert hands(found.of("")) == hands(found.of("one-pump")) == [lead, pump]
    assert hands(found.of("two-pumps")) == [lead, ("pump-operator", 2)]
    assert hands(found.of("hand-cartridges")) == [lead, hand]
    assert hands(found.of("overhead")) == [lead, pump, hand]
    assert [one.module for one in found.everyone] == ["safety-gear"]
    assert all({"en", "es"} <= one.title.root.keys() for one in found.sets)
