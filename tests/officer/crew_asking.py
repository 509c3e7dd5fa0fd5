"""Asking the crew check by page, and reading its answer."""

import re
from html import unescape

from flask.testing import FlaskClient

LEAD, PUMP = "lead-injector", "pump-operator"


def ask(client: FlaskClient, path: str, *people: str, code: int = 200, **more: str) -> str:
    query = {"ask": "1", "as_of": "2026-03-10", "person": people, **more}
    answer = client.get(path, query_string=query)
    page = unescape(answer.get_data(as_text=True))
    assert answer.status_code == code, page
    return page


def sentences(page: str) -> list[str]:
    """The lines of the answer, above the tables."""
    top = page.split('class="decides"')[0]
    lines = re.findall(r"<li>.*?<span>(.*?)</span>", top.split("<main")[1], re.S)
    return [" ".join(re.sub(r"<[^>]+>", "", line).split()) for line in lines]


def row(page: str, name: str) -> list[str]:
    """The cells of a person or a hand."""
    found = re.search(rf'<th scope="row"[^>]*>(?:<a[^>]*>)?{name}<.*?</tr>', page, re.S)
    assert found, name
    cells = re.findall(r"<td.*?>(.*?)</td>", found.group(), re.S)
    return [" ".join(re.sub(r"<[^>]+>", " ", cell).split()) for cell in cells]
