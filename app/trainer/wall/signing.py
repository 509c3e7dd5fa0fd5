"""A sign-off from a phone: bytes in, one record out, once. No Flask.

Judged by its signature and its key's status on arrival, not by how fresh a session is. The verdict
is worked out again from the signed body; where the phone's differs, nothing is recorded.
"""

from dataclasses import dataclass, replace
from datetime import datetime

from sqlalchemy import Connection

from app.accounts.device_keys import registered_key, verified_by
from app.accounts.printed_names import seal_name
from app.curriculum.model import Curriculum
from app.curriculum.scoring import NotScorable
from app.records.deciding.decisions import decide_practical
from app.records.events import Flag, ModuleRevision, Practical
from app.records.ledger.door import Receipt, append, event_by_id, history_of, receipt_of
from app.records.observation import FromDevice, Observation, Signature
from app.records.policy import policy_from
from app.records.standing.settling import Settled, settle
from app.records.texts.in_force import text_hash
from app.trade.errors import Refusal
from app.trainer.doing import Doer
from app.trainer.repairs.papers import papers_of
from app.trainer.signing.body import observation_of
from app.trainer.signing.sign_off import NotComplete
from app.trainer.wall.body import TYP, BodyWrong, WallBody, read_body
from app.trainer.wall.papers import WallPapers, papers_signed
from app.workbook.observations import mark_signed
from app.workbook.sign_offs import PhoneSignOff, keep_sign_off, mark_recorded, sign_off_of


class NotOpen(Refusal):
    """The repair is not one of the trainer's open ones."""

    template = "This repair is not open any more: it was given up, or it is not yours."


class SignedAlready(Refusal):
    """Something else is on record for this repair."""

    template = "This repair is on record already, with something else in it. Nothing was added."


class OtherVerdict(Refusal):
    """The phone and the server come to different verdicts."""

    template = (
        "The phone's verdict is “{phone}”, worked out here it is “{here}”. Nothing was recorded. "
        "Open the repair again, look at each step and sign again."
    )


class SignedByAnother(Refusal):
    """The body's trainer is not who sends it."""

    template = "Somebody else signed this."


@dataclass(frozen=True, slots=True)
class Sent:
    """A sign-off as it came, with the times of the phone; ``sent`` has no way or key yet."""

    curriculum: Curriculum
    doer: Doer
    sent: PhoneSignOff
    is_device_revoked: bool


def record_signed(connection: Connection, asked: Sent, compact: str) -> Receipt:
    """Record what a registered phone signed; sent again, it gives the first receipt.

    Raises a Refusal. A phone reported lost: it is kept and flagged, and counts only countersigned.
    """
    key, device = registered_key(connection, compact, asked.doer.person_id)
    body = read_body(verified_by(key.public_key, compact, TYP, key.id))
    sent = replace(asked.sent, way="device", key_id=key.id, signed_text=compact)
    is_lost = asked.is_device_revoked or device.is_revoked
    return _record(connection, asked, sent, body, "device-revoked" if is_lost else "")


def hold(connection: Connection, asked: Sent, text: str) -> PhoneSignOff:
    """Keep what a phone without a key sends, until its trainer confirms it with the password."""
    body = read_body(text.encode())
    held = replace(asked.sent, way="password", signed_text=text)
    _must_be_theirs(asked, body)
    _papers(connection, asked, body)
    keep_sign_off(connection, held)
    return held


def confirm(connection: Connection, asked: Sent, held: PhoneSignOff) -> Receipt:
    """Record what was held, once the password was right; raises a Refusal."""
    body = read_body(held.signed_text.encode())
    flag: Flag = "device-revoked" if asked.is_device_revoked else ""
    return _record(connection, asked, held, body, flag)


