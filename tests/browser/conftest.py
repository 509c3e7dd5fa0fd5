"""A real Chromium against a real server with the invented crew.

Where no Chromium can be found the browser tests skip and say so; in CI (CI=true) they fail.
"""

import os
import shutil
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from flask import Flask
from playwright.sync_api import Browser, BrowserContext, Page, expect, sync_playwright
from werkzeug.serving import BaseWSGIServer, make_server

from app.curriculum.model import Curriculum
from app.database import db, writing
from app.demo.crew import DEMO_PASSWORD
from app.demo.loading import load_demo
from app.factory import create_app
from app.web.now import system_clock
from tests.conftest import settings_at

PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 800}

# A machine that runs the whole suite at once may be slow; a wait ends as soon as it may.
PATIENCE_MS = 40_000
expect.set_options(timeout=PATIENCE_MS)
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def chromium_path() -> str | None:
    names = ("chromium", "chromium-browser", "google-chrome")
    return next((found for name in names if (found := shutil.which(name))), None)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if "tests/browser" in str(item.path):
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    path = chromium_path()
    if path is None:
        sentence = "No Chromium on this machine: the browser tests did not run."
        if os.environ.get("CI") == "true":
            pytest.fail(sentence)
        pytest.skip(sentence)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=FLAGS)
        yield browser
        browser.close()


class LiveServer:
    """The app on a free port of this machine, in a thread."""

    def __init__(self, app: Flask, port: int = 0) -> None:
        self.app = app
        self.server = self._made(app, port)
        self.url = f"http://127.0.0.1:{self.server.port}"
        self.thread = threading.Thread(target=self.server.serve_forever, daemon=True)
        self.thread.start()

    def _made(self, app: Flask, port: int) -> BaseWSGIServer:
        return make_server("127.0.0.1", port, app, threaded=True)

    def stop(self) -> None:
        self.server.shutdown()
        self.thread.join()
        with self.app.app_context():
            db.engine.dispose()


@pytest.fixture(scope="session")
def demo_database(
    tmp_path_factory: pytest.TempPathFactory, curriculum: Curriculum, empty_database: Path
) -> Path:
    """A database with the invented crew, made once and copied for each test."""
    folder = tmp_path_factory.mktemp("demo")
    shutil.copy(empty_database, folder / "lowport.db")
    app = create_app(settings_at(folder), curriculum=curriculum)
    with app.app_context():
        with writing() as connection:
            load_demo(connection, curriculum, system_clock(), "America/New_York")
        db.engine.dispose()
    return folder / "lowport.db"


@pytest.fixture
def server(tmp_path: Path, curriculum: Curriculum, demo_database: Path) -> Iterator[LiveServer]:
    shutil.copy(demo_database, tmp_path / "lowport.db")
    live = LiveServer(create_app(settings_at(tmp_path), curriculum=curriculum))
    yield live
    live.stop()


@pytest.fixture
def open_page(browser: Browser, server: LiveServer) -> Iterator[Callable[..., Page]]:
    """A function that opens a browser of its own, signed in, and returns its page."""
    contexts: list[BrowserContext] = []

    def sign_in(name: str, viewport: dict[str, int]) -> Page:
        context = browser.new_context(viewport=viewport, base_url=server.url)
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(PATIENCE_MS)
        page.goto("/sign-in")
        page.get_by_label("Sign-in name").fill(name)
        page.get_by_label("Password").fill(DEMO_PASSWORD)
        page.get_by_role("button", name="Sign in").click()
        page.wait_for_url(lambda url: "/sign-in" not in url)
        return page

    yield sign_in
    for context in contexts:
        context.close()
