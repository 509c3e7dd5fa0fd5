"""The sets of hands a job may need, as choices of a form."""

from flask_babel import lazy_gettext
from wtforms import RadioField
from wtforms.fields.choices import SelectChoice
from wtforms.validators import ValidationError

from app.curriculum.crew import CrewNeeds, HandSet
from app.curriculum.model import Curriculum
from app.web.forms import choice_list


def set_choices(
    known: CrewNeeds | None, curriculum: Curriculum, language: str
) -> list[SelectChoice]:
    """Each set by its id, with its title and hands; none where the rules know no sets.

    Example of the words: "Two pumps (1 × Lead injector, 2 × Pump operator)".
    """
    sets = (known.sets or ()) if known else ()
    return choice_list([(one.id, _words(one, curriculum, language)) for one in sets])


def refuse_unknown_set(field: RadioField) -> None:
    """A set must be among the field's choices; none named is the usual one."""
    if field.data and field.data not in {choice.value for choice in field.choices or ()}:
        raise ValidationError(
            lazy_gettext("The rules in force know no such hands. Choose them again.")
        )


def _words(one: HandSet, curriculum: Curriculum, language: str) -> str:
    hands = ", ".join(
        f"{hand.count}\u00a0×\u00a0{curriculum.qualification(hand.qualification).title.in_language(language)}"
        for hand in one.hands
    )
    return f"{one.title.in_language(language)} ({hands})"
