"""A random schedule on two real browsers that are killed and started again; the seed is fixed.

The 200 rounds with more phones are in tests/trainer/test_random_schedule.py.
"""

import random
from collections.abc import Iterator
from pathlib import Path

import pytest
from flask import Flask
from playwright.sync_api import Browser, Page
from sqlalchemy import select

from app.accounts.sessions import end_all_sessions
from app.curriculum.model import Curriculum
from app.database import reading, writing
from app.factory import create_app
from app.web.now import system_clock
from app.workbook.outbox_tables import outbox_receipt
from tests.browser.gated import GatedServer
from tests.browser.phones import keep_step, wait_until_sent
from tests.browser.wall import WallPhone as RealPhone
from tests.browser.wall import sign_in
from tests.conftest import settings_at

SEED = 20260302


def received(app: Flask) -> list[str]:
    with app.app_context(), reading() as connection:
        return list(connection.scalars(select(outbox_receipt.c.id)))


@pytest.fixture
def gated(tmp_path: Path, curriculum: Curriculum, demo_database: Path) -> Iterator[GatedServer]:
    (tmp_path / "lowport.db").write_bytes(demo_database.read_bytes())
    live = GatedServer(create_app(settings_at(tmp_path), curriculum=curriculum))
    live.gate.only_outbox = True
    yield live
    live.stop()


def test_two_real_phones_killed_and_restarted_lose_nothing(
    browser: Browser, gated: GatedServer, tmp_path: Path, curriculum: Curriculum
):
    drawn = random.Random(SEED)
    steps = [step.id for step in curriculum.module("safety-gear").lesson("en").steps]
    before = len(received(gated.app))
    phones = {name: RealPhone(browser, tmp_path / name, gated.url) for name in ("nia", "ben")}
    kept: dict[str, list[str]] = {name: [] for name in phones}
    for name, phone in phones.items():
        sign_in(phone.page(), name)
        phone.page().goto("/learn")
    for number in range(12):
        name = drawn.choice(list(phones))
        page = phones[name].page()
        gated.gate.state = drawn.choice(("open", "closed", "trouble", "drops-answer"))
        kept[name].append(keep_step(page, steps[number % len(steps)]))
        page.wait_for_timeout(drawn.randrange(120))
        if drawn.random() < 0.4:
            comes_back(phones[name], name)
        if drawn.random() < 0.2:
            end_sessions(gated.app, phones[name].page())
    gated.gate.state = "open"
    for name, phone in phones.items():
        sent_after_signing_in(phone.page(), name)
    made = [item for items in kept.values() for item in items]
    assert len(received(gated.app)) - before == len(made) == len(set(made))
    assert set(made) <= set(received(gated.app))
    for phone in phones.values():
        phone.context.close()


def comes_back(phone: RealPhone, name: str) -> None:
    """The browser is killed, started again, and its person signs in anew."""
    page = phone.restart()
    sign_in(page, name)
    page.goto("/learn")


def end_sessions(app: Flask, page: Page) -> None:
    person = page.evaluate("document.documentElement.dataset.person")
    with app.app_context(), writing() as connection:
        end_all_sessions(connection, person, system_clock())


def sent_after_signing_in(page: Page, name: str) -> None:
    sign_in(page, name)
    page.goto("/learn")
    wait_until_sent(page)
