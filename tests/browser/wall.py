"""A trainer with a real phone at the wall: a browser whose folder outlives it, and what they do."""

import os
import re
import signal
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page, expect

from app.demo.crew import DEMO_PASSWORD
from tests.browser.conftest import FLAGS, PHONE, chromium_path
from tests.browser.phones import wait_until
from tests.browser.test_trainer_walk import AT_THE_WALL, open_job, start_watching

PIN = "274016"


class WallPhone:
    """One phone: a browser with a folder of its own that can be killed and started again."""

    def __init__(self, browser: Browser, folder: Path, url: str) -> None:
        self.kind, self.folder, self.url = browser.browser_type, folder, url
        self.context: BrowserContext
        self.start()

    def start(self) -> None:
        self.context = self.kind.launch_persistent_context(
            self.folder,
            executable_path=chromium_path(),
            args=FLAGS,
            viewport=PHONE,
            base_url=self.url,
        )
        self.context.set_default_timeout(40_000)

    def page(self) -> Page:
        """The first page of the browser."""
        return self.context.pages[0] if self.context.pages else self.context.new_page()

    def kill(self) -> None:
        """End the browser as an empty battery does: it writes nothing more on its way out."""
        # Chromium's lock in its folder is a link that names the host and the process.
        process = int(os.readlink(self.folder / "SingletonLock").rsplit("-", 1)[1])
        with self.context.expect_event("close"):
            os.kill(process, signal.SIGKILL)
        assert not self.was_closed_in_order(), "the browser had time to clear up"

    def was_closed_in_order(self) -> bool:
        """Whether the browser said goodbye: it then takes its lock away."""
        return not (self.folder / "SingletonLock").is_symlink()

    def restart(self) -> Page:
        """Kill the browser and start it again with the same folder."""
        self.kill()
        self.start()
        return self.page()


def sign_in(page: Page, name: str) -> None:
    page.goto("/sign-in")
    page.get_by_label("Sign-in name").fill(name)
    page.get_by_label("Password").fill(DEMO_PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(lambda url: "/sign-in" not in url)


def enrol(page: Page) -> None:
    """Register the phone for signing."""
    page.goto("/devices")
    page.get_by_label("A signing number for this phone").fill(PIN)
    page.get_by_label("Your password").fill(DEMO_PASSWORD)
    page.get_by_role("button", name="Register this phone").click()
    expect(page.locator(".flash")).to_contain_text("This phone is registered")
    expect(page.locator("#enrol-done")).to_be_visible()


def take_down(page: Page, person: str = "Leo Epigram", qualification: str = "Pump operator") -> str:
    """Open a job and a repair, and take the repair onto the phone. Returns the repair's id."""
    open_job(page)
    start_watching(page, person, qualification)
    page.get_by_role("link", name="Take this repair down with me").click()
    expect(page.locator("#wall-kept")).to_contain_text("This repair is on this phone")
    return page.url.split("/")[-2]


def at_the_wall(page: Page, repair: str) -> None:
    page.goto(f"/repairs/{repair}/at-the-wall")
    page.locator("html[data-wall-ready]").wait_for()


def note_everything(page: Page, but: dict[str, str] | None = None) -> None:
    """Type every number, tick every step as done, judge the whole."""
    typed = AT_THE_WALL | (but or {})
    for card in page.locator("[data-item]").all():
        name = card.get_attribute("data-item")
        for field in card.locator(".side-by-side input").all():
            measure = (field.get_attribute("id") or "").rsplit("/", 1)[1]
            field.fill(typed[measure])
        page.locator(f'[id="{name}=done"]').check()
    page.get_by_text("Works safely alone", exact=True).click()
    page.get_by_label("Remarks").fill("Good hands. Keep the log nearer.")
    page.get_by_label("Remarks").blur()


def sign(page: Page, pin: str = PIN) -> None:
    """Sign, and wait until the signature is on the phone."""
    try_to_sign(page, pin)
    expect(page.locator("#wall-signed")).to_be_visible()


def try_to_sign(page: Page, pin: str) -> None:
    expect(page.locator("#wall-sign")).to_be_visible()
    if pin:
        page.get_by_label("Your signing number").fill(pin)
    page.get_by_role("button", name="Sign.").click()


def png(width: int = 900, height: int = 700) -> bytes:
    """A picture as a camera would hand it over, with a place in its hidden data."""
    import io

    from PIL import Image

    picture = Image.effect_noise((width, height), 60).convert("RGB")
    exif = Image.Exif()
    exif[0x8825] = {1: "N", 2: (40.0, 26.0, 46.0), 3: "W", 4: (79.0, 58.0, 56.0)}
    written = io.BytesIO()
    picture.save(written, "JPEG", quality=95, exif=exif)
    return written.getvalue()


def take_photo(page: Page) -> None:
    shots = page.locator("#shots li").count()
    photo = {"name": "IMG_0001.jpg", "mimeType": "image/jpeg", "buffer": png()}
    page.locator("#take-photo").set_input_files(photo)
    expect(page.locator("#shots li")).to_have_count(shots + 1)


def outbox(page: Page) -> list[dict[str, Any]]:
    """What waits on the phone."""
    return page.evaluate(
        """async () => {
          const main = document.querySelector('script[src$="/phone.js"]').src;
          const items = await import(new URL("outbox/items.js", main));
          return (await items.waiting(null)).map(({ kind, problem }) => ({ kind, problem }));
        }"""
    )


def wait_until_empty(page: Page) -> None:
    wait_until(page, lambda: not outbox(page), "something still waits on the phone")


def board_says(page: Page, person: str, column: int = 1) -> str:
    page.goto("/board")
    row = page.get_by_role("row").filter(has_text=person)
    return re.sub(r"\s+", " ", row.get_by_role("cell").nth(column).inner_text())
