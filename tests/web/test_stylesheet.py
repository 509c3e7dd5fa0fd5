"""All sheets are one file that a phone fetches once."""

import gzip
import re

from app.web.stylesheet import CSS, PAPER, SCREEN


def test_every_sheet_is_in_the_one_file(client):
    # Linked by the pages that need them.
    practice = {"practice", "practice-pump", "practice-opened"}
    own_pages = {"card", "card-paper", "crew", "texts", *practice}
    assert {p.stem for p in CSS.glob("*.css")} - own_pages == {*SCREEN, *PAPER}


def test_the_page_names_the_sheet_by_its_digest_and_it_is_kept(client):
    page = client.get("/sign-in").get_data(as_text=True)
    (href,) = re.findall(r'href="(/assets/css/book-[0-9a-f]{16}\.css)"', page)
    answer = client.get(href)
    assert answer.headers["Cache-Control"] == "public, max-age=31536000, immutable"
    assert "Set-Cookie" not in answer.headers
    assert len(gzip.compress(answer.data)) < 14 * 1024


def test_an_old_name_is_answered_but_not_kept(client):
    answer = client.get("/assets/css/book-0000000000000000.css")
    assert "max-age=0" in answer.headers["Cache-Control"]
