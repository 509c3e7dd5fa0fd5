"""Numbers as people on site type them: 4, .5, 3/4, 1 1/2, 1-1/2, 1½. Exact fractions, no guessing.

Source: our own small grammar. A general parser reads `1 1/2 in` as 0.5 in and `1,5` as 15.
"""

import re
import unicodedata
from fractions import Fraction

from app.trade.errors import Refusal

LONGEST = 40

_NUMBER = re.compile(
    r"(?P<whole>[0-9]+)[ -](?P<top>[0-9]+)/(?P<bottom>[0-9]+)"
    r"|(?P<numerator>[0-9]+)/(?P<denominator>[0-9]+)"
    r"|(?P<decimal>[0-9]*\.[0-9]+|[0-9]+)"
)
_EXPONENT = re.compile(r"[0-9.]\s*[eE]\s*[+-]?[0-9]")
_MARKS = {
    **dict.fromkeys("‘’ʼ′´`", "'"),
    **dict.fromkeys("“”″", '"'),
    **dict.fromkeys("‐‑‒–—―−", "-"),
    **dict.fromkeys("⁄∕", "/"),
}


class Unreadable(Refusal):
    """Typed text that cannot be read in one way only; `sentence` asks the question that helps."""

    def __init__(self, text: str, sentence: str, **places: object) -> None:
        self.text = text
        self.template = sentence
        super().__init__(text=text, **places)


def tidy(text: str) -> str:
    """Typed text with one kind of quote, dash, slash and space, and fractions written out.

    Errors: Unreadable when empty, over 40 characters, or with a comma or an exponent in it.
    Example:
        >>> tidy("1½ in")
        '1 1/2 in'
    """
    if len(text) > LONGEST:
        raise Unreadable(text, "That is more than 40 characters. Type one quantity, no more.")
    plain = unicodedata.normalize("NFC", text)
    plain = "".join(_MARKS.get(mark, mark) for mark in _fractions_written_out(plain))
    plain = " ".join(plain.split()).replace("''", '"')
    if not plain:
        raise Unreadable(text, "Nothing is typed here. Type a number and its unit.")
    if "," in plain:
        raise Unreadable(
            text,
            "What does the comma in “{text}” mean? Type a point for decimals, "
            "and nothing between thousands.",
        )
    if _EXPONENT.search(plain):
        raise Unreadable(text, "Can you write “{text}” out in full, without the e?")
    return plain


def _fractions_written_out(text: str) -> str:
    out = ""
    for mark in text:
        if unicodedata.decomposition(mark).startswith("<fraction>"):
            out += " " * out[-1:].isdigit() + unicodedata.normalize("NFKC", mark)
        else:
            out += mark
    return out


def read_number(text: str, typed: str) -> tuple[Fraction, str, str]:
    """The number that `text` starts with, how it was written, and the rest of the text.

    Inputs:
        text: tidied text
        typed: the text as typed, for the sentence of a refusal
    Errors: Unreadable when there is no number, or a fraction that does not make sense.
    Example:
        >>> read_number("1-1/2 in", "1-1/2 in")
        (Fraction(3, 2), '1 1/2', 'in')
    """
    found = _NUMBER.match(text)
    if found is None:
        raise Unreadable(typed, "“{text}” does not start with a number. What is the number?")
    rest = text[found.end() :].strip()
    if rest[:1].isdigit() or rest[:1] in {".", "/"}:
        raise Unreadable(typed, "Is “{text}” one number or two? Type one number and one unit.")
    if found["decimal"]:
        return Fraction(found["decimal"]), found["decimal"], rest
    if found["numerator"]:
        value = _fraction(found["numerator"], found["denominator"], typed)
        return value, found[0], rest
    part = _fraction(found["top"], found["bottom"], typed)
    value = int(found["whole"]) + part
    if part >= 1:
        question = "The fraction {part} is not less than one. Do you mean {value}?"
        fraction = f"{found['top']}/{found['bottom']}"
        raise Unreadable(typed, question, part=fraction, value=mixed(value))
    return value, found[0].replace("-", " "), rest


def _fraction(top: str, bottom: str, typed: str) -> Fraction:
    if int(bottom) == 0:
        raise Unreadable(typed, "A fraction cannot have 0 below its line. What is “{text}”?")
    return Fraction(int(top), int(bottom))


def mixed(value: Fraction) -> str:
    """A fraction as a whole and a part: 3/2 is "1 1/2".

    Example:
        >>> mixed(Fraction(3, 2))
        '1 1/2'
    """
    whole, part = divmod(value, 1)
    if part == 0:
        return str(whole)
    return f"{whole} {part}" if whole else str(part)
