"""Lesson Markdown to safe HTML, with figure-of-fact marks turned into links to their sources.

Markup of a fact, the same with and without a script:

    <a class="fact" href="#src-STEP-SOURCE"><span class="fact-metric">150 mm</span>
    <span class="fact-or"> / </span><span class="fact-us">6 in</span></a>

A stylesheet that hides `fact-or` and one of the two spans switches the unit system.
"""

from __future__ import annotations

import re
from functools import cache
from threading import Lock
from xml.etree.ElementTree import Element, SubElement

import markdown  # type: ignore[import-untyped]
import nh3
from markdown.inlinepatterns import InlineProcessor  # type: ignore[import-untyped]

from app.curriculum.loading.facts import MARK, Fact, facts_in, metric_text, read_fact
from app.curriculum.model import Part

_CLEANER = nh3.Cleaner(
    tags={"p", "ul", "ol", "li", "strong", "em", "a", "span", "br", "code"},
    attributes={"a": {"href", "class"}, "span": {"class"}},
    url_schemes={"https"},
    link_rel=None,
)
_ALONE = Lock()
_RAW_HTML = re.compile(r"<[a-zA-Z/!?]")


def anchor(step_id: str, source_id: str) -> str:
    """The id of a source's entry in the card's list: `src-<step>-<source>`."""
    return f"src-{step_id}-{source_id}"


def has_raw_html(text: str) -> bool:
    """Whether `text` holds an HTML tag; lessons hold none, so that nothing vanishes in cleaning."""
    return bool(_RAW_HTML.search(text))


def render(text: str, step_id: str) -> Part:
    """Markdown with marks as a Part. Raises FactRefused for a mark that is not well written."""
    source_ids = tuple(dict.fromkeys(fact.source_id for _, fact in facts_in(text)))
    html = _CLEANER.clean(_converted(text, step_id))
    return Part(html=html, plain=_plain(text), source_ids=source_ids)


def render_line(text: str, step_id: str) -> Part:
    """As `render`, for one line without a paragraph around it."""
    part = render(text, step_id)
    html = part.html.strip().removeprefix("<p>").removesuffix("</p>")
    return part.model_copy(update={"html": html})


def _converted(text: str, step_id: str) -> str:
    # Making a converter takes as long as converting, so there is one, and one text in it at a time.
    with _ALONE:
        converter, mark = _converter()
        mark.step_id = step_id
        return str(converter.reset().convert(text))


@cache
def _converter() -> tuple[markdown.Markdown, _FactMark]:
    converter = markdown.Markdown(extensions=["sane_lists"], output_format="html")
    mark = _FactMark(MARK.pattern, converter)
    converter.inlinePatterns.register(mark, "fact", 200)
    return converter, mark


class _FactMark(InlineProcessor):  # type: ignore[misc]
    step_id = ""

    def handleMatch(  # noqa: N802 — the name is Python-Markdown's
        self, match: re.Match[str], data: str
    ) -> tuple[Element, int, int]:
        fact = read_fact(match.group(1))
        return _link(fact, self.step_id), match.start(0), match.end(0)


def _link(fact: Fact, step_id: str) -> Element:
    link = Element("a", {"class": "fact", "href": f"#{anchor(step_id, fact.source_id)}"})
    if fact.us is None:
        _span(link, "fact-same", fact.metric)
        return link
    _span(link, "fact-metric", fact.metric)
    _span(link, "fact-or", " / ")
    _span(link, "fact-us", fact.us)
    return link


def _span(parent: Element, name: str, words: str) -> None:
    span = SubElement(parent, "span", {"class": name})
    span.text = markdown.util.AtomicString(words)


def _plain(text: str) -> str:
    """The prose as one reader reads it: metric figures, no Markdown signs, a line a paragraph."""
    plain = metric_text(text)
    plain = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", plain)
    plain = re.sub(r"\n(?!\s*\n|\s*(?:[-*+]|\d+\.)\s)", " ", plain.strip())
    plain = re.sub(r"^\s*([-*+]|\d+\.)\s+", "", plain, flags=re.MULTILINE)
    plain = re.sub(r"(\*\*|__|\*|`)", "", plain)
    return "\n".join(" ".join(line.split()) for line in plain.splitlines() if line.strip())
