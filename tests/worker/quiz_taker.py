"""Takes a quiz through its pages: reads what the page asks, and sends what the page would send."""

import re
from dataclasses import dataclass
from html import unescape
from pathlib import Path
from typing import Any

import yaml
from flask.testing import FlaskClient

MODULES = Path(__file__).resolve().parents[2] / "content" / "modules"


def questions_of(module: str) -> dict[str, dict[str, Any]]:
    """The questions as they stand in the content file, by id."""
    text = (MODULES / module / "questions.yaml").read_text()
    return {question["id"]: question for question in yaml.safe_load(text)["questions"]}


@dataclass
class Page:
    """A page that was opened, as text."""

    html: str
    status: int
    path: str

    @property
    def words(self) -> str:
        """What a reader sees, tags dropped and spaces joined."""
        return " ".join(unescape(re.sub(r"<[^>]+>", " ", self.html)).split())

    @property
    def asked(self) -> str:
        found = re.search(r'<h2 class="asked">(.*?)</h2>', self.html, re.DOTALL)
        assert found, self.words
        return unescape(found.group(1)).strip()

    @property
    def options(self) -> dict[str, str]:
        """The words of each option, and the value its radio button sends."""
        pairs = re.findall(
            r'<input[^>]*type="radio"[^>]*value="([^"]+)"[^>]*><span>(.*?)</span>', self.html
        )
        return {unescape(words): value for value, words in pairs}

    @property
    def typed(self) -> str:
        """What stands in the answer's field."""
        found = re.search(r'<input[^>]*name="answer"[^>]*>', self.html)
        assert found, self.words
        value = re.search(r'value="([^"]*)"', found.group())
        return unescape(value.group(1)) if value else ""


def opened(client: FlaskClient, path: str) -> Page:
    answer = client.get(path, follow_redirects=True)
    return Page(answer.get_data(as_text=True), answer.status_code, answer.request.path)


def sent(client: FlaskClient, path: str, **data: str) -> Page:
    answer = client.post(path, data=data, follow_redirects=True)
    return Page(answer.get_data(as_text=True), answer.status_code, answer.request.path)


def do_all_steps(client: FlaskClient, module: str) -> Page:
    """Press "Done" on each card until there is none."""
    page = opened(client, f"/learn/{module}/steps/1")
    for _ in range(20):
        if "/steps/" not in page.path:
            return page
        page = sent(client, page.path)
    raise AssertionError("the steps never end")


def right_option(module: str, asked: str) -> str:
    """The words of the right option, from the content file."""
    for question in questions_of(module).values():
        if question["kind"] == "choice" and question["text"]["en"] == asked:
            right = [o for o in question["options"] if o.get("right")]
            return right[0]["text"]["en"]
    raise AssertionError(f"{module} has no such question: {asked}")