def _record(
    connection: Connection, asked: Sent, sent: PhoneSignOff, body: WallBody, flag: Flag
) -> Receipt:
    _must_be_theirs(asked, body)
    earlier = _first_receipt(connection, sent, body)
    if earlier is not None:
        return earlier
    papers = _papers(connection, asked, body)
    event = _decided(connection, asked, papers, body, sent, flag)
    keep_sign_off(connection, sent)
    receipt = append(connection, event)
    mark_signed(connection, body.id, asked.doer.now)
    mark_recorded(connection, body.id, asked.doer.now)
    return receipt


def _must_be_theirs(asked: Sent, body: WallBody) -> None:
    if body.trainer != asked.doer.person_id:
        raise SignedByAnother
    if body.id != asked.sent.observation_id:
        raise BodyWrong(reason="It is about another repair than the one it came for.")


def _first_receipt(connection: Connection, sent: PhoneSignOff, body: WallBody) -> Receipt | None:
    event = event_by_id(connection, body.id)
    if event is None:
        return None
    kept = sign_off_of(connection, body.id)
    if kept is None or kept.sha256 != sent.sha256 or kept.recorded_at is None:
        raise SignedAlready
    return receipt_of(connection, body.id)


def _papers(connection: Connection, asked: Sent, body: WallBody) -> WallPapers:
    """The signed papers, complete and with the verdict that was shown at the wall."""
    opened = papers_of(connection, asked.curriculum, body.id, asked.doer.person_id)
    if opened is None:
        raise NotOpen
    papers = papers_signed(asked.curriculum, opened, body)
    try:
        here = "pass" if not papers.open_points() and papers.score().passed else "not-yet"
    except NotScorable as problem:
        raise NotComplete from problem
    if papers.open_points():
        raise NotComplete
    if here != body.verdict:
        raise OtherVerdict(phone=body.verdict, here=here)
    return papers


def _decided(
    connection: Connection,
    asked: Sent,
    papers: WallPapers,
    body: WallBody,
    sent: PhoneSignOff,
    flag: Flag,
) -> Practical:
    watching = papers.watching
    history = history_of(connection, watching.person_id, asked.doer.person_id)
    return decide_practical(
        history,
        policy_from(asked.curriculum).rule(watching.qualification_id),
        asked.doer.act(watching.id, watching.occurred_on),
        person=watching.person_id,
        job=watching.job_id,
        observation=_observation(connection, papers, body, sent, asked.doer.now),
        passed=papers.score().passed,
        revisions=_revisions(settle(history), papers, body),
        trainer=watching.trainer_id,
        flag=flag,
    )


def _revisions(settled: Settled, papers: WallPapers, body: WallBody) -> tuple[ModuleRevision, ...]:
    """The revisions that stood on the phone, with their texts' hashes; none is newer than ours."""
    ours = {module.id: module for module in papers.modules}
    for one in body.modules:
        if not 1 <= one.revision <= ours[one.module].revision:
            raise BodyWrong(reason=f"revision {one.revision} of {one.module} is not known.")
    return tuple(
        ModuleRevision(
            module=m.module,
            revision=m.revision,
            text_sha256=text_hash(settled, ours[m.module], m.revision),
        )
        for m in body.modules
    )


def _observation(
    connection: Connection, papers: WallPapers, body: WallBody, sent: PhoneSignOff, now: datetime
) -> Observation:
    """As signed; confirmed with the password, it is signed at that moment."""
    is_device = sent.way == "device"
    signature = Signature(
        printed_name=seal_name(connection, body.trainer, body.printed_name),
        meaning=body.meaning,
        signed_at=body.signed_at if is_device else now,
        way="device" if is_device else "password",
        language=body.language,
    )
    return replace(
        observation_of(papers, signature),
        photos=body.photos,
        device=FromDevice(
            device=sent.device_id,
            key=sent.key_id,
            sha256=sent.sha256,
            sequence=sent.sequence,
            claimed_at=sent.claimed_at,
            server_seen_at=sent.server_seen_at,
        ),
    )
