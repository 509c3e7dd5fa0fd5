"""The forms for approving texts."""

from flask_babel import lazy_gettext as _l
from wtforms import HiddenField, RadioField, SelectField, StringField
from wtforms.validators import InputRequired, Length, Regexp

from app.officer.forms import SignedForm, reason_field
from app.web.forms import choice_list

_IS_SHA256 = Regexp(r"^[0-9a-f]{64}$", message=_l("This form is broken. Load the page again."))
SOMEBODY_ELSE = "named"


class FirstApprovalForm(SignedForm):
    """Approve the texts as they were delivered."""

    sha256 = HiddenField(_l("These texts"), [_IS_SHA256])
    author_name = StringField(
        _l("Who wrote them"), [InputRequired(_l("Say who wrote it.")), Length(max=120)]
    )
    reason = reason_field(_l("What you read, and why they fit your work"))


class ApprovalForm(SignedForm):
    """Approve one waiting text."""

    sha256 = HiddenField(_l("This text"), [_IS_SHA256])
    change = RadioField(
        _l("How far does the change go?"),
        [InputRequired(_l("Choose how far the change goes."))],
        choices=choice_list(
            [
                ("editorial", _l("Editorial: the words changed, the work did not")),
                ("major", _l("Major: the work changed, everybody trains again")),
            ]
        ),
    )
    author = SelectField(_l("Who wrote it"), [InputRequired(_l("Say who wrote it."))])
    author_name = StringField(_l("Name of the firm or project"), [Length(max=120)])
    reason = reason_field(_l("What changed, and why"))
