"""A trainer starts a supervised repair; what a signature would be refused for is said at once."""

from datetime import date

from app.database import db
from tests.trainer.conftest import text


def observations(yard) -> int:
    from sqlalchemy import func, select

    from app.workbook.tables import observation

    with yard.app.app_context(), db.engine.connect() as connection:
        return connection.scalar(select(func.count()).select_from(observation))


def test_a_trainer_cannot_watch_themselves(yard):
    answer = yard.start(yard.new_job(), person="ana.trainer")
    assert answer.status_code == 422
    assert 'id="person-error-1"' in answer.get_data(as_text=True)
    assert "You cannot sign off yourself." in text(answer)
    assert observations(yard) == 0


def test_a_trainer_not_authorised_for_it_is_told_beside_the_qualification(yard):
    answer = yard.start(yard.new_job(), qualification="preparation-hand")
    assert answer.status_code == 422
    assert 'id="qualification-error-1"' in answer.get_data(as_text=True)
    assert "not authorised for preparation hand on 2 Mar 2026" in text(answer)
    assert observations(yard) == 0


def test_a_trainer_authorised_for_nothing_is_told_before_anything_is_chosen(yard, cast):
    job = yard.new_job()
    yard.client = cast.sign_in("tom.trainer")
    page = yard.page(f"/jobs/{job}/repairs/new")
    assert "You are not authorised to sign for any qualification today." in page
    assert "Pump operator (you may not sign today)" in page


def test_the_day_of_the_work_decides_not_today(yard):
    yard.authorise("ana.trainer", "preparation-hand", on=date(2026, 3, 2))
    job = yard.new_job()
    early = yard.start(job, qualification="preparation-hand", occurred_on="2026-03-01")
    assert early.status_code == 422
    assert "not authorised for preparation hand on 1 Mar 2026" in text(early)
    assert yard.start(job, qualification="preparation-hand").status_code == 303


def test_a_day_in_the_future_is_refused_beside_the_day(yard):
    answer = yard.start(yard.new_job(), occurred_on="2026-03-03")
    assert answer.status_code == 422
    assert 'id="occurred_on-error-1"' in answer.get_data(as_text=True)
    assert "3 Mar 2026 is in the future." in text(answer)


def test_a_day_that_is_none_is_kept_beside_the_field(yard):
    answer = yard.start(yard.new_job(), occurred_on="2026-02-30")
    assert answer.status_code == 422
    assert "Choose a day, or type it like 2026-03-02." in text(answer)
    assert 'value="2026-02-30"' in answer.get_data(as_text=True)


def test_nobody_chosen_or_nobody_known_is_refused(yard):
    job = yard.new_job()
    for person in ("", "no-such-person"):
        answer = yard.start(job, **{"person": "pat.worker"} | {"qualification": ""})
        assert answer.status_code == 422
        answer = yard.post(
            f"/jobs/{job}/repairs/new",
            person=person,
            qualification="pump-operator",
            occurred_on="2026-03-02",
        )
        assert answer.status_code == 422
        assert 'id="person-error-1"' in answer.get_data(as_text=True)
    assert observations(yard) == 0


def test_sent_twice_it_is_one_repair(yard):
    job = yard.new_job()
    assert yard.start(job).location == yard.start(job).location
    assert observations(yard) == 1


def test_the_overview_shows_each_checklist_and_the_job(yard):
    repair = yard.started()
    page = text(yard.client.get(f"/repairs/{repair}"))
    assert "Watching Pat.Worker Invented" in page
    assert "Mill Pond pump house (invented): North wall" in page
    assert "0 of 9 noted" in page
