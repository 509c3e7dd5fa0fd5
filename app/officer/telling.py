"""Reasons, refusals and values in words for officers: names and titles instead of ids.

No Flask here: what translates and what writes a day come in as arguments.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from app.curriculum.bundles import POLICY
from app.trade.errors import Refusal
from app.trade.showing import mil_as_inches, show
from app.trade.units import BASE_UNITS, UNITS
from app.web.reason_words import ReasonWords
from app.web.value_words import value_word


@dataclass(frozen=True, slots=True)
class Telling(ReasonWords):
    """What turns ids, days and codes into words for officers, who also see old texts and jobs."""

    units: str
    jobs: Mapping[str, str]

    def name(self, person_id: str) -> str:
        """The printed name, or the id of somebody whose name is gone."""
        return self.names.get(person_id, person_id)

    def job(self, job_id: str) -> str:
        """The job's title, or its id."""
        return self.jobs.get(job_id, job_id)

    def module(self, module_id: str) -> str:
        """The module's title, or its id where the content no longer has it; the policy too."""
        if module_id == POLICY:
            return self.translate("Qualification policy")
        return ReasonWords.module(self, module_id)

    def value_name(self, name: str) -> str:
        """What a value of a record is called."""
        return value_word(name, self.translate)

    def quantity(self, text: str) -> str:
        """A quantity as the language writes it."""
        return mil_as_inches(text) if self.language == "es" else text

    def measured(self, value: str, unit: str) -> str:
        """A signed value in the reader's units."""
        return self.quantity(shown(value, unit, self.units))

    def value(self, name: str, value: object) -> str:
        """One value of a sentence in words; jobs by their title."""
        if name == "job":
            return f"“{self.job(str(value))}”"
        return ReasonWords.value(self, name, value)

    def refused(self, refusal: Refusal) -> str:
        """The refusal's sentence, what is missing written out with names."""
        places = {name: self.value(name, value) for name, value in refusal.places.items()}
        gaps = refusal.places.get("gaps")
        if isinstance(gaps, tuple):
            places["what"] = " ".join(self.sentence(gap) for gap in gaps)
        if "reason" in places:
            places["reason"] = self.translate(str(refusal.places["reason"]))
        return self.translate(refusal.template).format(**places)


def shown(value: str, unit: str, units: str) -> str:
    """Signed decimal text in the reader's units: ("118.5", "ml", "us") -> "4.01 fl oz".

    A value in a unit that is no base unit stays as it was signed, and so does a plain number.
    """
    name = BASE_UNITS.get(unit, unit)  # a quantity's name stands for its base unit
    known = UNITS.get(name)
    if known is None or BASE_UNITS.get(known.quantity) != name:
        return f"{value} {known.sign if known else name}".strip()
    return show(Fraction(value), known.quantity, "metric" if units == "metric" else "us")
