"""The papers of a supervised repair as a phone signed them, judged again here. No Flask."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from app.curriculum.model import Curriculum, Module
from app.trade.errors import Refusal
from app.trade.lengths import read_quantity
from app.trainer.numbers import decimal_text
from app.trainer.repairs.judging import Values
from app.trainer.repairs.papers import Papers
from app.trainer.wall.body import BodyWrong, WallBody, WallPort
from app.workbook.observations import BATCH, ItemKey, SeenItem, Typed, Watching
from app.workbook.port_logs import PortRow


class OtherRepair(Refusal):
    """The body names another person, job, day or qualification than the repair that is open."""

    template = "What was signed is about another repair than the one opened here: {what} differs."


class OtherChecklist(Refusal):
    """The checklists changed while the phone was away, so that the signed one no longer fits."""

    template = (
        "The checklist was changed while the phone was away. Open the repair again, note what is "
        "new and sign again."
    )


class OtherValues(Refusal):
    """A value of the job or of the data sheet is not the one the phone judged by."""

    template = "The phone judged by another value for {name} than is on file. Look and sign again."


class OtherReading(Refusal):
    """The phone read something else in what was typed than we do."""

    template = "“{typed}” was read as {phone} on the phone and as {here} here. Type it again."


@dataclass(frozen=True)
class WallPapers(Papers):
    """Papers whose limits come from the values that were signed."""

    signed_given: Values

    @cached_property
    def given(self) -> Values:
        """The signed values; None where the data sheet was open when it was signed."""
        return self.signed_given


def papers_signed(curriculum: Curriculum, open_papers: Papers, body: WallBody) -> WallPapers:
    """The papers that a body describes; raises the refusals above and BodyWrong."""
    _same_repair(open_papers.watching, body)
    modules = tuple(_module(curriculum, name.module) for name in body.modules)
    if [m.id for m in modules] != [m.id for m in open_papers.modules]:
        raise OtherChecklist
    watching = open_papers.watching
    papers = WallPapers(
        watching=Watching(
            id=watching.id,
            job_id=watching.job_id,
            person_id=watching.person_id,
            trainer_id=watching.trainer_id,
            qualification_id=watching.qualification_id,
            occurred_on=watching.occurred_on,
            overall=body.judgement,
            remarks=body.remarks,
            started_at=watching.started_at,
        ),
        job=open_papers.job,
        resin=open_papers.resin,
        qualification=open_papers.qualification,
        modules=modules,
        seen={(i.module, i.step): SeenItem(i.outcome, i.reason) for i in body.items},
        measured={**_measured(modules, body), **_batches(body)},
        ports=tuple(_port(line) for line in body.ports),
        signed_given=_given(open_papers, body),
    )
    known = {(module.id, item.id) for module, item in papers.items}
    if known != set(papers.seen) or len(body.items) != len(known):
        raise OtherChecklist
    return papers


def _same_repair(watching: Watching, body: WallBody) -> None:
    pairs = {
        "person": (watching.person_id, body.person),
        "job": (watching.job_id, body.job),
        "qualification": (watching.qualification_id, body.qualification),
        "trainer": (watching.trainer_id, body.trainer),
        "day": (watching.occurred_on, body.occurred_on),
    }
    for name, (here, there) in pairs.items():
        if here != there:
            raise OtherRepair(what=name)


def _module(curriculum: Curriculum, name: str) -> Module:
    found = curriculum.modules.get(name)
    if found is None:
        raise OtherChecklist
    return found


def _given(papers: Papers, body: WallBody) -> Values:
    """Every name a rule may use: the signed value, or none where there was none."""
    signed = {one.name: one.value for one in body.given}
    found: dict[str, Fraction | str | None] = {}
    for name, here in papers.given.items():
        value = signed.pop(name, None)
        if value is None or value == _as_text(here):
            found[name] = here if value is not None else None
        else:
            raise OtherValues(name=name)
    if signed:
        raise OtherValues(name=next(iter(signed)))
    return found


def _as_text(value: Fraction | str | None) -> str | None:
    return value if isinstance(value, str) or value is None else decimal_text(value)


def _measured(modules: tuple[Module, ...], body: WallBody) -> dict[ItemKey, dict[str, Typed]]:
    found: dict[ItemKey, dict[str, Typed]] = {}
    known = {
        (module.id, item.id, measure.id): measure
        for module in modules
        for item in module.checklist
        for measure in item.measures
    }
    for one in body.measured:
        measure = known.get((one.module, one.step, one.name))
        if measure is None:
            raise OtherChecklist
        typed = _read_again(one.typed, measure.quantity, measure.unit, one.value)
        found.setdefault((one.module, one.step), {})[one.name] = typed
    return found


def _batches(body: WallBody) -> dict[ItemKey, dict[str, Typed]]:
    return {
        (BATCH, str(one.number)): {
            "mixed_at": Typed(one.mixed_at, str(_minutes(one.mixed_at))),
            "resin_temperature": _read_again(one.typed, "temperature", None, one.temperature_c),
        }
        for one in body.batches
    }


def _minutes(clock: str) -> int:
    hours, colon, minutes = clock.partition(":")
    if not colon or not (hours + minutes).isdigit() or int(hours) > 23 or int(minutes) > 59:
        raise BodyWrong(reason=f"{clock!r} is no clock time.")
    return 60 * int(hours) + int(minutes)


def _read_again(typed: str, quantity: str, unit: str | None, value: str) -> Typed:
    here = decimal_text(read_quantity(typed, quantity, unit).value)
    if here != value:
        raise OtherReading(typed=typed, phone=value, here=here)
    return Typed(typed.strip(), here)


def _port(line: WallPort) -> PortRow:
    pressure = None
    if line.typed:
        pressure = float(_read_again(line.typed, "pressure", "psi", line.pressure_mpa).value)
    for clock in (line.opened_at, line.next_showed_at):
        if clock:
            _minutes(clock)
    return PortRow(
        row=line.row,
        port=line.port,
        opened_at=line.opened_at,
        next_showed_at=line.next_showed_at,
        pressure_typed=line.typed,
        pressure_mpa=pressure,
        note=line.note[:200],
    )
