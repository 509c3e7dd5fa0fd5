"""The form of the crew check: which hands, on which day, as known on which day, who comes along."""

from flask_babel import gettext as _
from flask_babel import lazy_gettext
from wtforms import RadioField, StringField
from wtforms.validators import Length

from app.web.crew.sets import refuse_unknown_set
from app.web.forms import DayField, TickListField
from app.web.two_clocks import ClocksForm

MOST_CREW = 8  # what one sheet of paper takes


class CrewForm(ClocksForm):
    """It stands in the address, so that a check can be sent on or printed again."""

    hands = RadioField(lazy_gettext("Which hands the job needs"), validate_choice=False)
    as_of = DayField(lazy_gettext("On which day"))
    name = StringField(lazy_gettext("Show only names with"), [Length(max=60)])
    person = TickListField(lazy_gettext("Who comes along"), validate_choice=False)

    def validate_hands(self, field: RadioField) -> None:
        """A set that the rules in force know."""
        refuse_unknown_set(field)

    def may_be_checked(self, known: set[str]) -> bool:
        """Whether the day and the people make sense; otherwise a sentence stands at the field.

        known: ids of everybody who may be ticked.
        """
        is_fine = self.validate()
        wrong = self._wrong_with_people(known)
        if wrong:
            self.person.errors = [wrong]
        return is_fine and not wrong

    def _wrong_with_people(self, known: set[str]) -> str:
        ticked = self.person.data or []
        if not ticked:
            return _("Tick at least one person.")
        if len(ticked) > MOST_CREW:
            return _("Tick %(most)s people at most; that is one sheet.", most=MOST_CREW)
        if not known.issuperset(ticked):
            return _("Somebody who was ticked is not in the list. Tick the people again.")
        return ""
