"""The answers of the purge quiz by the test's own arithmetic, from the numbers on the page.

Conversions: 1 in = 25.4 mm, 1 ft = 0.3048 m (exact; NIST SP 811 Appendix B.8); the US gallon is
231 cubic inches and holds 128 fluid ounces (NIST Handbook 44 Appendix C). A hose is a cylinder.
"""

import re
from fractions import Fraction
from math import pi

ML_PER_FL_OZ = 231 / 128 * 2.54**3


def _value(text: str) -> float:
    return float(sum(Fraction(part) for part in text.split()))


def _hose_ml(length_mm: float, inner_mm: float) -> float:
    return pi / 4 * inner_mm**2 * length_mm / 1000


def hose_holds(text: str) -> float | None:
    """Fluid ounces in one hose."""
    found = re.search(r"Hose A is (\S+) ft .* long and (\S+) in .* wide", text)
    if not found:
        return None
    length, inner = map(_value, found.groups())
    return _hose_ml(length * 304.8, inner * 25.4) / ML_PER_FL_OZ


def purge_both(text: str) -> float | None:
    """Litres out of both hoses."""
    found = re.search(
        r"Two equal hoses, A and B, are (\S+) m .* long and (\S+) mm .* wants (\d+)", text
    )
    if not found:
        return None
    length, inner, times = map(_value, found.groups())
    return 2 * times * _hose_ml(length * 1000, inner) / 1000


def purge_minutes(text: str) -> float | None:
    """Minutes until both hoses have been pushed out once."""
    found = re.search(r"each (\S+) ft .* long and (\S+) in .* wide .* pushes out (\S+) fl oz", text)
    if not found:
        return None
    length, inner, rate = map(_value, found.groups())
    return 2 * _hose_ml(length * 304.8, inner * 25.4) / (rate * ML_PER_FL_OZ)


def least_reading(text: str) -> float | None:
    """The lowest end reading that passes, psi."""
    found = re.search(r"at most (\S+) % of the start .* ran up to (\S+) psi", text)
    if not found:
        return None
    share, start = map(_value, found.groups())
    return start * (1 - share / 100)


def typed_answer(text: str) -> str:
    """The answer as somebody would type it, each kind in another way of writing it."""
    for work_out, written in (
        (hose_holds, "{:.2f} fl oz"),
        (purge_both, "{:.3f} L"),
        (purge_minutes, "{:.2f} min"),
        (least_reading, "{:.1f} psi"),
    ):
        value = work_out(text)
        if value is not None:
            return written.format(value)
    raise AssertionError(f"no arithmetic for: {text}")
