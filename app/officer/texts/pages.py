"""The texts: in the files, in force by the records, still to come, and before. No Flask here."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection

from app.curriculum.bundles import POLICY
from app.curriculum.model import Curriculum, Module
from app.records.deciding.revising import Text
from app.records.events import ContentRevised
from app.records.ledger.door import history_of
from app.records.standing.settling import Settled, settle
from app.records.texts.in_force import approvals_of, in_force


@dataclass(frozen=True, slots=True)
class Revised:
    """An approval on record; voided_by: the counter-entry that made it void, or ""."""

    event: ContentRevised
    voided_by: str


@dataclass(frozen=True, slots=True)
class TextState:
    """A text on a day.

    name: a module's id, or POLICY; module: as it is in the files, None where they have it no more;
    history: its approvals, the newest first; now: the one in force; to_come: approved for later.
    """

    name: str
    module: Module | None
    files: Mapping[str, bytes]
    file_hash: str
    file_revision: int
    label: str
    history: tuple[Revised, ...]
    now: ContentRevised | None
    to_come: tuple[ContentRevised, ...]

    @property
    def is_waiting(self) -> bool:
        """Whether the files hold a text that nobody has approved."""
        approved = {one.event.sha256 for one in self.history if not one.voided_by}
        return bool(self.files) and self.file_hash not in approved

    @property
    def was_never_approved(self) -> bool:
        """Whether there is no approval at all yet."""
        return not any(one.event.sha256 for one in self.history)

    @property
    def is_not_numbered(self) -> bool:
        """Whether the words changed and the number, or the policy's version, did not."""
        newest = max((o.event.revision for o in self.history if not o.voided_by), default=0)
        labels = {one.event.label for one in self.history if not one.voided_by}
        same_label = bool(self.label) and self.label in labels
        return self.is_waiting and (self.file_revision <= newest or same_label)


def text_states(connection: Connection, files: Curriculum, on: date) -> list[TextState]:
    """Every text in learning order, those that only the records know, then the policy."""
    events = history_of(connection)
    settled = settle(events)
    revised = [event for event in events if isinstance(event, ContentRevised)]
    known = [event.module for event in revised if event.module not in files.modules]
    names = dict.fromkeys((*files.modules, *known))
    names.pop(POLICY, None)
    return [_state(settled, revised, files, name, on) for name in (*names, POLICY)]


def _state(
    settled: Settled, revised: list[ContentRevised], files: Curriculum, name: str, on: date
) -> TextState:
    own = [event for event in revised if event.module == name]
    approved = approvals_of(settled, name)
    module = files.modules.get(name)
    numbers = [event.revision for event in settled.revisions.get(name, ())]
    is_policy = name == POLICY
    policy_number = max(numbers, default=0) + 1
    return TextState(
        name=name,
        module=module,
        files=files.policy_files if is_policy else module.files if module else {},
        file_hash=files.policy_hash if is_policy else module.content_hash if module else "",
        file_revision=policy_number if is_policy else module.revision if module else 0,
        label=files.policy_version if is_policy else "",
        history=tuple(Revised(event, settled.voided.get(event.id, "")) for event in reversed(own)),
        now=in_force(settled, name, on),
        to_come=tuple(event for event in approved if event.occurred_on > on),
    )


def text_of(state: TextState) -> Text:
    """What an approval of the files' text is about."""
    return Text(
        name=state.name,
        revision=state.file_revision,
        sha256=state.file_hash,
        label=state.label,
    )
