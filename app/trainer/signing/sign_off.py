"""Signing a supervised repair: papers in, one record out, once. No Flask here.

Runs inside the caller's writing transaction. Refusals come back as values so that a wrong password
stays counted; nothing else has been written by then.
"""

from sqlalchemy import Connection

from app.accounts.printed_names import seal_name
from app.curriculum.model import Curriculum
from app.curriculum.scoring import NotScorable
from app.records.deciding.decisions import decide_practical
from app.records.events import Event, ModuleRevision, Practical, Watched
from app.records.ledger.door import Receipt, append, event_by_id, history_of, receipt_of
from app.records.observation import Signature
from app.records.policy import policy_from
from app.trade.errors import Refusal
from app.trainer.doing import Doer, Refused, password_refused
from app.trainer.repairs.papers import Papers
from app.trainer.signing.body import observation_of
from app.workbook.observations import mark_signed


class NotComplete(Refusal):
    """Something is missing in the papers."""

    template = "Something is still open. See the list above."


def sign_repair(
    connection: Connection,
    curriculum: Curriculum,
    papers: Papers,
    meaning: str,
    password: str,
    doer: Doer,
) -> Receipt | Refused:
    """Sign a supervised repair, passed or not yet. Its papers must be open (see papers_of)."""
    refused = password_refused(connection, doer, password)
    if refused is not None:
        return refused
    watching = papers.watching
    seal = seal_name(connection, doer.person_id, doer.name)
    signature = Signature(
        printed_name=seal, meaning=meaning, signed_at=doer.now, language=doer.language
    )
    history = history_of(connection, watching.person_id, doer.person_id)
    try:
        event = _decide(history, curriculum, papers, signature, doer)
    except Refusal as refusal:
        return Refused("password", refusal)
    receipt = append(connection, event)
    mark_signed(connection, watching.id, doer.now)
    return receipt


def _decide(
    history: list[Event],
    curriculum: Curriculum,
    papers: Papers,
    signature: Signature,
    doer: Doer,
) -> Practical:
    watching = papers.watching
    if papers.open_points():
        raise NotComplete
    try:
        score = papers.score()
    except NotScorable as problem:
        raise NotComplete from problem
    return decide_practical(
        history,
        policy_from(curriculum).rule(watching.qualification_id),
        doer.act(watching.id, watching.occurred_on),
        person=watching.person_id,
        job=watching.job_id,
        observation=observation_of(papers, signature),
        passed=score.passed,
        revisions=tuple(
            ModuleRevision(module=m.id, revision=m.revision, text_sha256=m.content_hash)
            for m in papers.modules
        ),
        trainer=watching.trainer_id,
    )


def first_receipt(connection: Connection, record_id: str, doer: Doer) -> Receipt | None:
    """The receipt of a record this trainer signed before; None if there is none."""
    event = event_by_id(connection, record_id)
    is_own = isinstance(event, Watched) and event.trainer == doer.person_id
    return receipt_of(connection, record_id) if is_own else None
