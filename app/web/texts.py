"""The texts that are served: the approved ones, made anew only when the records say otherwise.

A text in the files that nobody has approved is not served; the last approved one still is, from
the bytes kept with its approval. What is in force is asked of the records in each request: by the
number of the last record that bears on everybody, which is one look at an index. What was made of
the texts is kept by that number and the day, and each text by its hash. So servers side by side
agree as soon as the approval is recorded, whatever is in their files.
"""

from contextlib import nullcontext
from datetime import date

from flask import current_app, g
from sqlalchemy import Connection

from app.curriculum.bundles import POLICY
from app.curriculum.crew import CrewNeeds
from app.curriculum.loading.content import ContentErrors, load_kept_module
from app.curriculum.loading.crew import crew_in
from app.curriculum.loading.policy import Policy
from app.curriculum.loading.text_files import policy_in
from app.curriculum.model import Curriculum, Module, Source
from app.database import reading
from app.driver import fetched
from app.records.events import ContentRevised
from app.records.ledger.door import history_of
from app.records.standing.settling import Settled, settle
from app.records.texts.in_force import approvals_of, in_force
from app.records.texts.kept import TextLost, kept_files
from app.web.now import today

_LAST_SHARED = "SELECT max(seq) FROM record WHERE is_shared = 1"


class TextShelf:
    """What a process keeps: texts by their hash, and what it last made of them. No truth is here.

    files: the content as it was read at the start. is_open: serve it as it is (for tests).
    """

    def __init__(self, files: Curriculum, is_open: bool) -> None:
        self.files = files
        self.is_open = is_open
        self._modules = {module.content_hash: module for module in files.modules.values()}
        self._policies: dict[str, Policy] = {
            files.policy_hash: Policy(
                files.policy_version, tuple(files.modules), dict(files.qualifications)
            )
        }
        self._crews: dict[str, CrewNeeds | None] = {}
        self._settled: tuple[int, Settled] | None = None
        self._made: tuple[Settled, date, Curriculum] | None = None

    def served(self, connection: Connection, on: date) -> Curriculum:
        """The approved texts in force on a day; without modules while there are none."""
        if self.is_open:
            return self.files
        settled, made = self.settled(connection), self._made
        if made is None or made[0] is not settled or made[1] != on:
            made = self._made = (settled, on, self._curriculum(connection, settled, on))
        return made[2]

    def settled(self, connection: Connection) -> Settled:
        """What the records say that bear on everybody; not what a person's own ones say."""
        [(last,)] = fetched(connection, _LAST_SHARED)
        kept = self._settled
        if kept is None or kept[0] != (last or 0):
            kept = self._settled = (last or 0, settle(history_of(connection)))
        return kept[1]

    def served_as_known(self, connection: Connection, settled: Settled, on: date) -> Curriculum:
        """What was served on a day, by the records known then."""
        return self.files if self.is_open else self._curriculum(connection, settled, on)

    def module(self, connection: Connection, name: str, text_hash: str) -> Module:
        """A module of an approved hash. Raises TextLost, ContentErrors."""
        if text_hash not in self._modules:
            files = kept_files(connection, text_hash)
            self._modules[text_hash] = load_kept_module(name, files)
        return self._modules[text_hash]

    def policy(self, connection: Connection, text_hash: str) -> Policy:
        """A policy of an approved hash. Raises TextLost, ContentErrors."""
        if text_hash not in self._policies:
            files = kept_files(connection, text_hash)
            found = policy_in(files)
            self._crews[text_hash] = crew_in(files, found.qualifications)
            self._policies[text_hash] = found
        return self._policies[text_hash]

    def crew(self, connection: Connection, served: Curriculum) -> CrewNeeds | None:
        """Which hands a job needs by the policy that is served; None where it does not say."""
        if served.policy_hash not in self._crews:
            is_own = served.policy_hash == self.files.policy_hash
            files = self.files.policy_files if is_own else {}
            if not is_own and served.policy_hash:
                files = kept_files(connection, served.policy_hash)
            self._crews[served.policy_hash] = crew_in(files, served.qualifications)
        return self._crews[served.policy_hash]

    def why_not(self, connection: Connection, on: date) -> list[tuple[str, str]]:
        """What keeps the texts in force from being served: the text's name and a sentence.

        Only texts that are approved and can't be read; those that wait are no fault.
        """
        settled, found = self.settled(connection), []
        for name in settled.revisions:
            approval = in_force(settled, name, on)
            try:
                if approval is not None and name == POLICY:
                    self.policy(connection, approval.sha256)
                elif approval is not None:
                    self.module(connection, name, approval.sha256)
            except (TextLost, ContentErrors) as problem:
                found.append((name, str(problem)))
        return found

    def _curriculum(self, connection: Connection, settled: Settled, on: date) -> Curriculum:
        """By the newest policy in force whose modules all have a text in force; or without any."""
        begun = [e for e in approvals_of(settled, POLICY) if e.occurred_on <= on]
        for approval in reversed(begun):
            try:
                found = self._made_by(connection, settled, approval, on)
            except (TextLost, ContentErrors):
                continue  # why_not() says it on the officer's page
            if found is not None:
                return found
        sources = self.files.sources
        return Curriculum(policy_version="", modules={}, qualifications={}, sources=sources)

    def _made_by(
        self, connection: Connection, settled: Settled, approval: ContentRevised, on: date
    ) -> Curriculum | None:
        policy = self.policy(connection, approval.sha256)
        texts = {name: in_force(settled, name, on) for name in policy.modules}
        approved = {name: event for name, event in texts.items() if event is not None}
        if len(approved) < len(texts):
            return None
        modules = {
            name: self.module(connection, name, event.sha256) for name, event in approved.items()
        }
        return Curriculum(
            policy_version=policy.version,
            modules=modules,
            qualifications=policy.qualifications,
            sources=_sources(self.files, modules, approved),
            policy_hash=approval.sha256,
        )


def _sources(
    files: Curriculum, modules: dict[str, Module], approved: dict[str, ContentRevised]
) -> dict[str, Source]:
    """Each source as it stood when a module that cites it was approved, the latest one last."""
    found = dict(files.sources)
    for name in sorted(modules, key=lambda name: approved[name].recorded_at):
        found.update(modules[name].sources)
    return found


def text_shelf() -> TextShelf:
    """The shelf of this process."""
    found = current_app.extensions["lowport_texts"]
    assert isinstance(found, TextShelf)
    return found


def served_crew(connection: Connection) -> CrewNeeds | None:
    """Which hands a job needs by the policy in force; None where nothing is, or it does not say."""
    return text_shelf().crew(connection, served_curriculum())


def served_curriculum(connection: Connection | None = None) -> Curriculum:
    """The approved texts in force today; one look at the records for each request.

    connection: one that is open for reading already; otherwise another is opened for the look.
    """
    if "served_curriculum" not in g:
        with nullcontext(connection) if connection else reading() as looking:
            g.served_curriculum = text_shelf().served(looking, today())
    found = g.served_curriculum
    assert isinstance(found, Curriculum)
    return found
