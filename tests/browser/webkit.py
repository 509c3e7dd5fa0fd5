"""WebKit, driven by plain WebDriver over HTTP (W3C WebDriver 2, sections 8 to 13).

Debian's webkit2gtk-driver brings the driver and a browser; Xvfb is the screen it draws on.
tests/browser/find-webkit.sh installs both where it may.
"""

import json
import os
import shutil
import socket
import subprocess
import time
from pathlib import Path
from typing import Any, Self
from urllib.error import HTTPError, URLError
from urllib.request import Request, urlopen

ELEMENT = "element-6066-11e4-a52e-4f735466cecf"  # the name the standard gives a found element
PATIENCE_S = 60
NEEDED = ("WebKitWebDriver", "Xvfb")


def missing() -> list[str]:
    """The programs that are not on this machine."""
    return [name for name in NEEDED if shutil.which(name) is None]


class WebKit:
    """One browser with an empty home; use it in a with statement."""

    def __init__(self, home: Path) -> None:
        read_end, write_end = os.pipe()
        screen = ["Xvfb", "-displayfd", str(write_end), "-screen", "0", "800x900x24"]
        self.screen = subprocess.Popen(screen, pass_fds=[write_end], stderr=subprocess.DEVNULL)
        os.close(write_end)
        with os.fdopen(read_end) as told:
            display = f":{told.readline().strip()}"
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        paths = {"HOME": str(home), "XDG_RUNTIME_DIR": str(home), "DISPLAY": display}
        self.driver = subprocess.Popen(
            ["WebKitWebDriver", "--host=127.0.0.1", f"--port={port}"],
            env={**os.environ, **paths},
            stderr=subprocess.DEVNULL,
        )
        self.base = f"http://127.0.0.1:{port}"
        self.session = ""

    def __enter__(self) -> Self:
        wait_for(self._is_ready)
        found = self._ask("POST", "/session", {"capabilities": {}})
        self.session = f"/session/{found['sessionId']}"
        return self

    def __exit__(self, *_wrong: object) -> None:
        if self.session:
            self._ask("DELETE", "")
        for process in (self.driver, self.screen):
            process.terminate()
            process.wait()

    def _is_ready(self) -> bool:
        try:
            return bool(self._ask("GET", "/status")["ready"])
        except URLError:
            return False

    def _ask(self, method: str, path: str, body: Any = None) -> Any:
        data = None if body is None else json.dumps(body).encode()
        asked = Request(self.base + self.session + path, data, method=method)
        asked.add_header("Content-Type", "application/json")
        try:
            with urlopen(asked, timeout=PATIENCE_S) as answer:
                return json.load(answer)["value"]
        except HTTPError as wrong:
            told = json.load(wrong)["value"]
            raise AssertionError(f"{path}: {told['error']} {told['message']}") from None

    def go(self, address: str) -> None:
        self._ask("POST", "/url", {"url": address})

    def address(self) -> str:
        return str(self._ask("GET", "/url"))

    def _found(self, css: str) -> str:
        wanted = {"using": "css selector", "value": css}
        return f"/element/{self._ask('POST', '/element', wanted)[ELEMENT]}"

    def click(self, css: str) -> None:
        """Bring it into view at once, since our pages scroll smoothly and a click won't wait."""
        where = '{ block: "center", behavior: "instant" }'
        script = f"document.querySelector(arguments[0]).scrollIntoView({where})"
        self._ask("POST", "/execute/sync", {"script": script, "args": [css]})
        self._ask("POST", f"{self._found(css)}/click", {})

    def type(self, css: str, text: str) -> None:
        self._ask("POST", f"{self._found(css)}/value", {"text": text})

    def text(self, css: str) -> str:
        """What a reader sees of the first element; "" where there is none."""
        script = "return document.querySelector(arguments[0])?.innerText ?? ''"
        return str(self._ask("POST", "/execute/sync", {"script": script, "args": [css]}))

    def run(self, script: str) -> Any:
        return self._ask("POST", "/execute/sync", {"script": script, "args": []})


def wait_for(is_so: Any) -> None:
    """Wait until it is so; looks ten times a second."""
    until = time.monotonic() + PATIENCE_S
    while not is_so():
        assert time.monotonic() < until, "it never came"
        time.sleep(0.1)
