"""Refusals: what the trade's functions raise instead of repairing bad input."""

from collections.abc import Sequence


class Refusal(ValueError):
    """Base of every refusal.

    `template` is the sentence with named places, `places` fills them. A page that speaks another
    language translates the template; everyone else prints `sentence`.
    """

    template = "{reason}"

    def __init__(self, **places: object) -> None:
        self.places = places
        super().__init__(self.sentence)

    @property
    def sentence(self) -> str:
        """The plain sentence a page or the command line prints."""
        return self.template.format(**self.places)


class OutOfRange(Refusal):
    """A number outside its inclusive bounds (or not a number at all); None means no bound."""

    def __init__(
        self, name: str, value: object, low: float | None, high: float | None, unit: str
    ) -> None:
        self.name, self.value, self.low, self.high, self.unit = name, value, low, high, unit
        if high is None:
            self.template = "{name} is {value} {unit}. It must be {low} {unit} or more."
        elif low is None:
            self.template = "{name} is {value} {unit}. It must be {high} {unit} or less."
        else:
            self.template = "{name} is {value} {unit}. It must lie from {low} to {high} {unit}."
        if not unit:
            self.template = self.template.replace(" {unit}", "")
        super().__init__(
            name=name, value=_plain(value), low=_plain(low), high=_plain(high), unit=unit
        )


class NotAChoice(Refusal):
    """A word that is not on the list of an input."""

    template = "{name} is {value}. It must be one of: {choices}."

    def __init__(self, name: str, value: object, choices: Sequence[str]) -> None:
        self.name, self.value, self.choices = name, value, tuple(choices)
        super().__init__(name=name, value=repr(value), choices=", ".join(choices))


class NotListed(Refusal):
    """Several numbers that do not belong together: too few, uneven in count, or out of order."""

    template = "{name}: {reason} (got {value})."

    def __init__(self, name: str, value: object, reason: str) -> None:
        self.name, self.value = name, value
        super().__init__(name=name, value=value, reason=reason)


def _plain(value: object) -> str:
    return f"{value:.12g}" if isinstance(value, float) else str(value)
