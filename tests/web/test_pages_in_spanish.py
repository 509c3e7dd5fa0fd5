"""Every page, opened in Spanish by whoever may open it, shows no English of ours.

The words looked for are English function words that are no Spanish words: whoever writes an English
sentence can hardly do without them. Names and texts that people typed are taken out first, and so
is what a page itself marks as English, such as the names of publications.
"""

import json
import re
import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from html.parser import HTMLParser
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient
from sqlalchemy import inspect, text

from app.database import db, reading, writing
from app.demo.crew import DEMO_PASSWORD
from app.demo.loading import load_demo
from app.factory import create_app
from tests.conftest import Clock, settings_at

ENGLISH = re.compile(
    r"\b(the|and|of|with|this|that|is|are|was|were|for|from|you|your|not|been|be|will|which|who"
    r"|when|where|they|their|there|these|those|an|only|have|had|must|what|how|why|its|by|or"
    r"|to|on|at|as|it|if|than|cannot|does|into|about|also|again|before|after|here)\b",
    re.IGNORECASE,
)
AN_ID = re.compile(r"\b[a-z0-9]+(?:-[a-z0-9]+)+\b")
SIGN_INS = {"worker": "nia", "quiz": "ben", "trainer": "tomas", "officer": "olga"}
# Of pages that differ in their data only, so many are opened.
MOST_ALIKE = 4
ATTRIBUTES = ("aria-label", "alt", "title", "placeholder")


class Reading(HTMLParser):
    """What a page shows or reads aloud in its own language, and where it leads."""

    VOID = frozenset({"input", "img", "br", "meta", "link", "wbr", "hr"})

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self.links: list[str] = []
        self.skipped = 0

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        found = dict(attributes)
        if tag in self.VOID:
            pass
        elif self.skipped or tag in ("script", "style") or found.get("lang") == "en":
            self.skipped += 1
        if not self.skipped:
            self.words += [found[name] or "" for name in ATTRIBUTES if name in found]
        if tag == "a" and (found.get("href") or "").startswith("/"):
            self.links.append(str(found["href"]).partition("#")[0])

    def handle_endtag(self, tag: str) -> None:
        if self.skipped and tag not in self.VOID:
            self.skipped -= 1

    def handle_data(self, data: str) -> None:
        if not self.skipped and data.strip():
            self.words.append(" ".join(data.split()))


@pytest.fixture(scope="module")
def firm(tmp_path_factory, curriculum, empty_database: Path) -> Iterator[Flask]:
    """The demo crew's app."""
    settings = settings_at(tmp_path_factory.mktemp("spanish"))
    shutil.copy(empty_database, settings.instance / "lowport.db")
    clock = Clock(datetime(2026, 3, 2, 14, tzinfo=UTC))
    app = create_app(settings, clock, curriculum)
    app.config["WTF_CSRF_ENABLED"] = False
    with app.app_context(), writing() as connection:
        load_demo(connection, curriculum, clock(), "America/New_York")
    yield app
    with app.app_context():
        db.engine.dispose()


def typed_texts(app: Flask) -> list[str]:
    """Every text the database holds: what people typed, names, ids; the longest first."""
    with app.app_context(), reading() as connection:
        tables = inspect(db.engine).get_table_names()
        rows = [row for name in tables for row in connection.execute(text(f"SELECT * FROM {name}"))]
    found = {part for row in rows for value in row for part in _texts(value)}
    return sorted((one for one in found if len(one) > 3), key=len, reverse=True)


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, bytes):
        try:
            value = value.decode()
        except UnicodeDecodeError:
            return
    if isinstance(value, str) and value.startswith(("{", "[")):
        yield from _texts(json.loads(value))
    elif isinstance(value, str):
        yield " ".join(value.split())
    elif isinstance(value, dict | list):
        for inner in value.values() if isinstance(value, dict) else value:
            yield from _texts(inner)


def in_spanish(app: Flask, name: str) -> FlaskClient:
    client = app.test_client()
    answer = client.post("/sign-in", data={"sign_in_name": name, "password": DEMO_PASSWORD})
    assert answer.status_code == 302
    assert client.post("/show", data={"language": "es"}).status_code == 302
    return client


