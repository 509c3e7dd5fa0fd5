"""Two servers behind one database: one with the content as delivered, one with an edited module."""

import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from flask import Flask
from flask.testing import FlaskClient

from app.curriculum.loading.content import load_curriculum
from app.curriculum.model import Curriculum
from app.database import db, reading
from app.factory import create_app
from app.ids import new_id
from app.records.events import ContentRevised
from app.records.ledger.door import all_events
from app.settings import ROOT, Settings

MODULE = "pump-purge"
PASSWORD = "wet-phone-in-basement"  # the cast's, see tests/conftest.py
MARK = "Invented remark of the second revision."


def edited_content(folder: Path) -> Curriculum:
    """The content with one module a revision on, read from files that were really edited."""
    shutil.copytree(ROOT / "content", folder / "content")
    for language in ("en", "es"):
        path = folder / "content" / "modules" / MODULE / f"lesson.{language}.md"
        words = path.read_text()
        assert "\nrevision: 1\n---\n" in words
        path.write_text(words.replace("\nrevision: 1\n---\n", f"\nrevision: 2\n---\n{MARK} "))
    return load_curriculum(folder / "content")


@dataclass
class Servers:
    """Both apps, and browsers on them."""

    delivered: Flask
    edited: Flask

    def client(self, name: str, app: Flask | None = None) -> FlaskClient:
        client = (app or self.edited).test_client()
        data = {"sign_in_name": name, "password": PASSWORD}
        assert client.post("/sign-in", data=data).status_code == 302
        return client

    def approvals(self) -> list[ContentRevised]:
        with self.edited.app_context(), reading() as connection:
            return [e for e in all_events(connection) if isinstance(e, ContentRevised)]

    def page(self, name: str, url: str, app: Flask | None = None) -> str:
        return self.client(name, app).get(url).get_data(as_text=True)

    def as_delivered(self, name: str = "olga", **more: Any) -> Any:
        """Approve everything that never was, on the server with the delivered files."""
        client = self.client(name, self.delivered)
        shown = client.get("/texts/as-delivered").get_data(as_text=True)
        data = {
            "record_id": new_id(),
            "sha256": _hidden(shown, "sha256"),
            "occurred_on": "2026-03-02",
            "author_name": "Lowport project",
            "reason": "Read all of it (invented).",
            "password": PASSWORD,
            **more,
        }
        return client.post("/texts/as-delivered", data=data)

    def approve(self, name: str = "pia", text: str = MODULE, **more: Any) -> Any:
        """Approve what waits on the server with the edited files."""
        client = self.client(name)
        shown = client.get(f"/texts/{text}").get_data(as_text=True)
        data = {
            "record_id": new_id(),
            "sha256": _hidden(shown, "sha256"),
            "occurred_on": "2026-03-02",
            "change": "major",
            "author": "named",
            "author_name": "Lowport project",
            "reason": "The remark was missing (invented).",
            "password": PASSWORD,
            **more,
        }
        return client.post(f"/texts/{text}", data=data)

    def stop(self) -> None:
        for app in (self.delivered, self.edited):
            with app.app_context():
                db.engine.dispose()


def _hidden(page: str, name: str) -> str:
    field = next((part for part in page.split("<input") if f'name="{name}"' in part), "")
    return field.partition('value="')[2].partition('"')[0]


def servers_at(
    settings: Settings, clock: Any, delivered: Curriculum, edited: Curriculum
) -> Servers:
    """Both apps, serving approved texts only, as a real installation does."""
    apps = [create_app(settings, clock, c, must_be_approved=True) for c in (delivered, edited)]
    for app in apps:
        app.config["WTF_CSRF_ENABLED"] = False
    return Servers(*apps)
