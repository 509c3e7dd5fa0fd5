"""The few pieces of SVG that the pictures are made of. Text is escaped; the result is XML."""

import re
from collections.abc import Sequence
from html import escape

Point = tuple[float, float]

# What XML 1.0 cannot hold, whatever is done to it.
_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def plain(words: str) -> str:
    """Words as XML text: escaped, and what XML cannot hold shown as the replacement character.

    Example:
        >>> plain("5 < 6 & \\x07")
        '5 &lt; 6 &amp; \ufffd'
    """
    return escape(_NOT_XML.sub("\ufffd", words))


def number(value: float) -> str:
    """A coordinate: two decimals at most, never an exponent.

    Errors: ValueError for what is no finite number.
    Example:
        >>> number(12.0), number(1 / 3), number(-1e-9)
        ('12', '0.33', '0')
    """
    written = f"{value:.2f}"
    if "n" in written:  # nan and inf both hold one
        raise ValueError(f"{value} is no coordinate")
    short = written.rstrip("0").rstrip(".")
    return "0" if short == "-0" else short


def tag(name: str, *inside: str, **attributes: str | float) -> str:
    """One element. `class_` is class, an underscore is a hyphen, a number a coordinate.

    Example:
        >>> tag("circle", class_="ink", cx=1, r=2.5)
        '<circle class="ink" cx="1" r="2.5"/>'
    """
    parts = [name]
    for key, value in attributes.items():
        written = plain(value) if isinstance(value, str) else number(value)
        parts.append(f'{key.rstrip("_").replace("_", "-")}="{written}"')
    opened = " ".join(parts)
    return f"<{opened}>{''.join(inside)}</{name}>" if inside else f"<{opened}/>"


def path(points: Sequence[Point], class_: str, is_closed: bool = False, **attributes: str) -> str:
    """A line through points.

    Example:
        >>> path([(0, 0), (3, 4)], "ink")
        '<path class="ink" d="M0 0L3 4"/>'
    """
    steps = "L".join(f"{number(x)} {number(y)}" for x, y in points)
    return tag("path", class_=class_, d=f"M{steps}{'Z' * is_closed}", **attributes)


def words_at(
    x: float,
    y: float,
    words: str,
    size: float = 15,
    anchor: str = "start",
    class_: str = "label",
    **attributes: str,
) -> str:
    """A line of words; `anchor` is start, middle or end, y the foot of the letters."""
    places = {"x": x, "y": y, "font_size": size}
    return tag("text", plain(words), class_=class_, text_anchor=anchor, **places, **attributes)


def picture(
    name: str, width: float, height: float, title: str, description: str, parts: Sequence[str]
) -> str:
    """A whole picture. `name` must be the only one of its kind on the page: ids are made of it."""
    ids = (f"{name}-title", f"{name}-words")
    return tag(
        "svg",
        tag("title", plain(title), id=ids[0]),
        tag("desc", plain(description), id=ids[1]),
        *parts,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {number(width)} {number(height)}",
        role="img",
        aria_labelledby=" ".join(ids),
    )
