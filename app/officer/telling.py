"""Reasons and refusals in words: names and titles instead of ids, in the page's language.

No Flask here: what translates and what writes a day come in as arguments.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date

from app.curriculum.bundles import POLICY
from app.curriculum.model import Curriculum
from app.records.reasons import SENTENCES, Reason
from app.trade.errors import Refusal
from app.trade.showing import mil_as_inches
from app.web.value_words import value_word

_MARKS = {
    "granted": "yes",
    "suspended": "stop",
    "revoked": "stop",
    "expired": "clock",
    "lapsed": "clock",
    "expires-soon": "clock",
    "continuity-due": "clock",
    "update-needed": "warn",
    "update-due": "warn",
}

Line = tuple[str, str]  # (symbol, sentence)


@dataclass(frozen=True, slots=True)
class Telling:
    """What turns ids, days and codes into words."""

    translate: Callable[[str], str]
    show_day: Callable[[date], str]
    language: str
    units: str
    curriculum: Curriculum
    names: Mapping[str, str]
    jobs: Mapping[str, str]

    def name(self, person_id: str) -> str:
        """The printed name, or the id of somebody whose name is gone."""
        return self.names.get(person_id, person_id)

    def job(self, job_id: str) -> str:
        """The job's title, or its id."""
        return self.jobs.get(job_id, job_id)

    def module(self, module_id: str) -> str:
        """The module's title, or its id where the content no longer has it."""
        if module_id == POLICY:
            return self.translate("Qualification policy")
        found = self.curriculum.modules.get(module_id)
        return found.lesson(self.language).title if found else module_id

    def qualification(self, qualification_id: str) -> str:
        """The qualification's title, or its id where the content no longer has it."""
        found = self.curriculum.qualifications.get(qualification_id)
        return found.title.in_language(self.language) if found else qualification_id

    def step(self, item_id: str) -> str:
        """The words of a checklist's step, or its id where the content no longer has it."""
        items = (i for module in self.curriculum.modules.values() for i in module.checklist)
        found = next((item for item in items if item.id == item_id), None)
        return found.text.in_language(self.language) if found else item_id.replace("-", " ")

    def value_name(self, name: str) -> str:
        """What a value of a record is called."""
        return value_word(name, self.translate)

    def quantity(self, text: str) -> str:
        """A quantity as the language writes it."""
        return mil_as_inches(text) if self.language == "es" else text

    def value(self, name: str, value: object) -> str:
        """One value of a sentence in words."""
        if isinstance(value, date):
            return self.show_day(value)
        text = str(value)
        match name:
            case "module":
                return f"“{self.module(text)}”"
            case "job":
                return f"“{self.job(text)}”"
            case "qualification":
                return self.qualification(text)
            case "missing":
                return ", ".join(self.qualification(part) for part in text.split(", "))
            case "steps":
                return "; ".join(self.step(part) for part in text.split(", "))
        return self.name(text)

    def sentence(self, reason: Reason) -> str:
        """The reason as one plain sentence."""
        values = {name: self.value(name, value) for name, value in reason.params.items()}
        return self.translate(SENTENCES[reason.code]).format(**values)

    def line(self, reason: Reason, mark: str = "no") -> Line:
        """The reason with its symbol."""
        return _MARKS.get(reason.code, mark), self.sentence(reason)

    def refused(self, refusal: Refusal) -> str:
        """The refusal's sentence, what is missing written out with names."""
        places = {name: self.value(name, value) for name, value in refusal.places.items()}
        gaps = refusal.places.get("gaps")
        if isinstance(gaps, tuple):
            places["what"] = " ".join(self.sentence(gap) for gap in gaps)
        if "reason" in places:
            places["reason"] = self.translate(str(refusal.places["reason"]))
        return self.translate(refusal.template).format(**places)
