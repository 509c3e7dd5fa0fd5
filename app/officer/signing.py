"""Carrying out a signed form: one writing transaction, and each refusal beside its field."""

from collections.abc import Callable

from flask import flash
from flask_babel import gettext as _
from sqlalchemy import Connection

from app.accounts.sign_in import TooManyFailures, WrongSignIn
from app.database import reading, writing
from app.ids import new_id
from app.officer.actions import Signed
from app.officer.blueprint import telling
from app.officer.forms import SignedForm
from app.officer.people.erasing import NameInReason
from app.records.deciding.refusals import (
    AlreadyAuthorised,
    AlreadyMerged,
    AuthorApproves,
    AuthorMissing,
    BeforeApproval,
    DatedInFuture,
    NothingToWithdraw,
    ReasonMissing,
    RevisionBackdated,
    SamePerson,
    TooFarAhead,
)
from app.records.ledger.door import IdTaken, Receipt
from app.trade.errors import Refusal

_FIELD_OF: dict[type[Refusal], str] = {
    NameInReason: "reason",
    WrongSignIn: "password",
    TooManyFailures: "password",
    DatedInFuture: "occurred_on",
    RevisionBackdated: "occurred_on",
    BeforeApproval: "occurred_on",
    TooFarAhead: "occurred_on",
    AuthorMissing: "author_name",
    AuthorApproves: "author",
    ReasonMissing: "reason",
    AlreadyAuthorised: "change",
    NothingToWithdraw: "change",
    SamePerson: "merged",
    AlreadyMerged: "merged",
}


def carry_out(
    form: SignedForm, act: Callable[[Connection, Signed], Receipt | Refusal]
) -> Receipt | None:
    """Do what the form asks; the receipt, or None with the refusal's sentence on the form."""
    signed = Signed(form.record_id.data, form.occurred_on.data, form.password.data)
    try:
        with writing() as connection:
            outcome = act(connection, signed)
    except Refusal as refusal:
        outcome = refusal
    if isinstance(outcome, Refusal):
        _refuse(form, outcome)
        return None
    if outcome.is_repeat:
        flash(_("Already recorded. This is the record; nothing was added."))
    else:
        flash(_("Signed and recorded."))
    return outcome


def has_refused(form: SignedForm, kind: type[Refusal]) -> bool:
    """Whether the form was refused for this reason just now."""
    return kind.__name__ in form.refused_for


def _refuse(form: SignedForm, refusal: Refusal) -> None:
    form.refused_for = (type(refusal).__name__,)
    name = _FIELD_OF.get(type(refusal), "")
    if name in form:
        form[name].errors = [_sentence(refusal)]
    else:
        form.form_errors.append(_sentence(refusal))
    if isinstance(refusal, IdTaken):
        form.record_id.data = new_id()


def _sentence(refusal: Refusal) -> str:
    if isinstance(refusal, IdTaken):
        return _(
            "This form was sent before with something else in it. What was sent first is on "
            "record. Nothing was added now; read it again before you sign."
        )
    with reading() as connection:
        return telling(connection).refused(refusal)
