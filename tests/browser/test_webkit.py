"""A second engine, the one phones of another make have: a lesson without signal, and the outbox.

There the way is closed by stopping the server: no switch of a tool stands between.
"""

from collections.abc import Iterator
from pathlib import Path

import pytest

from app.demo.crew import DEMO_PASSWORD
from tests.browser.conftest import LiveServer
from tests.browser.phones import receipts_on_server, steps_on_server
from tests.browser.webkit import WebKit, missing, wait_for

# Said by the list once it is empty, and by the button once all is sent; either may come last.
ALL_SENT = ("Nothing waits here.", "Everything is sent.")


@pytest.fixture
def webkit(tmp_path: Path) -> Iterator[WebKit]:
    if missing():
        names = " and ".join(missing())
        pytest.skip(
            f"No {names} on this machine: WebKit was not tried. On Debian: "
            "apt-get install webkit2gtk-driver xvfb."
        )
    home = tmp_path / "home"
    home.mkdir(mode=0o700)
    with WebKit(home) as browser:
        yield browser


def test_a_lesson_opens_without_signal_and_what_is_done_is_kept_and_sent_once(
    webkit: WebKit, server: LiveServer
):
    learn_with_everything_kept(webkit, server.url)
    server.stop()
    step = "/learn/safety-gear/steps/1"
    webkit.go(server.url + step)
    assert "AppleWebKit" in webkit.run("return navigator.userAgent")
    assert webkit.run("return document.documentElement.dataset.person !== undefined")
    wait_for(lambda: "No signal: a copy" in webkit.text("#unsent"))
    assert len(webkit.text("article.step")) > 200  # the card itself, not a page that says sorry
    webkit.click("article.step .step-on")
    wait_for(lambda: webkit.address().endswith("/steps/2"))
    wait_for(lambda: "1 not sent yet" in webkit.text("#unsent"))
    webkit.go(f"{server.url}/outbox")  # also a kept page, and the queue outlives the page
    wait_for(lambda: webkit.text("#outbox-waiting li").startswith("Step done: "))
    again = LiveServer(server.app, server.server.port)
    try:
        webkit.click("#outbox-send")
        wait_for(lambda: webkit.text("#outbox-state") in ALL_SENT)
        assert len(steps_on_server(server.app, "nia")) == receipts_on_server(server.app) == 1
    finally:
        again.stop()


def learn_with_everything_kept(webkit: WebKit, url: str) -> None:
    """Sign in, and wait until the page says that every module is on the phone."""
    webkit.go(f"{url}/sign-in")
    webkit.type("[name=sign_in_name]", "nia")
    webkit.type("[name=password]", DEMO_PASSWORD)
    webkit.click("#sign-in .step-on")
    wait_for(lambda: webkit.address().endswith("/learn"))
    wait_for(lambda: webkit.text("[data-keep]") == "8 of 8 modules on this phone")
