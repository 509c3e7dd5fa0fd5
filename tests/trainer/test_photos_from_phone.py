"""Photos from a phone: looked at by their bytes, drawn anew, tied by hash to what was signed."""

import hashlib
import io
from uuid import uuid4

import pytest
import rfc8785
from PIL import Image

from app.database import reading
from app.workbook.photos import photo_file, photos_of
from tests.trainer.conftest import MEASURED, PASSWORD, Yard
from tests.trainer.wall_phone import WallPhone, body_of, photo_item, wall_data
from tests.web.phone import send_all

GPS = 0x8825  # the tag of the position block, Exif 2.3 table 4


def picture(kind: str = "JPEG", size: tuple[int, int] = (320, 240), turned: int = 1) -> bytes:
    """A picture with a place and a maker in its hidden data."""
    exif = Image.Exif()
    exif[GPS] = {1: "N", 2: (40.0, 26.0, 46.0), 3: "W", 4: (79.0, 58.0, 56.0)}
    exif[0x010F], exif[0x0112] = "Invented Camera", turned
    written = io.BytesIO()
    Image.new("RGB", size, (120, 90, 60)).save(written, kind, exif=exif)
    return written.getvalue()


@pytest.fixture
def phone(yard: Yard) -> WallPhone:
    phone = WallPhone(yard.people["ana.trainer"])
    phone.enrol(yard.client, PASSWORD)
    return phone


@pytest.fixture
def repair(yard: Yard) -> str:
    return yard.started()


def kept(yard: Yard, repair: str) -> list:
    with yard.app.app_context(), reading() as connection:
        return photos_of(connection, repair)


def outcome(yard: Yard, item: str) -> dict:
    return send_all(yard.client, item)[0]


@pytest.mark.parametrize("kind", ["JPEG", "PNG"])
def test_a_photo_is_drawn_anew_without_its_place(yard, phone, repair, kind, settings):
    sent = picture(kind)
    assert outcome(yard, photo_item(phone, repair, sent))["status"] == 201
    (photo,) = kept(yard, repair)
    assert photo.sha256 == hashlib.sha256(sent).hexdigest()
    copy = photo_file(settings.instance, photo.id)
    assert copy.parent == settings.instance / "photos"
    assert copy.name == f"{photo.id}.jpg"
    assert b"Invented Camera" not in copy.read_bytes()
    opened = Image.open(copy)
    assert (opened.format, opened.size, dict(opened.getexif())) == ("JPEG", (320, 240), {})


def test_a_turned_photo_stands_upright_and_a_large_one_gets_smaller(yard, phone, repair):
    outcome(yard, photo_item(phone, repair, picture(turned=6)))
    outcome(yard, photo_item(phone, repair, picture(size=(4000, 1000))))
    sizes = {(one.width, one.height) for one in kept(yard, repair)}
    assert sizes == {(240, 320), (1600, 400)}


@pytest.mark.parametrize(
    "sent",
    [
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        b"GIF89a" + b"\0" * 40,
        b"\xff\xd8\xff" + b"\0" * 100,
        picture()[:200],
        b"%PDF-1.7",
    ],
    ids=["svg", "gif", "only the first bytes", "cut off", "pdf"],
)
def test_what_is_no_photo_is_refused(yard, phone, repair, sent):
    found = outcome(yard, photo_item(phone, repair, sent))
    assert (found["status"], found["problem"]["code"]) == (422, "no-photo")
    assert kept(yard, repair) == []


def test_a_picture_that_unpacks_to_too_much_is_refused(yard, phone, repair):
    bomb = io.BytesIO()
    Image.new("1", (12_000, 12_000)).save(bomb, "PNG")
    assert len(bomb.getvalue()) < 100_000
    assert outcome(yard, photo_item(phone, repair, bomb.getvalue()))["status"] == 422


def test_too_many_bytes_are_refused(yard, phone, repair):
    large = picture() + b"\0" * 600_000
    assert outcome(yard, photo_item(phone, repair, large))["status"] == 413


@pytest.mark.parametrize(
    ("change", "status"),
    [
        ({"sha256": "0" * 64}, 422),
        ({"data": "no base64!"}, 422),
        ({"photo": "../../secret-key"}, 422),
        ({"repair": str(uuid4())}, 422),
    ],
)
def test_a_photo_whose_words_do_not_fit_is_refused(yard, phone, repair, change, status):
    item = photo_item(phone, repair, picture(), **change)
    assert outcome(yard, item)["status"] == status
    assert kept(yard, repair) == []


def test_the_same_photo_twice_is_one_and_another_under_its_number_is_refused(yard, phone, repair):
    first = photo_item(phone, repair, picture(), photo=(number := str(uuid4())))
    assert outcome(yard, first)["status"] == 201
    assert outcome(yard, photo_item(phone, repair, picture(), photo=number))["status"] == 201
    other = photo_item(phone, repair, picture(size=(10, 10)), photo=number)
    assert outcome(yard, other)["status"] == 409
    assert len(kept(yard, repair)) == 1


def test_only_photos_that_were_signed_are_shown_and_taken_in_after_it(yard, phone, repair, cast):
    before, signed = picture(size=(30, 20)), picture()
    outcome(yard, photo_item(phone, repair, before))
    (unsigned,) = kept(yard, repair)
    number, sha256 = str(uuid4()), hashlib.sha256(signed).hexdigest()
    named = {"id": number, "sha256": sha256, "module": "", "step": ""}
    body = body_of(wall_data(yard.client, repair), MEASURED, photos=[named])
    assert outcome(yard, phone.sign_off(body))["status"] == 201
    assert "still on the phone" in yard.page(f"/repairs/{repair}")
    late = outcome(yard, photo_item(phone, repair, picture(size=(50, 50))))
    assert late["problem"]["code"] == "not-signed"
    assert outcome(yard, photo_item(phone, repair, signed, photo=number))["status"] == 201
    assert "still on the phone" not in yard.page(f"/repairs/{repair}")
    answer = yard.client.get(f"/repairs/{repair}/photos/{number}")
    assert (answer.status_code, answer.mimetype) == (200, "image/jpeg")
    assert yard.client.get(f"/repairs/{repair}/photos/{unsigned.id}").status_code == 404
    assert yard.client.get(f"/repairs/{uuid4()}/photos/{number}").status_code == 404
    cast.add("olga.officer", "safety-officer")
    olga = cast.sign_in("olga.officer")
    assert olga.get(f"/records/{repair}/photos/{number}").status_code == 200
    assert f"/records/{repair}/photos/{number}" in olga.get(f"/records/{repair}").text
    assert cast.sign_in("pat.worker").get(f"/repairs/{repair}/photos/{number}").status_code == 403


def test_a_photo_comes_by_file_as_well(yard, phone, repair, cast):
    sent = picture()
    whole = {"format": "lowport-outbox", "version": 1, "items": [photo_item(phone, repair, sent)]}
    data = {"file": (io.BytesIO(rfc8785.dumps(whole)), "not-sent.json")}
    answer = yard.client.post("/outbox/import", data=data)
    assert answer.status_code == 200
    assert len(kept(yard, repair)) == 1
