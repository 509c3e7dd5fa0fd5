"""A worker of the cast whose phone has things to send."""

import pytest
from flask.testing import FlaskClient

from app.curriculum.model import Curriculum
from app.ids import PersonId
from tests.web.phone import Phone


@pytest.fixture
def ola_id(cast) -> PersonId:
    return cast.add("ola.worker", "worker")


@pytest.fixture
def ola(cast, ola_id: PersonId) -> FlaskClient:
    """Ola's browser, signed in."""
    return cast.sign_in("ola.worker")


@pytest.fixture
def phone(ola_id: PersonId) -> Phone:
    return Phone(ola_id)


@pytest.fixture
def steps(curriculum: Curriculum) -> list[str]:
    """The ids of the steps of safety gear, in order."""
    return [step.id for step in curriculum.module("safety-gear").lesson("en").steps]
