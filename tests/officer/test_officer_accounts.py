"""People and roles: added, renamed, let in and out; never without a last safety officer."""

import pytest

from app.accounts.people import person_by_id
from app.database import reading
from app.ids import new_id


def said(answer) -> str:
    return answer.get_data(as_text=True)


def person(firm, name: str):
    with firm.app.app_context(), reading() as connection:
        return person_by_id(connection, firm.people[name])


def change(firm, client, name: str, what: str, **values):
    data = {f"{what}-{field}": value for field, value in values.items()}
    return client.post(f"/people/{firm.people[name]}/account/{what}", data=data)


def new(**more) -> dict:
    return {
        "person_id": new_id(),
        "printed_name": "Zoe Invented",
        "sign_in_name": "zoe",
        "password": "crack-from-floor",
        "roles": ["worker"],
        **more,
    }


def test_the_list_names_everybody_with_their_roles(firm, olga):
    page = said(olga.get("/people"))
    assert "5 people" in page
    for name in ("Olga", "Pia", "Tomas", "Uma", "Ben"):
        assert f"{name} Invented" in page
    found = said(olga.get("/people?name=toma"))
    assert "Tomas Invented" in found
    assert "Uma Invented" not in found
    assert "Nobody has that in their name." in said(olga.get("/people?name=qqq"))


def test_a_new_person_can_sign_in(firm, olga):
    answer = olga.post("/people/new", data=new())
    assert answer.status_code == 303
    assert "Zoe Invented can sign in now." in said(olga.get(answer.location))
    signed = firm.app.test_client().post(
        "/sign-in", data={"sign_in_name": "zoe", "password": "crack-from-floor"}
    )
    assert signed.status_code == 302


def test_a_person_sent_twice_is_added_once(firm, olga):
    data = new()
    first, second = olga.post("/people/new", data=data), olga.post("/people/new", data=data)
    assert second.location == first.location
    assert "Already added." in said(olga.get(second.location))
    assert "6 people" in said(olga.get("/people"))


@pytest.mark.parametrize(
    ("more", "sentence", "field"),
    [
        ({"sign_in_name": "ben"}, "Somebody already signs in as ben.", "sign_in_name"),
        ({"sign_in_name": "Z Ö"}, "A sign-in name has 3 to 60 letters", "sign_in_name"),
        ({"sign_in_name": ""}, "A sign-in name has 3 to 60 letters", "sign_in_name"),
        ({"printed_name": " "}, "Write the name as it should be printed", "printed_name"),
        ({"password": "short"}, "Use at least 8 characters", "password"),
        ({"password": "password123"}, "one of the first anybody would try", "password"),
        ({"password": "my-zoe-pass"}, "must not contain the sign-in name", "password"),
        ({"roles": []}, "Choose at least one role", "roles"),
    ],
)
def test_what_is_wrong_about_a_new_person_stands_beside_its_field(
    firm, olga, more, sentence, field
):
    answer = olga.post("/people/new", data=new(**more))
    page = said(answer)
    assert answer.status_code == 422
    assert sentence in page
    assert f'id="{field}-error-1"' in page
    if "printed_name" not in more:
        assert "Zoe Invented" in page
    assert "5 people" in said(olga.get("/people"))


def test_a_role_nobody_knows_is_refused(firm, olga):
    answer = olga.post("/people/new", data=new(roles=["wizard"]))
    assert answer.status_code == 422


def test_a_name_is_corrected(firm, olga):
    assert change(firm, olga, "ben", "name", printed_name="Benjamin Invented").status_code == 303
    assert person(firm, "ben").name == "Benjamin Invented"
    answer = change(firm, olga, "ben", "name", printed_name="B")
    assert answer.status_code == 422
    assert "Write the name as it should be printed" in said(answer)


def test_roles_open_and_close_pages(firm, olga):
    change(firm, olga, "ben", "roles", roles=["worker", "trainer"])
    assert person(firm, "ben").roles == {"worker", "trainer"}
    answer = change(firm, olga, "ben", "roles", roles=[])
    assert answer.status_code == 422
    assert "Choose at least one role" in said(answer)


def test_the_last_safety_officer_cannot_be_lost(firm, olga):
    assert change(firm, olga, "pia", "roles", roles=["worker"]).status_code == 303
    for what, values in (("roles", {"roles": ["worker"]}), ("active", {})):
        answer = change(firm, olga, "olga", what, **values)
        assert answer.status_code == 422
        assert "This is the only active safety officer." in said(answer)
    assert "safety-officer" in person(firm, "olga").roles
    assert person(firm, "olga").is_active


def test_who_leaves_is_signed_out_at_once_and_stays_out(firm, olga):
    ben = firm.sign_in("ben")
    assert ben.get("/learn").status_code == 200
    assert change(firm, olga, "ben", "active").status_code == 303
    assert ben.get("/learn").status_code == 302
    data = {"sign_in_name": "ben", "password": "wet-phone-in-basement"}
    assert firm.app.test_client().post("/sign-in", data=data).status_code == 422
    change(firm, olga, "ben", "active", is_active="y")
    assert ben.get("/learn").status_code == 302  # the old session does not come back
    assert firm.sign_in("ben").get("/learn").status_code == 200


def test_a_new_password_takes_the_officers_own_and_ends_all_sessions(firm, olga):
    ben = firm.sign_in("ben")
    values = {"new_password": "seal-the-back-face", "own_password": "not-mine"}
    answer = change(firm, olga, "ben", "password", **values)
    assert answer.status_code == 422
    assert 'id="password-own_password-error-1"' in said(answer)
    values = {"new_password": "short", "own_password": "wet-phone-in-basement"}
    answer = change(firm, olga, "ben", "password", **values)
    assert 'id="password-new_password-error-1"' in said(answer)
    assert ben.get("/learn").status_code == 200
    values["new_password"] = "seal-the-back-face"
    assert change(firm, olga, "ben", "password", **values).status_code == 303
    assert ben.get("/learn").status_code == 302
    data = {"sign_in_name": "ben", "password": "seal-the-back-face"}
    assert firm.app.test_client().post("/sign-in", data=data).status_code == 302


def test_a_lost_phone_is_signed_out(firm, olga):
    phone, tablet = firm.sign_in("ben"), firm.sign_in("ben")
    assert change(firm, olga, "ben", "sessions").status_code == 422
    assert change(firm, olga, "ben", "sessions", is_sure="y").status_code == 303
    for client in (phone, tablet):
        assert client.get("/learn").status_code == 302
    assert firm.sign_in("ben").get("/learn").status_code == 200


def test_the_account_page_shows_the_account_as_it_is(firm, olga):
    page = said(olga.get(f"/people/{firm.people['tomas']}/account"))
    assert 'value="Tomas Invented"' in page
    assert page.count("checked") == 2  # the role of a trainer, and that he may sign in
