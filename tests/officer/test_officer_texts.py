"""Approving texts: who may, what is refused, and what stands on the record."""

import pytest

from app.ids import new_id
from tests.officer.text_servers import MARK, MODULE, edited_content, servers_at


@pytest.fixture(scope="module")
def edited(tmp_path_factory: pytest.TempPathFactory):
    return edited_content(tmp_path_factory.mktemp("edited"))


@pytest.fixture
def running(firm, settings, clock, curriculum, edited):
    both = servers_at(settings, clock, curriculum, edited)
    assert both.as_delivered().status_code == 303
    yield both
    both.stop()


def said(answer) -> str:
    return answer.get_data(as_text=True)


def test_an_approval_is_a_signed_record_with_hash_author_and_reason(running, firm, edited):
    answer = running.approve(author=firm.people["olga"])
    newest = running.approvals()[-1]
    assert (newest.module, newest.revision, newest.change) == (MODULE, 2, "major")
    assert newest.sha256 == edited.module(MODULE).content_hash
    assert (newest.author, newest.author_name) == (firm.people["olga"], "")
    assert newest.recorded_by == firm.people["pia"]
    page = said(running.client("pia").get(answer.location))
    for words in ("I did not write it.", "Pia Invented", "Olga Invented", "The remark was missing"):
        assert words in page
    assert f"/text/{newest.sha256}" in page


def test_sent_twice_it_is_one_record(running, edited):
    same = {"record_id": new_id(), "sha256": edited.module(MODULE).content_hash}
    first, second = (running.approve(**same) for _ in range(2))
    assert first.location == second.location
    assert len(running.approvals()) == 10


def test_as_delivered_sent_twice_is_nine_records(firm, settings, clock, curriculum, edited):
    both = servers_at(settings, clock, curriculum, edited)
    record_id = new_id()
    assert both.as_delivered(record_id=record_id).status_code == 303
    assert both.as_delivered(record_id=record_id).status_code == 303
    assert len(both.approvals()) == 9
    both.stop()


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ({"change": ""}, "Choose how far the change goes."),
        ({"change": "huge"}, "Not a valid choice"),
        ({"author": ""}, "Say who wrote it."),
        ({"author_name": "  "}, "Say who wrote it."),
        ({"author": "me"}, "You wrote this text. Another safety officer has to approve it."),
        ({"author_name": " pia  INVENTED"}, "You wrote this text."),
        ({"author_name": "PIA"}, "You wrote this text."),
        ({"reason": " "}, "Write the reason."),
        (
            {"occurred_on": "2026-03-01"},
            "Revision 1 is in force from 2 Mar 2026.",
        ),
        ({"occurred_on": "2027-03-04"}, "Choose a day within a year from now."),
        ({"password": "wrong-one"}, "That is not your password."),
        ({"sha256": "0" * 64}, "The files on this server are not those you were shown."),
        ({"sha256": "x"}, "This form is broken. Load the page again."),
    ],
)
def test_every_refusal_has_its_sentence(running, firm, more, sentence):
    if more.get("author") == "me":
        more = {"author": firm.people["pia"]}
    answer = running.approve(**more)
    assert answer.status_code == 422
    assert sentence in said(answer)
    assert len(running.approvals()) == 9
    assert MARK not in running.page("ben", f"/learn/{MODULE}")


def test_two_texts_under_one_number_are_refused(running, firm, settings, clock, edited, tmp_path):
    running.approve()
    module = edited.module(MODULE)
    files = {**module.files, "modules/pump-purge/figures/x.svg": b"<svg/>"}
    other = module.model_copy(update={"files": files, "content_hash": "a" * 64})
    again = edited.model_copy(update={"modules": {**edited.modules, MODULE: other}})
    third = servers_at(settings, clock, again, again)
    page = third.page("pia", f"/texts/{MODULE}")
    assert "to 3 or more" in page
    assert 'name="password"' not in page
    answer = third.approve(sha256="a" * 64)
    assert "Revision 2 is not above revision 2, which is already recorded." in said(answer)
    third.stop()


def test_the_same_text_is_not_approved_again(running, edited):
    running.approve()
    answer = running.approve(sha256=edited.module(MODULE).content_hash)
    assert answer.status_code == 422
    assert "This text is approved already." in said(answer)


def test_another_policy_needs_another_version(running, settings, clock, edited):
    files = {"qualifications.yaml": edited.policy_files["qualifications.yaml"] + b"# more\n"}
    again = edited.model_copy(update={"policy_files": files, "policy_hash": "b" * 64})
    third = servers_at(settings, clock, again, again)
    assert "has to give it a new one" in third.page("pia", "/texts/policy")
    answer = third.approve(text="policy", sha256="b" * 64)
    assert "A policy called 2026-2 is approved already." in said(answer)
    third.stop()


def test_a_grant_leads_to_the_policy_it_was_decided_by(running, firm):
    firm.ready()
    record = firm.decide("grant").location
    policy = next(e for e in running.approvals() if e.module == "policy")
    assert f"/text/{policy.sha256}" in running.page("olga", record)
    page = running.page("ben", f"/text/{policy.sha256}")
    assert "practicals_required" in page


def test_an_unknown_text_is_not_found(running):
    olga = running.client("olga")
    for url in ("/texts/no-such", f"/text/{'0' * 64}", f"/texts/{MODULE}/compare?old=x&new=y"):
        assert olga.get(url).status_code == 404
