"""Who may sign as a trainer, for what, from which day; and two entries that are one person."""

from app.ids import new_id

PASSWORD = "wet-phone-in-basement"


def said(answer) -> str:
    return answer.get_data(as_text=True)


def signed(**more: str) -> dict[str, str]:
    common = {"record_id": new_id(), "occurred_on": "2026-03-02", "password": PASSWORD}
    return {**common, "reason": "", **more}


def authorise(firm, client, name: str, **more: str):
    return client.post(f"/people/{firm.people[name]}/authorise", data=signed(**more))


def test_the_page_says_what_a_trainer_may_sign_for(firm, olga):
    page = said(olga.get(f"/people/{firm.people['tomas']}/authorise"))
    assert "No longer: Pump operator" in page
    assert "May sign: Lead injector" in page
    page = said(olga.get(f"/people/{firm.people['ben']}/authorise"))
    assert "does not have the role of a trainer" in page


def test_authorising_and_withdrawing_are_records(firm, olga):
    answer = authorise(firm, olga, "tomas", change="authorise:lead-injector")
    assert answer.status_code == 303
    assert "I authorise this trainer to sign for the qualification." in said(
        olga.get(answer.location)
    )
    answer = authorise(
        firm, olga, "tomas", change="withdraw:lead-injector", reason="Retired (invented)."
    )
    assert answer.status_code == 303
    (withdrawn,) = firm.of_kind("trainer-withdrawn")
    assert withdrawn.reason == "Retired (invented)."
    assert "Retired (invented)." in said(olga.get(answer.location))


def test_sent_twice_it_is_one_record(firm, olga):
    data = signed(change="authorise:lead-injector")
    path = f"/people/{firm.people['tomas']}/authorise"
    first, second = olga.post(path, data=data), olga.post(path, data=data)
    assert first.location == second.location
    assert "Already recorded." in said(olga.get(second.location))
    assert len([e for e in firm.events() if e.qualification == "lead-injector"]) == 1


def test_every_refusal_has_its_sentence(firm, cast):
    firm.people["both"] = cast.add("both", "safety-officer", "trainer")
    olga, both = firm.sign_in("olga"), firm.sign_in("both")
    count = len(firm.events())
    for client, name, more, sentence in [
        (olga, "tomas", {"change": "authorise:pump-operator"}, "already authorised for Pump"),
        (
            olga,
            "tomas",
            {"change": "withdraw:lead-injector", "reason": "x"},
            "is not authorised for Lead injector",
        ),
        (olga, "tomas", {"change": "withdraw:pump-operator"}, "Write the reason."),
        (olga, "tomas", {"change": ""}, "Choose what changes."),
        (olga, "tomas", {"change": "authorise:astronaut"}, "Choose what changes."),
        (olga, "tomas", {"change": "crown:pump-operator"}, "Choose what changes."),
        (
            olga,
            "tomas",
            {"change": "authorise:lead-injector", "occurred_on": "2026-03-09"},
            "9 Mar 2026 is in the future.",
        ),
        (
            olga,
            "tomas",
            {"change": "authorise:lead-injector", "password": "wrong-one"},
            "That is not your password.",
        ),
        (both, "both", {"change": "authorise:pump-operator"}, "You cannot decide about yourself."),
    ]:
        answer = authorise(firm, client, name, **more)
        assert answer.status_code == 422, more
        assert sentence in said(answer), more
    assert len(firm.events()) == count


def test_what_was_signed_before_a_withdrawal_still_counts(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    authorise(firm, olga, "tomas", change="withdraw:pump-operator", reason="Left (invented).")
    page = said(olga.get("/board?qualification=pump-operator&standing=current"))
    assert "Ben Invented" in page


def test_two_entries_become_one_person(firm, olga, cast):
    twin = cast.add("benny", "worker", printed_name="Benny Invented")
    firm.people["benny"] = twin
    firm.teach("benny", "2026-02-02")
    firm.watch("benny", "tomas", "2026-02-10")
    firm.watch("ben", "uma", "2026-02-20")
    assert firm.decide("grant", olga).status_code == 422
    answer = olga.post(
        "/merge",
        data=signed(kept=firm.people["ben"], merged=twin, reason="Same face (invented)."),
    )
    assert answer.status_code == 303
    assert "I state that these two entries are one person." in said(olga.get(answer.location))
    assert firm.decide("grant", olga).status_code == 303
    page = said(olga.get("/board"))
    assert "Ben Invented</a>" in page
    assert "Benny Invented</a>" not in page
    assert "This person was entered twice." in said(olga.get(f"/people/{twin}"))
    data = {"sign_in_name": "benny", "password": PASSWORD}
    assert firm.app.test_client().post("/sign-in", data=data).status_code == 422


def test_a_merge_is_refused_with_its_sentence(firm, olga, cast):
    twin = cast.add("benny", "worker", printed_name="Benny Invented")
    ben, me = firm.people["ben"], firm.people["olga"]
    for kept, merged, more, sentence in [
        (ben, ben, {}, "Choose two different people."),
        (ben, "", {}, "Choose an entry."),
        (ben, new_id(), {}, "Not a valid choice"),
        (ben, me, {}, "You cannot decide about yourself."),
        (ben, twin, {"reason": " "}, "Write the reason."),
        (ben, twin, {"password": "wrong-one"}, "That is not your password."),
    ]:
        answer = olga.post(
            "/merge", data=signed(**{"kept": kept, "merged": merged, "reason": "x", **more})
        )
        assert answer.status_code == 422, sentence
        assert sentence in said(answer)
    data = signed(kept=ben, merged=twin, reason="Same face (invented).")
    first, second = olga.post("/merge", data=data), olga.post("/merge", data=data)
    assert first.location == second.location
    again = olga.post("/merge", data=signed(kept=twin, merged=ben, reason="x"))
    assert "These two are already one person." in said(again)
    assert len(firm.of_kind("identity-merged")) == 1
