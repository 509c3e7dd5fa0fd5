"""PURE. Syllables of a word: by spelling rules for Spanish, by rules and exceptions for English."""

from __future__ import annotations

import re
from functools import lru_cache

_ENGLISH_GROUP = re.compile(r"[aeiouy]+")
# Words of this trade and everyday words that the spelling rules below miscount.
_ENGLISH_EXCEPTIONS = {
    "area": 3, "areas": 3, "being": 2, "business": 2, "create": 2, "diameter": 4, "doing": 2,
    "engineer": 3, "epoxy": 3, "every": 2, "everyone": 3, "everything": 3, "eyewash": 2,
    "fluid": 2, "fluids": 2, "going": 2, "hazardous": 3, "idea": 3, "lion": 2, "liquid": 2,
    "maybe": 2, "onto": 2, "people": 2, "poem": 2, "quiet": 2, "reuse": 2, "reused": 2,
    "science": 2, "seeing": 2, "some": 1, "someone": 2, "something": 2, "sometimes": 2,
    "somewhere": 2, "themselves": 2, "wherever": 3, "whole": 1, "safety": 2, "surely": 2,
    "data": 2, "radio": 3, "ratio": 3, "ratios": 3, "material": 4, "materials": 4, "lay": 1,
    "grayed": 1, "eyes": 1, "eye": 1, "dye": 1, "useful": 2, "careful": 2, "carefully": 3,
    "safely": 2, "homemade": 2, "sidewalk": 2, "hardener": 3, "facemask": 2, "makeup": 2,
    "anyone": 3, "anyones": 3, "cement": 2, "heavier": 3, "sideways": 2,
}  # fmt: skip
# Two vowels written side by side and spoken apart: di-ameter, usu-al, lay-out.
_ENGLISH_TWO_VOWELS = re.compile(
    r"ia(?!l\b|n\b)|io(?!u|n)|iu|eo(?!n|u)|(?<![gq])ua|uou|[^q]uie|yi|ayo"
)
_SPANISH_VOWELS = "aeiouáéíóúü"
_SPANISH_STRONG = "aeoáéóíú"


def _digits(word: str) -> int:
    return sum(character.isdigit() for character in word)


@lru_cache(maxsize=10_000)
def english_syllables(word: str) -> int:
    """Syllables of an English word as it is spoken; a figure counts one per digit.

    Source: the usual spelling rules (silent e, -ed, -es, -le) with a list of exceptions.
    Example: english_syllables("injected") == 3.
    """
    if _digits(word):
        return _digits(word)
    pieces = [piece for piece in re.split(r"[^a-z]+", _bare(word)) if piece]
    return max(1, sum(_english_piece(piece) for piece in pieces))


def _bare(word: str) -> str:
    """Lower case, without the tail of a contraction: don't and it's count as dont and its."""
    return re.sub(r"['’]", "", word.lower())


def _english_piece(word: str) -> int:
    if word in _ENGLISH_EXCEPTIONS:
        return _ENGLISH_EXCEPTIONS[word]
    total = len(_ENGLISH_GROUP.findall(word))
    total += len(_ENGLISH_TWO_VOWELS.findall(word))
    total -= _silent_ending(word)
    if re.search(r"[^aeiouy](sm|thm)s?$", word):
        total += 1
    if re.search(r"[^aeiou]nt$", word) and word.endswith(("dnt", "snt")):
        total += 1
    return max(1, total)


def _silent_ending(word: str) -> int:
    """1 where the last e is written but not spoken."""
    if re.search(r"[^aeiouy]les?$", word) or (word.endswith("led") and len(word) > 4):
        return 1 if re.search(r"[aeiouylr]l(e|es|ed)$", word) else 0
    if word.endswith("ed"):
        return 0 if re.search(r"[td]ed$", word) or len(word) < 4 else 1
    if word.endswith("es"):
        return 0 if re.search(r"(s|x|z|ch|sh|c|g|[aeiouy])es$", word) else 1
    if re.search(r"[^aeiouy]ely$|[^aeiouy]eful(ly)?$|[^aeiouy]eless$|[^aeiouy]ement$", word):
        return 1
    return 1 if re.search(r"[^aeiouy]e$", word) and len(word) > 2 else 0


@lru_cache(maxsize=10_000)
def spanish_syllables(word: str) -> int:
    """Syllables of a Spanish word by its spelling; a figure counts one per digit.

    A strong vowel (a, e, o, or accented í, ú) makes a syllable; weak ones lean on it; a group of
    weak ones alone makes one. The u of gue, gui, que, qui is silent; y at the end is a vowel.
    Example: spanish_syllables("pingüino") == 3.
    """
    if _digits(word):
        return _digits(word)
    spelled = re.sub(r"([gq])u([eiéí])", r"\1\2", word.lower())
    spelled = re.sub(r"y(?![aeiouáéíóú])", "i", spelled)
    total = 0
    for group in re.findall(f"[{_SPANISH_VOWELS}]+", spelled):
        total += max(1, sum(vowel in _SPANISH_STRONG for vowel in group))
    return max(1, total)
