"""A phone as the server sees it: numbered things in an outbox, sent as JSON."""

import json
from dataclasses import dataclass, field
from typing import Any
from uuid import uuid4

from flask.testing import FlaskClient
from werkzeug.test import TestResponse

SAME_ORIGIN = {"Sec-Fetch-Site": "same-origin"}


@dataclass
class Phone:
    """Numbers what it makes for one person, as the phone's own script does."""

    person: str
    device: str = field(default_factory=lambda: str(uuid4()))
    sequence: int = 0

    def item(self, kind: str, payload: dict[str, Any], /, **other: Any) -> str:
        """The text of a new item."""
        self.sequence += 1
        made = {
            "version": 1,
            "id": str(uuid4()),
            "kind": kind,
            "person": self.person,
            "device": self.device,
            "sequence": self.sequence,
            "claimed_at": "2026-03-02T09:00:00-05:00",
            "server_seen_at": "2026-03-02T08:30:00-05:00",
            "payload": payload,
        }
        return json.dumps({**made, **other})

    def step(self, step: str, module: str = "safety-gear", **other: Any) -> str:
        """The text of a step that was done."""
        payload = {"module": module, "revision": 1, "step": step}
        return self.item("step-done", payload, **other)


def send(client: FlaskClient, body: str, **headers: str) -> TestResponse:
    """Send a body as the page's script does."""
    given = {k.replace("_", "-"): v for k, v in headers.items()}
    return client.post(
        "/outbox", data=body, content_type="application/json", headers={**SAME_ORIGIN, **given}
    )


def send_all(client: FlaskClient, *items: str, issued: dict[str, int] | None = None) -> list[Any]:
    """Send a batch and return each item's outcome."""
    answer = send(client, json.dumps({"items": items, "issued": issued or {}}))
    assert answer.status_code == 200, answer.get_data(as_text=True)
    return answer.get_json()["outcomes"]
