"""Every page, for everybody who opens it, in both themes and both languages.

axe finds nothing, text has contrast 7:1, targets are big enough for gloves, and nothing has to be
scrolled sideways on the narrowest phone.
"""

import shutil
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from flask import Flask
from playwright.sync_api import Browser, Page

from app.accounts.people import set_preference
from app.accounts.tables import person
from app.curriculum.model import Curriculum
from app.database import db, writing
from app.demo.crew import DEMO_PASSWORD
from app.factory import create_app
from tests.browser.conftest import PATIENCE_MS, PHONE, LiveServer
from tests.browser.every_page import NO_ENDPOINT, ROLES
from tests.browser.every_page import SIDEWAYS as HELD_SIDEWAYS
from tests.browser.furnished import furnish
from tests.browser.looking import (
    NARROW,
    SIDEWAYS,
    UNFOLD,
    against_rules,
    is_too_wide,
    prepare,
    small_targets,
)
from tests.conftest import settings_at


@pytest.fixture(scope="module")
def firm(
    tmp_path_factory: pytest.TempPathFactory, curriculum: Curriculum, demo_database: Path
) -> Iterator[tuple[LiveServer, dict[str, str]]]:
    """One server for all these tests, which only read, and the ids of what was begun there."""
    folder = tmp_path_factory.mktemp("furnished")
    shutil.copy(demo_database, folder / "lowport.db")
    app = create_app(settings_at(folder), curriculum=curriculum)
    ids = furnish(app, curriculum)
    with app.app_context():
        db.engine.dispose()
    live = LiveServer(create_app(settings_at(folder), curriculum=curriculum))
    yield live, ids
    live.stop()


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("role", ROLES)
def test_every_page_suits_everybody(browser: Browser, firm, role: str, language: str):
    (server, ids), (name, pages) = firm, ROLES[role]
    prefer(server.app, language)
    context = browser.new_context(viewport=PHONE, base_url=server.url, locale=language)
    page = context.new_page()
    page.set_default_timeout(PATIENCE_MS)
    prepare(page)
    if name:
        sign_in(page, name)
    wrong: list[str] = []
    for endpoint, addresses in pages.items():
        for address in addresses:
            go_to(page, address.format(**ids), endpoint, language)
            found = look(page, endpoint in HELD_SIDEWAYS)
            wrong += [f"{address}: {one}" for one in found]
    context.close()
    assert not wrong, "\n".join(wrong)


def prefer(app: Flask, language: str) -> None:
    """Show everybody their pages in this language."""
    with app.app_context(), writing() as connection:
        for one in connection.scalars(person.select().with_only_columns(person.c.id)).all():
            set_preference(connection, one, "language", language)


def sign_in(page: Page, name: str) -> None:
    page.goto("/sign-in")
    page.locator("[name=sign_in_name]").fill(name)
    page.locator("[name=password]").fill(DEMO_PASSWORD)
    page.locator("main button").click()
    page.wait_for_url(lambda url: "/sign-in" not in url)


def go_to(page: Page, address: str, endpoint: str, language: str) -> None:
    """Open a page and make sure that it is this one."""
    answer = page.goto(address)
    assert answer is not None
    assert answer.ok == (endpoint != NO_ENDPOINT), address
    assert urlsplit(page.url).path == address.split("?")[0]
    assert page.locator("html").get_attribute("lang") == language, address


def look(page: Page, is_held_sideways: bool) -> list[str]:
    """Everything that is wrong with a page."""
    page.evaluate(UNFOLD)
    found = small_targets(page)
    found += against_rules(page)
    found += is_too_wide(page, NARROW)
    if is_held_sideways:
        found += is_too_wide(page, SIDEWAYS)
    page.set_viewport_size(PHONE)
    return found
