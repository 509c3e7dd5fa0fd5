"""A page travels compressed, and again only when it has changed (RFC 9110 8.8.3 and 15.4.5)."""

import gzip

import pytest

GZIP = {"Accept-Encoding": "gzip"}
PAGES = ["/learn", "/learn/safety-gear", "/learn/safety-gear/steps/1", "/learn/shutdown/practice"]


@pytest.mark.parametrize("path", PAGES)
def test_a_page_read_again_is_only_asked_about(ola, clock, path):
    first = ola.get(path, headers=GZIP)
    clock.pass_time(minutes=2)
    again = ola.get(path, headers={**GZIP, "If-None-Match": first.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"")
    assert again.headers["ETag"] == first.headers["ETag"]
    assert "Cookie" in again.headers["Vary"]


def test_a_page_that_changed_is_sent(ola, phone, steps):
    from tests.web.phone import send

    first = ola.get("/learn/safety-gear")
    send(ola, phone.step(steps[0]))
    again = ola.get("/learn/safety-gear", headers={"If-None-Match": first.headers["ETag"]})
    assert again.status_code == 200


def test_text_is_compressed_for_those_who_take_it(ola):
    packed = ola.get("/learn/safety-gear", headers=GZIP)
    plain = ola.get("/learn/safety-gear")
    assert packed.headers["Content-Encoding"] == "gzip"
    assert gzip.decompress(packed.data) == plain.data
    assert len(packed.data) < len(plain.data) / 2
    assert "Accept-Encoding" in packed.headers["Vary"]
    assert "Content-Encoding" not in plain.headers
    assert int(packed.headers["Content-Length"]) == len(packed.data)


def test_small_answers_and_pictures_of_dots_are_left_as_they_are(client):
    assert "Content-Encoding" not in client.get("/health", headers=GZIP).headers
    icon = client.get("/assets/img/icons/icon-192.png", headers=GZIP)
    assert "Content-Encoding" not in icon.headers
    assert icon.data.startswith(b"\x89PNG")


def test_a_file_is_revalidated_too(client):
    first = client.get("/assets/manifest.webmanifest", headers=GZIP)
    etag = {"If-None-Match": first.headers["ETag"]}
    assert client.get("/assets/manifest.webmanifest", headers={**GZIP, **etag}).status_code == 304


def test_one_session_keeps_one_form_token_and_it_works(app, ola):
    import re

    app.config["WTF_CSRF_ENABLED"] = True
    token = re.compile(r'name="csrf_token"[^>]*value="([^"]+)"')
    first, second = (set(token.findall(ola.get("/learn").get_data(as_text=True))) for _ in range(2))
    assert len(first) == 1
    assert first == second
    answer = ola.post("/show", data={"csrf_token": first.pop(), "theme": "dark", "back": "/learn"})
    assert answer.location == "/learn"
    assert ola.post("/show", data={"theme": "light"}).status_code == 400


def test_a_form_token_is_renewed_at_half_of_its_life(app, ola):
    import re

    def shown() -> str:
        page = ola.get("/learn").get_data(as_text=True)
        return re.search(r'name="csrf_token"[^>]*value="([^"]+)"', page)[1]

    first = shown()
    half = app.config["WTF_CSRF_TIME_LIMIT"] // 2
    for seconds, is_kept in ((half - 60, True), (120, False)):
        with ola.session_transaction() as session:
            session["form_token_at"] -= seconds
            # Within one second the same token comes out again, unless what is signed differs.
            session["csrf_token"] = f"signed {seconds}"
        assert (shown() == first) is is_kept


def test_nobody_gets_the_token_of_another_session(app, cast, ola):
    import re

    app.config["WTF_CSRF_ENABLED"] = True
    page = ola.get("/learn").get_data(as_text=True)
    (token,) = set(re.findall(r'name="csrf_token"[^>]*value="([^"]+)"', page))
    app.config["WTF_CSRF_ENABLED"] = False
    cast.add("ben.worker", "worker")
    ben = cast.sign_in("ben.worker")
    app.config["WTF_CSRF_ENABLED"] = True
    ben.get("/learn")
    assert ben.post("/show", data={"csrf_token": token, "theme": "dark"}).status_code == 400
