"""What looks at every page finds what is wrong with a page, each thing by itself."""

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import PHONE
from tests.browser.looking import NARROW, against_rules, is_too_wide, prepare, small_targets

# WCAG 2.2 works contrast out from relative luminance: #767676 on white is 4.54:1, which is enough
# for 1.4.3 (4.5:1) and too little for 1.4.6 (7:1); #595959 is 7.00:1.
PAGE = """<!doctype html><html lang="en"><head><title>Invented</title><style>
  body {{ margin: 0; font: 16px sans-serif; background: #fff; color: {ink} }}
  @media (prefers-color-scheme: dark) {{ body {{ background: #000; color: {dark} }} }}
  button {{ min-height: {height}px; width: 90px }} .wide {{ width: {wide}px }}
</style></head><body><main><h1>Invented</h1><{heading}>Part</{heading}>
<p>Words with <a href="#a" style="color: inherit">a link</a> in the line.</p>
<p class="wide">Words.</p><p>{link}</p>
<form><label>Password <input type="password" style="height: 48px"></label>
<button>Sign</button></form></main></body></html>"""
WELL = {"ink": "#595959", "dark": "#fff", "height": 64, "wide": 300, "heading": "h2", "link": ""}
LONE_LINK = '<a href="#b" style="color: inherit">Alone</a>'


@pytest.fixture
def page(browser: Browser) -> Page:
    page = browser.new_context(viewport=PHONE).new_page()
    prepare(page)
    page.goto("about:blank")
    return page


def found(page: Page, **wrong: object) -> list[str]:
    page.set_content(PAGE.format(**{**WELL, **wrong}))
    page.set_viewport_size(PHONE)
    return small_targets(page) + against_rules(page) + is_too_wide(page, NARROW)


def test_nothing_is_found_where_nothing_is_wrong(page: Page):
    assert found(page) == []


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"ink": "#767676"}, "light: color-contrast-enhanced"),
        ({"dark": "#777"}, "dark: color-contrast-enhanced"),
        ({"height": 60}, 'BUTTON. "Sign" 90 × 60, at least 64'),
        ({"link": LONE_LINK}, 'A. "Alone"'),
        ({"heading": "h3"}, "light: heading-order"),
        ({"wide": 330}, "10 px too wide at 320 px"),
    ],
)
def test_each_wrong_thing_is_found(page: Page, wrong: dict[str, object], said: str):
    told = found(page, **wrong)
    assert told
    assert all(said in one for one in told), told
