"""A server behind a gate: a network that is there, is cut, answers 500, or drops after the commit.

The gate stands outside the app, as a proxy would, so the app knows nothing of it. It cuts the
connection itself, which the service worker meets just as a page does.
"""

import socket
from collections.abc import Callable, Iterable
from typing import Any

from flask import Flask
from werkzeug.serving import make_server

from tests.browser.conftest import LiveServer

Start = Callable[..., Any]


class Gate:
    """WSGI in front of an app; ``state`` is open, closed, trouble (500) or drops-answer."""

    def __init__(self, app: Flask) -> None:
        self.app = app.wsgi_app
        self.state = "open"
        self.only_outbox = False
        self.passed = 0  # requests to the outbox that reached the app

    def __call__(self, environ: dict[str, Any], start: Start) -> Iterable[bytes]:
        is_sending = (environ["REQUEST_METHOD"], environ["PATH_INFO"]) == ("POST", "/outbox")
        applies = is_sending or not self.only_outbox
        if self.state == "closed" and applies:
            return self._cut(environ)
        if self.state == "trouble" and applies:
            start("500 Internal Server Error", [("Content-Type", "text/html")])
            return [b"<h1>trouble</h1>"]
        self.passed += is_sending
        if self.state == "drops-answer" and is_sending:
            for _part in self.app(environ, lambda *_given: None):
                pass
            return self._cut(environ)
        return self.app(environ, start)

    @staticmethod
    def _cut(environ: dict[str, Any]) -> Iterable[bytes]:
        environ["werkzeug.socket"].shutdown(socket.SHUT_RDWR)
        raise ConnectionAbortedError("the gate is closed")


class GatedServer(LiveServer):
    """The app behind a gate on a free port."""

    def __init__(self, app: Flask, port: int = 0) -> None:
        self.gate = Gate(app)
        super().__init__(app, port)

    def _made(self, app: Flask, port: int) -> Any:
        return make_server("127.0.0.1", port, self.gate, threaded=True)
