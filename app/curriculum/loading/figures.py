"""Line figures: SVG files checked against a short list and made ready to stand in a page.

The words inside (title, desc) are replaced by the lesson's own, so that one drawing serves every
language, and every id gets the step's name in front, so that ids stay unique in a page.
"""

from __future__ import annotations

import re
from xml.etree import ElementTree

SVG = "http://www.w3.org/2000/svg"
CLASSES = frozenset(
    {"ink", "ink-thin", "hatch", "concrete", "resin", "seal", "steel", "warn", "label"}
)
_SHAPES = {"path", "line", "polyline", "polygon", "rect", "circle", "ellipse", "text", "tspan"}
_ELEMENTS = _SHAPES | {
    "svg", "g", "defs", "marker", "pattern", "clipPath", "use", "title", "desc",
}  # fmt: skip
_PAINT = {"fill", "stroke", "stop-color", "color"}
_SAFE_PAINT = re.compile(r"^(none|currentColor|url\(#[\w-]+\))$")
_LOCAL_URL = re.compile(r"url\(#([\w-]+)\)")


class FigureRefused(ValueError):
    """The drawing holds something that must not stand in a page."""


def read_figure(text: str) -> ElementTree.Element:
    """The drawing's tree; raises FigureRefused naming what is wrong with it."""
    if re.search(r"<!(DOCTYPE|ENTITY)", text, re.IGNORECASE):
        raise FigureRefused("a DOCTYPE or ENTITY is not allowed")
    try:
        root = ElementTree.fromstring(text)
    except ElementTree.ParseError as error:
        raise FigureRefused(f"not readable as XML: {error}") from None
    if root.tag != f"{{{SVG}}}svg":
        raise FigureRefused("the first element must be svg")
    if not re.fullmatch(r"-?[\d.]+( -?[\d.]+){3}", root.get("viewBox", "")):
        raise FigureRefused("svg needs a viewBox of four numbers")
    if "width" in root.attrib or "height" in root.attrib:
        raise FigureRefused("svg must have no fixed width or height")
    heads = [_local(child) for child in root][:2]
    if heads != ["title", "desc"]:
        raise FigureRefused("svg must begin with title and desc")
    for element in root.iter():
        _check_element(element)
    return root


def _local(element: ElementTree.Element) -> str:
    return str(element.tag).removeprefix(f"{{{SVG}}}")


def _check_element(element: ElementTree.Element) -> None:
    name = _local(element)
    if name not in _ELEMENTS:
        raise FigureRefused(f"the element {name} is not allowed")
    for attribute, value in element.attrib.items():
        _check_attribute(name, attribute, value)
    if name in ("text", "tspan"):
        words = "".join(element.itertext()).strip()
        if len(words) > 1:
            raise FigureRefused(f"text may be one letter or digit, not {words!r}")


def _check_attribute(name: str, attribute: str, value: str) -> None:
    if attribute.startswith("on") or attribute == "style":
        raise FigureRefused(f"the attribute {attribute} is not allowed")
    if attribute.endswith("href") and not value.startswith("#"):
        raise FigureRefused(f"{name} refers outside the drawing: {value}")
    if attribute.startswith("{") and not attribute.endswith("href"):
        raise FigureRefused(f"the attribute {attribute} is not allowed")
    if "url(" in value and not _LOCAL_URL.search(value):
        raise FigureRefused(f"{name} refers outside the drawing: {value}")
    if attribute in _PAINT and not _SAFE_PAINT.match(value):
        raise FigureRefused(f"{attribute}={value!r}: colours come from classes")
    if attribute == "class":
        unknown = set(value.split()) - CLASSES
        if unknown:
            raise FigureRefused(f"unknown class: {', '.join(sorted(unknown))}")


def figure_html(text: str, title: str, description: str, prefix: str) -> str:
    """The drawing as inline SVG with the lesson's words; ids begin with `prefix`.

    Raises FigureRefused as `read_figure` does.
    """
    root = read_figure(text)
    _prefix_ids(root, prefix)
    title_id, desc_id = f"{prefix}-figure-title", f"{prefix}-figure-desc"
    for child, identity, words in ((root[0], title_id, title), (root[1], desc_id, description)):
        child.attrib.clear()
        child.set("id", identity)
        child.text = words
    root.set("role", "img")
    root.set("aria-labelledby", f"{title_id} {desc_id}")
    root.set("class", "figure")
    _drop_namespace(root)
    return ElementTree.tostring(root, encoding="unicode", short_empty_elements=True)


def _prefix_ids(root: ElementTree.Element, prefix: str) -> None:
    for element in root.iter():
        for attribute, value in list(element.attrib.items()):
            if attribute == "id":
                element.set(attribute, f"{prefix}-{value}")
            elif attribute.endswith("href"):
                element.set(attribute, f"#{prefix}-{value.removeprefix('#')}")
            elif "url(" in value:
                element.set(attribute, _LOCAL_URL.sub(rf"url(#{prefix}-\1)", value))


def _drop_namespace(root: ElementTree.Element) -> None:
    """Plain names, as HTML wants them; the root alone states its namespace."""
    for element in root.iter():
        element.tag = _local(element)
        element.tail = None if (element.tail or "").isspace() else element.tail
        if (element.text or "").isspace():
            element.text = None
        for attribute in [name for name in element.attrib if name.startswith("{")]:
            element.set("href", element.attrib.pop(attribute))
    root.set("xmlns", SVG)
