"""The reasons of a standing in words: names and titles instead of ids, in the page's language."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date

from app.curriculum.model import Curriculum
from app.records.standing.reasons import SENTENCES, Reason

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
class ReasonWords:
    """What turns ids, days and codes into words; names are people's and jobs' by id."""

    translate: Callable[[str], str]
    show_day: Callable[[date], str]
    language: str
    curriculum: Curriculum
    names: Mapping[str, str]

    def module(self, module_id: str) -> str:
        """The module's title, or its id where the content no longer has it."""
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

    def value(self, name: str, value: object) -> str:
        """One value of a sentence in words."""
        if isinstance(value, date):
            return self.show_day(value)
        text = str(value)
        match name:
            case "module":
                return f"“{self.module(text)}”"
            case "qualification":
                return self.qualification(text)
            case "missing":
                return ", ".join(self.qualification(part) for part in text.split(", "))
            case "steps":
                return "; ".join(self.step(part) for part in text.split(", "))
        return self.names.get(text, text)

    def filled(self, template: str, reason: Reason, **more: str) -> str:
        """A sentence with the reason's values, and more, in its places."""
        values = {name: self.value(name, value) for name, value in reason.params.items()}
        return self.translate(template).format(**{**values, **more})

    def sentence(self, reason: Reason) -> str:
        """The reason as one plain sentence."""
        return self.filled(SENTENCES[reason.code], reason)

    def line(self, reason: Reason, mark: str = "no") -> Line:
        """The reason with its symbol."""
        return _MARKS.get(reason.code, mark), self.sentence(reason)
