"""The phone's reading, judging and scoring against the same vectors as the server's own."""

import json
import os
import shutil
import subprocess
from fractions import Fraction
from pathlib import Path

import pytest

from app.curriculum.model import ChecklistItem, Curriculum
from app.curriculum.scoring import NotScorable, Seen, score_observation
from app.trade.lengths import Unreadable, read_quantity
from app.trade.pot_life import pot_life_band
from app.trade.units import BASE_UNITS, UNITS, folded
from app.trainer.numbers import decimal_text
from app.trainer.repairs.judging import NotPossible, Open, Verdict, judge
from app.trainer.wall.rules import bounds_of, rule_data

HERE = Path(__file__).resolve().parent
JS = HERE.parents[1] / "app" / "web" / "static" / "js"


def vectors(name: str) -> dict:
    return json.loads((HERE.parent / "vectors" / f"{name}.json").read_text())


READINGS, CHECKS, SCORES = vectors("readings"), vectors("checks"), vectors("scores")


def node(*arguments: str, **environ: str) -> str:
    """What node prints. Without node the test skips and says so; in CI it fails."""
    path = shutil.which("node")
    if path is None:
        if os.environ.get("CI") == "true":
            pytest.fail("No node on this machine: the phone's scripts were not tested.")
        pytest.skip("No node on this machine: the phone's scripts were not tested.")
    done = subprocess.run(
        [path, *arguments], capture_output=True, text=True, env={**os.environ, **environ}
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_the_phones_scripts_pass_their_own_tests(curriculum: Curriculum):
    modules = tuple(curriculum.modules.values())
    rules = {f"{m.id}/{i.id}": rule_data(i) for m in modules for i in m.checklist}
    given = json.dumps({"rules": rules, "bounds": bounds_of(modules)})
    said = node("--test", *map(str, sorted(HERE.glob("*.test.mjs"))), LOWPORT_RULES=given)
    assert "# fail 0" in said or "ℹ fail 0" in said
    assert "# skipped 0" in said or "ℹ skipped 0" in said


def test_the_phone_knows_the_same_units():
    code = (
        f"import {{ UNITS, BASE_UNITS, wordsOf }} from {json.dumps(str(JS / 'trade/units.js'))};"
        "const own = Object.entries(UNITS).map(([n, [q, f, s, o]]) => [n, q, f, s, o, wordsOf(n)]);"
        "console.log(JSON.stringify([own, BASE_UNITS]));"
    )
    units, base = json.loads(node("--input-type=module", "--eval", code))
    assert base == BASE_UNITS
    told = {name: (q, Fraction(f), s, Fraction(o), set(w)) for name, q, f, s, o, w in units}
    assert told == {
        u.name: (u.quantity, u.factor, u.sign, u.offset, {folded(w) for w in u.words})
        for u in UNITS.values()
    }


@pytest.mark.parametrize(("text", "quantity", "unit", "value", "said"), READINGS["read"])
def test_the_server_reads_the_same(text, quantity, unit, value, said):
    reading = read_quantity(text, quantity, unit)
    assert (decimal_text(reading.value), reading.said) == (value, said)


@pytest.mark.parametrize(("text", "quantity", "unit", "template"), READINGS["refused"])
def test_the_server_refuses_the_same(text, quantity, unit, template):
    with pytest.raises(Unreadable) as refused:
        read_quantity(text, quantity, unit)
    assert refused.value.template == template


@pytest.mark.parametrize(("value", "written"), READINGS["decimals"])
def test_the_server_writes_decimals_the_same(value, written):
    assert decimal_text(Fraction(value)) == written


@pytest.mark.parametrize("case", CHECKS["cases"], ids=lambda c: f"{c['item']} {c['measured']}")
def test_the_server_judges_the_same(case, curriculum: Curriculum):
    module, _slash, item = case["item"].partition("/")
    given = {
        name: value if isinstance(value, str) else Fraction(str(value))
        for name, value in CHECKS["given"].items()
        if name not in case.get("without", ())
    }
    measured = {name: Fraction(str(value)) for name, value in case["measured"].items()}
    watched = curriculum.module(module).item(item)
    if "impossible" in case:
        with pytest.raises(NotPossible) as refused:
            judge(watched, measured, given)
        assert refused.value.measure_id == case["impossible"]
        return
    found = judge(watched, measured, given)
    if "nothing" in case:
        assert found is None
    elif "missing" in case:
        assert found == Open(tuple(case["missing"]))
    else:
        assert isinstance(found, Verdict)
        assert found.is_within is case["within"]
        for bound in ("low", "high"):
            wanted = case[bound]
            value = getattr(found, bound)
            assert value == (None if wanted is None else pytest.approx(wanted, rel=1e-9))
        assert found.side_long == case.get("long", "")


@pytest.mark.parametrize(("reference", "now", "at", "low", "high"), CHECKS["pot_life"])
def test_the_server_works_out_the_same_pot_life(reference, now, at, low, high):
    band = pot_life_band(reference, now, at)
    assert (band.low_min, band.high_min) == (pytest.approx(low), pytest.approx(high))


@pytest.mark.parametrize("case", SCORES["cases"], ids=lambda case: case["says"])
def test_the_server_scores_the_same(case):
    items = [
        ChecklistItem.model_construct(
            id=i["id"], critical=i["critical"], rule="x" if i["rule"] else None
        )
        for i in SCORES["items"]
    ]
    told = {**SCORES["all_done"], **case["but"]}
    seen = {
        name: Seen(one[0], *(one[1:2] or [""]), *(one[2:3] or [None]))
        for name, one in told.items()
        if one
    }
    cut = Fraction(*SCORES["cut"])
    if case.get("open"):
        with pytest.raises(NotScorable):
            score_observation(items, seen, case["judgement"], cut)
        return
    found = score_observation(items, seen, case["judgement"], cut)
    assert found.passed is case["passed"]
    assert [reason.kind for reason in found.reasons] == case["reasons"]
