"""PURE. The small types every content model is built from: words in languages, exact numbers."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, RootModel, field_validator

DEFAULT_LANGUAGE = "en"

Id = Annotated[str, Field(pattern=r"^[a-z][a-z0-9]*(-[a-z0-9]+)*$", max_length=60)]
"""Lower-case words joined by hyphens: `port-setting`."""

Name = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$", max_length=40)]
"""A name a formula may use: `sample_a`."""


def read_exact(value: Any) -> Fraction:
    """An int, a Fraction or a decimal string as an exact Fraction.

    Floats are refused: 0.1 written in a file must stay one tenth.
    Example: read_exact("0.02") == Fraction(1, 50).
    """
    if isinstance(value, bool) or not isinstance(value, int | Fraction | str):
        raise ValueError(f"{value!r} is not a number")
    try:
        return Fraction(value)
    except (ValueError, ZeroDivisionError):
        raise ValueError(f"{value!r} is not a number") from None


Exact = Annotated[Fraction, BeforeValidator(read_exact)]
Share = Annotated[Fraction, BeforeValidator(read_exact), Field(ge=0, le=1)]


class Frozen(BaseModel):
    """A content model: cannot be changed, knows no extra keys, converts nothing by itself."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)


class Text(RootModel[dict[str, str]]):
    """The same words in one or more languages; English is always there.

    Example: Text({"en": "Wear gloves"}).in_language("es") == "Wear gloves".
    """

    model_config = ConfigDict(frozen=True, strict=True)

    @field_validator("root")
    @classmethod
    def _has_english(cls, root: dict[str, str]) -> dict[str, str]:
        if not root.get(DEFAULT_LANGUAGE, "").strip():
            raise ValueError("the English words (en) are missing")
        empty = [language for language, words in root.items() if not words.strip()]
        if empty:
            raise ValueError(f"the words are empty in: {', '.join(empty)}")
        return root

    def __hash__(self) -> int:
        return hash(frozenset(self.root.items()))

    def in_language(self, language: str) -> str:
        """The words in `language`, or in English where they are not translated."""
        return self.root.get(language, self.root[DEFAULT_LANGUAGE])

    def languages(self) -> tuple[str, ...]:
        """The languages these words exist in, English first."""
        return tuple(sorted(self.root, key=lambda code: (code != DEFAULT_LANGUAGE, code)))
