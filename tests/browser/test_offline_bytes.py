"""What a phone moves: counted at the server, headers and bodies, for everything a visit causes."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import PHONE, LiveServer
from tests.browser.test_offline_lessons import sign_in

KB = 1024


class Counter:
    """Counts what goes out, between the app and the wire."""

    def __init__(self, server: LiveServer) -> None:
        self.inner = server.server.app
        self.sent: list[tuple[str, int, int]] = []  # path, status, bytes
        server.server.app = self

    def __call__(self, environ, start_response):
        seen = {}

        def counting(status, headers, exc_info=None):
            seen["status"] = int(status.split()[0])
            seen["bytes"] = sum(len(name) + len(value) + 4 for name, value in headers)
            return start_response(status, headers, exc_info)

        body = b"".join(self.inner(environ, counting))
        entry = (environ["PATH_INFO"], seen["status"], seen["bytes"] + len(body))
        self.sent.append(entry)
        return [body]

    def total(self) -> int:
        return sum(size for _path, _status, size in self.sent)


@pytest.fixture
def counter(server) -> Counter:
    return Counter(server)


def settled(page: Page) -> None:
    """Until the page, its scripts and the service worker's own files are all there."""
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    page.wait_for_load_state("networkidle")


@pytest.mark.parametrize("path", ["/learn/port-setting", "/learn/injection-order/steps/3"])
def test_a_first_visit_moves_little_and_a_second_one_next_to_nothing(
    browser, server, counter, path
):
    context = browser.new_context(viewport=PHONE, base_url=server.url)
    page = context.new_page()
    page.goto("/sign-in")
    cookies = sign_in_quietly(context, server)
    context.close()
    context = browser.new_context(viewport=PHONE, base_url=server.url)
    context.add_cookies(cookies)
    page = context.new_page()
    counter.sent.clear()
    page.goto(path)
    settled(page)
    assert counter.total() <= 100 * KB, counter.sent
    assert any(one[0] == "/sw.js" for one in counter.sent)
    (html,) = [size for name, status, size in counter.sent if name == path and status == 200]
    assert html <= 20 * KB
    page.goto("about:blank")
    counter.sent.clear()
    page.goto(path)
    settled(page)
    again = [one for one in counter.sent if one[0] != "/sw.js"]
    assert {status for _path, status, _size in again} <= {304}, again
    assert counter.total() <= 6 * KB, counter.sent
    context.close()


def sign_in_quietly(context, server) -> list:
    """Sign in with another browser, so that the visit that is counted is the first one."""
    page = context.pages[0]
    sign_in(page, "nia")
    return context.cookies()


def test_every_page_of_every_module_is_under_20_kb(open_page, server, counter):
    page = open_page("nia", PHONE)
    page.goto("/learn")
    expect(page.locator("[data-keep]")).to_have_text("8 of 8 modules on this phone", timeout=60000)
    pages = {path: size for path, status, size in counter.sent if path.startswith("/learn/")}
    assert len(pages) > 90
    assert max(pages.values()) <= 20 * KB
    print(f"all modules: {sum(pages.values()) / KB:.0f} KB in {len(pages)} pages")
