"""How a command opens the app: the server's own settings, content and database."""

from collections.abc import Iterator
from contextlib import contextmanager

from flask import Flask


@contextmanager
def opened_app() -> Iterator[Flask]:
    """Yield the app with its context pushed."""
    from app.factory import create_app

    app = create_app()
    with app.app_context():
        yield app
