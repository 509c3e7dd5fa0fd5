"""Lesson prose becomes safe HTML; facts link to their sources."""

from xml.etree import ElementTree

import pytest

from app.curriculum.loading.facts import FactRefused
from app.curriculum.loading.markdown import has_raw_html, render, render_line


def parsed(html: str) -> ElementTree.Element:
    return ElementTree.fromstring(f"<div>{html}</div>")


def test_a_fact_shows_both_unit_systems_and_links_to_its_source():
    part = render("Clean {{50 mm | 2 in | cleaning-band}} wide.", "clean")
    link = parsed(part.html).find(".//a")
    assert link.get("class") == "fact"
    assert link.get("href") == "#src-clean-cleaning-band"
    assert [(span.get("class"), span.text) for span in link] == [
        ("fact-metric", "50 mm"),
        ("fact-or", " / "),
        ("fact-us", "2 in"),
    ]
    assert part.source_ids == ("cleaning-band",)
    assert part.plain == "Clean 50 mm wide."


def test_a_figure_that_is_the_same_everywhere_stands_once():
    link = parsed(render("Mix {{1:1 | ratio}}.", "mix").html).find(".//a")
    assert [(span.get("class"), span.text) for span in link] == [("fact-same", "1:1")]


def test_signs_inside_a_mark_are_not_markdown():
    html = render("{{2 * 3 * 4 _x_ | s}} and <5 & 6>", "x").html
    assert "2 * 3 * 4 _x_" in html
    assert "&lt;5 &amp; 6&gt;" in html


def test_sources_are_listed_once_in_reading_order():
    part = render("{{5 mm | b}} {{6 mm | a}} {{7 mm | b}}", "x")
    assert part.source_ids == ("b", "a")


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "[a](javascript:alert(1))",
        "[a](http://example.org)",
        "![a](https://example.org/x.png)",
        '<a href="https://example.org" onclick="x()">a</a>',
        "{{<script>alert(1)</script> | s}}",
    ],
)
def test_nothing_active_gets_through(text):
    html = render(text, "x").html
    tree = parsed(html)
    allowed = {"div", "p", "a", "span", "em", "strong", "ul", "ol", "li", "br", "code"}
    assert {element.tag for element in tree.iter()} <= allowed
    for element in tree.iter():
        assert set(element.attrib) <= {"href", "class"}
        assert element.get("href", "#").startswith(("#", "https://"))


def test_raw_html_is_noticed_and_a_less_sign_is_not():
    assert has_raw_html("a <b>bold</b> word")
    assert has_raw_html("</p>")
    assert not has_raw_html("width < depth, a<5")


def test_plain_words_keep_list_items_apart_and_join_wrapped_lines():
    part = render("One line\nthat is wrapped.\n\n- **First** item\n- Second `item`", "x")
    assert part.plain == "One line that is wrapped.\nFirst item\nSecond item"


def test_a_line_has_no_paragraph_around_it():
    assert render_line("Wear **gloves**.", "x").html == "Wear <strong>gloves</strong>."


def test_a_broken_mark_is_refused():
    with pytest.raises(FactRefused):
        render("{{50 mm}}", "x")


def test_one_text_leaves_nothing_behind_for_the_next():
    named = "See [that][page] and {{5 mm | a}}.\n\n[page]: https://example.org\n"
    assert "https://example.org" in render(named, "first").html
    after = render("See [that][page] and {{5 mm | a}}.", "second").html
    assert "example.org" not in after
    assert "#src-second-a" in after
    assert "first" not in after