def kind_of_page(app: Flask, path: str) -> str:
    adapter = app.url_map.bind("localhost")
    return str(adapter.match(path.partition("?")[0])[0])


def every_page(app: Flask, client: FlaskClient, begin: list[str]) -> Iterator[tuple[str, Reading]]:
    """Follow the links from page to page, a few of each kind."""
    waiting, seen, counts = list(begin), set(begin), {}
    while waiting:
        path = waiting.pop(0)
        kind = kind_of_page(app, path)
        counts[kind] = counts.get(kind, 0) + 1
        if counts[kind] > MOST_ALIKE or kind.startswith(("web.static", "officer.board_file")):
            continue
        answer = client.get(path, follow_redirects=True)
        assert answer.status_code == 200, f"{path}: {answer.status_code}"
        page = Reading()
        page.feed(answer.get_data(as_text=True))
        yield path, page
        fresh = [link for link in page.links if link not in seen]
        seen.update(fresh)
        waiting += fresh


def english_in(page: Reading, typed: list[str]) -> list[str]:
    found = []
    for words in page.words:
        for one in typed:
            words = words.replace(one, "·")
        if ENGLISH.search(AN_ID.sub("·", words)):
            found.append(words)
    return found


def begin_work(app: Flask, client: FlaskClient, role: str) -> list[str]:
    """Where to start; a quiz and a supervised repair are opened first, to see them from inside."""
    if role == "quiz":
        answer = client.post("/learn/safety-gear/quiz")
        return ["/", answer.location]
    if role == "trainer":
        page = client.get("/jobs").get_data(as_text=True)
        job = re.search(r"/jobs/([0-9a-f-]{36})", page).group(1)
        form = client.get(f"/jobs/{job}/repairs/new").get_data(as_text=True)
        person = re.search(r'<option value="([0-9a-f-]{36})"', form).group(1)
        data = {"person": person, "qualification": "pump-operator", "occurred_on": "2026-03-02"}
        answer = client.post(f"/jobs/{job}/repairs/new", data=data)
        assert answer.status_code == 303, answer.get_data(as_text=True)
        return ["/", "/repair-choice", answer.location]
    return ["/"]


@pytest.mark.parametrize("role", SIGN_INS)
def test_pages_speak_spanish(firm: Flask, role: str):
    client = in_spanish(firm, SIGN_INS[role])
    begin = begin_work(firm, client, role)
    typed = typed_texts(firm)
    found = {}
    opened = 0
    for path, page in every_page(firm, client, begin):
        opened += 1
        if english := english_in(page, typed):
            found[path] = english
    assert opened >= 8
    assert found == {}


def test_the_sign_in_page_and_errors_speak_spanish(firm: Flask):
    client = firm.test_client()
    client.post("/show", data={"language": "es"})
    for path, code in (("/sign-in", 200), ("/sources", 200), ("/nothing-here", 404)):
        answer = client.get(path, headers={"Accept-Language": "es-MX,en"}, follow_redirects=True)
        assert answer.status_code in (code, 200)
        page = Reading()
        page.feed(answer.get_data(as_text=True))
        assert english_in(page, []) == [], path


def test_what_a_refused_form_says_is_spanish(firm: Flask):
    """Also the sentences that come from the form library."""
    client = in_spanish(firm, "tomas")
    typed = {"length": "six", "width": "3 psi", "thickness": "2 ft 13 in", "site": "x" * 200}
    answer = client.post("/jobs/new", data={**typed, "act": "open"})
    assert answer.status_code == 422
    page = Reading()
    page.feed(answer.get_data(as_text=True))
    assert english_in(page, []) == []
    said = " ".join(page.words)
    assert "¿Cuál es el número?" in said
    assert "psi es para presión. Aquí se pide una medida de largo: mm, cm, m, in, ft, mil." in said
    assert "13 in es un pie o más. ¿Quiere decir 3 ft 1 in?" in said
    assert "120 caracteres" in said
