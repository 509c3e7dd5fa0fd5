"""No page is forgotten by the test that looks at all of them (tests/browser/test_every_page.py)."""

import re

from flask import Flask

from tests.browser.every_page import NO_ENDPOINT, NO_PAGES, ROLES, SIDEWAYS


def listed() -> dict[str, list[str]]:
    """The addresses of each endpoint, whoever opens them."""
    return {
        endpoint: addresses
        for _name, pages in ROLES.values()
        for endpoint, addresses in pages.items()
        if endpoint != NO_ENDPOINT
    }


def test_every_page_is_listed(app: Flask):
    shown = {rule.endpoint for rule in app.url_map.iter_rules() if "GET" in (rule.methods or ())}
    missing = shown - NO_PAGES - set(listed())
    assert not missing, f"add these to tests/browser/every_page.py: {sorted(missing)}"
    gone = (NO_PAGES | set(listed()) | SIDEWAYS) - shown
    assert not gone, f"these are pages no more: {sorted(gone)}"


def test_every_address_leads_to_its_page(app: Flask):
    site = app.url_map.bind("localhost")
    for endpoint, addresses in listed().items():
        for address in addresses:
            assert site.match(re.sub(r"{\w+}", "1", address).split("?")[0])[0] == endpoint, address
