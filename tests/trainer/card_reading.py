"""Reading a job card as a person does: what each line says, and what it is open for."""

import re
from html import unescape
from html.parser import HTMLParser

# Typed on site: nothing here is a round number in the other system of units.
OPTIONS = {
    "resin_temperature_c": "31 C",
    "waste": "15",
    "mixing": "hand",
    "placing_ml_per_min": "20 mL/min",
    "tested_ml": "200 mL",
    "start": "08:30",
    "pressure_mpa": "0.2 MPa",
    "port_opening_mm": "6 mm",
    "hose_diameter_mm": "10 mm",
    "hose_length_mm": "15 m",
    "mixer_diameter_mm": "10 mm",
    "mixer_length_mm": "200 mm",
    "tube_diameter_mm": "6 mm",
    "tube_length_mm": "1 m",
    "mixers": "2",
    "ratio_tests": "2",
    "per_test_ml": "150 mL",
    "physical_samples": "1",
    "per_sample_ml": "50 mL",
    "seal_width_mm": "30 mm",
    "seal_thickness_mm": "2 mm",
    "seal_sides": "1",
    "seal_waste": "20",
    "collar_outer_mm": "40 mm",
    "collar_foot_mm": "20 mm",
    "collar_height_mm": "5 mm",
    "grinding": "indoors",
    "grinding_min": "5 h",
    "controls": "yes",
    "wheel_mm": "5 in",
    "solvent": "xylene",
    "space_ml": "50 m3",
}


class _Lines(HTMLParser):
    """Pairs of dt and dd, blanks in one."""

    def __init__(self) -> None:
        super().__init__()
        self.pairs: list[list[str]] = []
        self._inside = ""
        self._skipped = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in ("dt", "dd"):
            self._inside = tag
            if tag == "dt":
                self.pairs.append(["", ""])
        elif tag == "sup":
            self._skipped += 1

    def handle_endtag(self, tag: str) -> None:
        if tag in ("dt", "dd"):
            self._inside = ""
        elif tag == "sup":
            self._skipped -= 1

    def handle_data(self, data: str) -> None:
        if self._inside and not self._skipped:
            self.pairs[-1][self._inside == "dd"] += data


def lines(page: str) -> dict[str, str]:
    """What each line of the card says, by its label."""
    reader = _Lines()
    reader.feed(page)
    return {" ".join(dt.split()): " ".join(dd.split()) for dt, dd in reader.pairs}


def number(words: str) -> float:
    """The first number in some words."""
    found = re.search(r"\d+(?:\.\d+)?", words)
    assert found, words
    return float(found.group())


def plain(page: str) -> str:
    """The readable text of a page, without its drawings."""
    bare = re.sub(r"<svg.*?</svg>", " ", page, flags=re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", bare)).split())


def drawings(page: str) -> list[str]:
    """The drawings of the card, the site's small symbols left out."""
    found = re.findall(r"<svg[^>]*>.*?</svg>", page, flags=re.DOTALL)
    return [svg for svg in found if 'role="img"' in svg]
