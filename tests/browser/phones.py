"""What browser tests of a phone without signal share: the phone's scripts, what the server has."""

from collections.abc import Callable
from time import monotonic
from typing import Any

from flask import Flask
from playwright.sync_api import Locator, Page
from sqlalchemy import func, select

from app.accounts.tables import person
from app.database import reading
from app.workbook.outbox_tables import outbox_receipt
from app.workbook.tables import step_done
from tests.browser.conftest import PATIENCE_MS

# The page's own outbox, as a script of the page itself would import it.
BOX = """
  const main = document.querySelector('script[src$="/phone.js"]').src;
  const box = await import(new URL("outbox/outbox.js", main));
"""


def follow(page: Page, locator: Locator) -> None:
    """Click what leads to another page; wait until that page and its scripts are there."""
    with page.expect_navigation():
        locator.click()


def with_outbox(page: Page, code: str, given: Any = None) -> Any:
    """Run a piece of script that has the page's outbox as ``box``; return what it returns."""
    return page.evaluate(f"async (given) => {{ {BOX} {code} }}", given)


def keep_step(page: Page, step: str, module: str = "safety-gear") -> str:
    """Put a step that was done into the outbox; return the item's id."""
    payload = {"module": module, "revision": 1, "step": step}
    return with_outbox(page, "return (await box.keep('step-done', given)).id", payload)


def waiting(page: Page) -> list[dict[str, Any]]:
    """What waits on the phone, everybody's."""
    return with_outbox(page, "return await box.waiting(null)")


def wait_until_sent(page: Page, left: int = 0) -> None:
    """Wait until no more than so many things wait on the phone."""
    wait_until(page, lambda: len(waiting(page)) <= left, "things still wait on the phone")


def wait_until(page: Page, is_so: Callable[[], bool], otherwise: str) -> None:
    """Look again and again until something is so, as long as a busy machine may need."""
    end = monotonic() + PATIENCE_MS / 1000
    while not is_so():
        if monotonic() > end:
            raise AssertionError(otherwise)
        page.wait_for_timeout(100)


def wait_until_true(page: Page, script: str) -> None:
    """Wait until what a script gives is true.

    Playwright's own ``wait_for_function`` looks again from inside the page, where the content
    security policy forbids text to be run as a script; it works only if true at once.
    """
    wait_until(page, lambda: bool(page.evaluate(script)), f"never true: {script}")


def steps_on_server(app: Flask, sign_in_name: str, module: str = "safety-gear") -> list[str]:
    """The steps the server has of a person, each as often as it is there."""
    query = select(step_done.c.step_id).join(person, person.c.id == step_done.c.person_id)
    where = (person.c.sign_in_name == sign_in_name, step_done.c.module_id == module)
    with app.app_context(), reading() as connection:
        return list(connection.scalars(query.where(*where)))


def receipts_on_server(app: Flask) -> int:
    """How many things of phones the server has taken in."""
    with app.app_context(), reading() as connection:
        return int(connection.scalar(select(func.count()).select_from(outbox_receipt)) or 0)
