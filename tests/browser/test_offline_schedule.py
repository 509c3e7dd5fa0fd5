"""Three phones, two hundred rounds of signal coming and going, servers failing, pages dying.

The schedule is drawn from a fixed seed. Nothing may be lost and nothing may be doubled.
"""

import itertools
import random
from collections.abc import Callable

from playwright.sync_api import Page
from sqlalchemy import select

from app.database import reading
from app.web.outbox.phones import gaps_by_device
from app.workbook.outbox_tables import outbox_receipt, practice_answer
from tests.browser.conftest import PHONE, LiveServer
from tests.browser.phones import BOX, wait_until_sent, with_outbox

ROUNDS = 200
KEEP = f"""async (given) => {{ {BOX}
  return (await box.keep("practice-answer", given)).id;
}}"""


class Weather:
    """Stands before the app and spoils what is sent to it, each time in a drawn way."""

    def __init__(self, server: LiveServer, draw: random.Random) -> None:
        self.inner, self.is_bad = server.server.app, True
        self.spoilt = {"fine": 0, "trouble": 0, "unanswered": 0, "torn": 0}
        self.fates = itertools.cycle(draw.sample(list(self.spoilt) * 5, 20))
        server.server.app = self

    def __call__(self, environ, start_response):
        is_sending = (environ["REQUEST_METHOD"], environ["PATH_INFO"]) == ("POST", "/outbox")
        if not self.is_bad or not is_sending:
            return self.inner(environ, start_response)
        fate = next(self.fates)
        self.spoilt[fate] += 1
        if fate == "trouble":
            environ["wsgi.input"].read(int(environ.get("CONTENT_LENGTH") or 0))
            start_response("503 Service Unavailable", [("Content-Type", "text/html")])
            return [b"<h1>busy</h1>"]
        if fate == "fine":
            return self.inner(environ, start_response)
        # The server has done it, and its answer never arrives, or arrives in half.
        body = b"".join(self.inner(environ, lambda *_a: None))
        if fate == "torn":
            start_response("200 OK", [("Content-Type", "application/json")])
            return [body[: len(body) // 2]]
        raise ConnectionAbortedError("the line went dead")


class Phones:
    """The phones, and what was kept on each."""

    def __init__(self, open_page: Callable[..., Page], draw: random.Random) -> None:
        self.pages = [open_page(name, PHONE) for name in ("nia", "ben", "cora")]
        self.draw = draw
        self.kept: list[str] = []

    def play(self) -> None:
        act = self.draw.choices(
            [self.keep, self.signal, self.send, self.kill, self.again], [8, 4, 4, 1, 1]
        )[0]
        act(self.draw.randrange(len(self.pages)))

    def keep(self, at: int) -> None:
        payload = {"module": "safety-gear", "day": "2026-03-02", "round": 1, "item": "none"}
        payload |= {"version": 1, "typed": str(len(self.kept))}
        self.kept.append(self.pages[at].evaluate(KEEP, payload))

    def signal(self, at: int) -> None:
        self.pages[at].context.set_offline(self.draw.random() < 0.5)

    def send(self, at: int) -> None:
        with_outbox(self.pages[at], "box.send()")

    def kill(self, at: int) -> None:
        context = self.pages[at].context
        context.set_offline(False)
        self.pages[at].close()
        self.pages[at] = context.new_page()
        self.pages[at].goto("/outbox")

    def again(self, at: int) -> None:
        """A second tab of the same phone sends too, and closes in the middle of it."""
        tab = self.pages[at].context.new_page()
        tab.goto("/outbox", wait_until="commit")
        tab.close()


def test_two_hundred_rounds_lose_nothing_and_double_nothing(open_page, server):
    draw = random.Random(20260302)
    weather, phones = Weather(server, draw), Phones(open_page, draw)
    for page in phones.pages:
        page.goto("/outbox")
    for _ in range(ROUNDS):
        phones.play()
    weather.is_bad = False
    for page in phones.pages:
        page.context.set_offline(False)
        page.goto("/outbox")
        with_outbox(page, "await box.send()")
        wait_until_sent(page)
    with server.app.app_context(), reading() as connection:
        receipts = list(connection.scalars(select(outbox_receipt.c.id)))
        answers = list(connection.scalars(select(practice_answer.c.id)))
        gaps = gaps_by_device(connection)
    assert len(phones.kept) > 60
    assert all(count > 2 for count in weather.spoilt.values()), weather.spoilt
    assert sorted(receipts) == sorted(phones.kept)
    assert sorted(answers) == sorted(phones.kept)
    assert gaps == {}
