"""Reading a picture back: its elements by class, and an axis by two of its own ticks."""

import math
import re
from collections.abc import Callable
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


class Picture:
    """A parsed picture; parsing fails for what is no XML."""

    def __init__(self, text: str) -> None:
        self.root = ElementTree.fromstring(text)

    def all(self, tag: str, class_: str) -> list[ElementTree.Element]:
        return [e for e in self.root.iter(SVG + tag) if class_ in e.get("class", "").split()]

    def one(self, tag: str, class_: str) -> ElementTree.Element:
        (found,) = self.all(tag, class_)
        return found

    def words(self) -> list[str]:
        return [e.text or "" for e in self.root.iter(SVG + "text")]

    def place_of(self, words: str) -> tuple[float, float]:
        (found,) = [e for e in self.root.iter(SVG + "text") if e.text == words]
        return float(found.get("x", "")), float(found.get("y", ""))

    def says(self, tag: str) -> str:
        found = self.root.find(SVG + tag)
        assert found is not None
        return found.text or ""

    @property
    def size(self) -> tuple[float, float]:
        _, _, width, height = map(float, self.root.get("viewBox", "").split())
        return width, height


def points(element: ElementTree.Element) -> list[tuple[float, float]]:
    numbers = list(map(float, _NUMBER.findall(element.get("d", ""))))
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def centre(circle: ElementTree.Element) -> tuple[float, float]:
    return float(circle.get("cx", "")), float(circle.get("cy", ""))


def log_axis(a: tuple[float, float], b: tuple[float, float]) -> Callable[[float], float]:
    """From place to value, by two ticks (place, value) of a log axis."""
    (at_a, value_a), (at_b, value_b) = a, b
    slope = math.log(value_b / value_a) / (at_b - at_a)
    return lambda place: value_a * math.exp(slope * (place - at_a))


def even_axis(a: tuple[float, float], b: tuple[float, float]) -> Callable[[float], float]:
    """From place to value, by two ticks (place, value) of an even axis."""
    (at_a, value_a), (at_b, value_b) = a, b
    return lambda place: value_a + (place - at_a) * (value_b - value_a) / (at_b - at_a)
