"""A hand at the practice wall: presses the page's buttons and reads only what it shows."""

import re
from html import unescape

from flask.testing import FlaskClient


class Hand:
    """Plays one run through its forms, as a browser without script does."""

    def __init__(self, client: FlaskClient, start: str) -> None:
        self.client = client
        answer = client.post(start)
        assert answer.status_code == 303, answer.get_data(as_text=True)
        self.address = answer.location
        self.page = client.get(self.address).get_data(as_text=True)

    @property
    def number(self) -> int:
        """The number that the next act will have."""
        return int(re.search(r'name="number" value="(\d+)"', self.page)[1])

    @property
    def said(self) -> str:
        """What the page says was just seen."""
        part = re.search(r'id="said">(.*?)</div>', self.page, re.DOTALL)[1]
        return unescape(re.sub(r"<[^>]+>", " ", part))

    def press(self, act: str, port: int | None = None, number: int | None = None) -> int:
        """Press a button; the status of the answer before it sends on."""
        data = {"act": act, "number": number or self.number, "port": port or ""}
        answer = self.client.post(self.address, data=data)
        if answer.status_code == 303:
            self.page = self.client.get(answer.location).get_data(as_text=True)
        else:
            self.page = answer.get_data(as_text=True)
        return answer.status_code

    def pump_until(self, words: str, most: int = 40) -> None:
        """Open the valve and watch until the page says these words."""
        self.press("pump")
        while words not in self.said:
            assert most > 0, f"never said: {words}; last: {self.said}"
            assert self.press("watch") == 303
            most -= 1

    def by_the_book(self, ports: int) -> None:
        """A plain crack, port 1 first: pump until the next shows, shut, cap, move."""
        self.press("move", 1)
        for port in range(2, ports + 1):
            self.pump_until(f"Resin shows at port {port}.")
            self.press("close")
            self.press("cap", port - 1)
            self.press("move", port)
        self.pump_until("Hardly anything goes in any more.")
        self.press("close")
        self.press("cap", ports)

    def open_wall(self) -> str:
        """Say “I am done”; the opened wall's page."""
        answer = self.client.post(self.address + "/opened")
        assert answer.status_code == 303
        return self.client.get(answer.location).get_data(as_text=True)
