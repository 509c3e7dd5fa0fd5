"""Everybody's standing as of a day, as known at a time: from the projection, or the definition.

The projection is used only if it was worked out from all records and by the same policy; otherwise
everything is worked out by judge(), and why_not says so. Either way the answer is the same.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal, Protocol, TypeAlias

from sqlalchemy import Connection, func, select

from app.records.boards.board_cells import Cell
from app.records.boards.defined_cells import defined_cells
from app.records.days import end_of_knowledge
from app.records.events import Event, IdentityMerged
from app.records.ledger.tables import record
from app.records.policy import Policy
from app.records.projection.stored.interval_store import State, read_state
from app.records.projection.stored.known_count import count_known, records_known
from app.records.projection.stored.projected_cells import ProjectedCells
from app.records.projection.stored.projection_policy import fingerprint
from app.records.standing.settling import Settled

# Why a projection was not used: it was never built, is being built, was built by another policy,
# or lacks records. Empty: it was.
WhyNot: TypeAlias = Literal["", "not-built", "building", "other-policy", "records-missing"]


class Cells(Protocol):
    """Where a board has its cells from. events: with all merges; settled: as they were known."""

    @property
    def events(self) -> Sequence[Event]: ...

    @property
    def settled(self) -> Settled: ...

    @property
    def on_record(self) -> frozenset[str]:
        """People with a known record of their own or of an id merged with theirs."""

    def cells_of(self, person: str) -> Iterable[Cell]:
        """The cells of a person; one left out is not qualified."""


@dataclass(frozen=True, slots=True)
class Board:
    """The standings of everybody, or of the people asked for, worked out when looked at.

    qualifications: the columns; records: how many were known; why_not: empty, or why this board
    comes from the records themselves, which takes longer; away: ids entered a second time -> the
    id that is kept.
    """

    qualifications: tuple[str, ...]
    records: int
    why_not: WhyNot
    away: Mapping[str, str]
    source: Cells

    def row(self, person: str) -> tuple[Cell, ...]:
        """A person's cells, in the order of the columns."""
        found = {cell.qualification: cell for cell in self.source.cells_of(person)}
        return tuple(
            found.get(name) or Cell(person=person, qualification=name, status="not-qualified")
            for name in self.qualifications
        )

    def is_on_record(self, person: str) -> bool:
        """Whether any known record is about the person, or about an id merged with theirs."""
        return person in self.source.on_record

    def people(self) -> Iterator[str]:
        """Everybody on record, without the ids that were entered a second time."""
        return (person for person in self.source.on_record if person not in self.away)


def board_standings(
    connection: Connection,
    policy: Policy,
    as_of: date,
    known_on: date | datetime | None = None,
    qualification: str | None = None,
    people: Collection[str] | None = None,
) -> Board:
    """The board as of a day, as known on a day (to its end in UTC), at a time, or now.

    qualification, people: only these; None: all. Raises NoSuchQualification.
    Example: ``board_standings(connection, policy, today).row(person)[0].status``.
    """
    names = tuple(policy.qualifications) if qualification is None else (qualification,)
    wanted = Policy({name: policy.rule(name) for name in names})
    state = read_state(connection)
    why_not = _why_not(connection, state, policy)
    if state is not None and not why_not:
        known = records_known(connection, state, known_on)
        projected = ProjectedCells(connection, policy, wanted, as_of, known_on, people)
        return Board(names, known, "", _away(projected, known_on), projected)
    defined = defined_cells(connection, wanted, as_of, known_on, people)
    count = count_known(connection, known_on)
    return Board(names, count, why_not, _away(defined, known_on), defined)


def why_not_projected(connection: Connection, policy: Policy) -> WhyNot:
    """Why a board by this policy would not come from the projection; empty: it would."""
    return _why_not(connection, read_state(connection), policy)


def _why_not(connection: Connection, state: State | None, policy: Policy) -> WhyNot:
    if state is None:
        return "not-built"
    if state.building:
        return "building"
    if state.fingerprint != fingerprint(policy):
        return "other-policy"
    newest = connection.scalar(select(func.max(record.c.seq))) or 0
    return "" if state.through_seq == newest else "records-missing"


def _away(source: Cells, known_on: date | datetime | None) -> dict[str, str]:
    end = None if known_on is None else end_of_knowledge(known_on)
    return {
        event.merged: event.person
        for event in source.events
        if isinstance(event, IdentityMerged)
        and (end is None or event.recorded_at <= end)
        and event.id not in source.settled.voided
    }
