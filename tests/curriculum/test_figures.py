"""Drawings are checked against a short list and made ready to stand in a page."""

from xml.etree import ElementTree

import pytest

from app.curriculum.loading.figures import FigureRefused, figure_html, read_figure

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><title>t</title><desc>d</desc>'


def drawing(inside: str, head: str = HEAD) -> str:
    return f"{head}{inside}</svg>"


def test_the_words_are_replaced_and_named_for_screen_readers():
    html = figure_html(drawing('<path class="ink" d="M0 0"/>'), "A & B", "Two <lines>", "step-a")
    root = ElementTree.fromstring(html)
    space = "{http://www.w3.org/2000/svg}"
    assert root.get("role") == "img"
    assert root.get("aria-labelledby") == "step-a-figure-title step-a-figure-desc"
    title, desc = root.find(f"{space}title"), root.find(f"{space}desc")
    assert (title.get("id"), title.text) == ("step-a-figure-title", "A & B")
    assert (desc.get("id"), desc.text) == ("step-a-figure-desc", "Two <lines>")
    assert "ns0:" not in html


def test_ids_and_what_points_at_them_get_the_step_in_front():
    inside = (
        '<defs><clipPath id="cut"><rect width="5" height="5"/></clipPath></defs>'
        '<g id="bolt" clip-path="url(#cut)"/><use href="#bolt"/>'
    )
    one = figure_html(drawing(inside), "t", "d", "one")
    assert 'id="one-cut"' in one
    assert 'clip-path="url(#one-cut)"' in one
    assert 'href="#one-bolt"' in one
    other = figure_html(drawing(inside), "t", "d", "other")
    trees = [ElementTree.fromstring(html) for html in (one, other)]
    named = [element.get("id") for tree in trees for element in tree.iter() if element.get("id")]
    assert len(named) == len(set(named)) == 8


@pytest.mark.parametrize(
    ("inside", "said"),
    [
        ("<script>x</script>", "element script"),
        ("<style>.a{}</style>", "element style"),
        ("<foreignObject/>", "element foreignObject"),
        ("<image href='#a'/>", "element image"),
        ("<a href='https://example.org'><path d='M0 0'/></a>", "element a"),
        ("<animate attributeName='x'/>", "element animate"),
        ("<path onclick='x()' d='M0 0'/>", "attribute onclick"),
        ("<path style='fill:red' d='M0 0'/>", "attribute style"),
        ("<use href='https://example.org/x.svg#a'/>", "outside the drawing"),
        (
            "<use xmlns:xlink='http://www.w3.org/1999/xlink' xlink:href='other.svg#a'/>",
            "outside the drawing",
        ),
        ("<path fill='url(https://example.org/#a)' d='M0 0'/>", "outside the drawing"),
        ("<path fill='#ff0000' d='M0 0'/>", "colours come from classes"),
        ("<path class='ink red' d='M0 0'/>", "unknown class: red"),
        ("<text x='1' y='1'>Port</text>", "one letter or digit"),
        ("<path d='M0 0'", "not readable as XML"),
    ],
)
def test_what_must_not_stand_in_a_page_is_refused(inside, said):
    with pytest.raises(FigureRefused, match=said):
        read_figure(drawing(inside))


@pytest.mark.parametrize(
    ("head", "said"),
    [
        (HEAD.replace('viewBox="0 0 10 10"', ""), "viewBox"),
        (HEAD.replace("viewBox", 'width="10" viewBox'), "fixed width"),
        (HEAD.replace("<title>t</title>", ""), "title and desc"),
        (HEAD.replace("http://www.w3.org/2000/svg", "urn:other"), "first element must be svg"),
        (f'<!DOCTYPE svg [<!ENTITY a "b">]>{HEAD}', "DOCTYPE"),
    ],
)
def test_a_drawing_without_its_head_is_refused(head, said):
    with pytest.raises(FigureRefused, match=said):
        read_figure(drawing("", head))
