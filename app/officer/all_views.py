"""The safety officer's blueprint with every view on it: each registers itself as it is imported."""

from app.officer.blueprint import officer
from app.officer.board import crew_views as _crew  # noqa: F401
from app.officer.board import difference_views as _difference  # noqa: F401
from app.officer.board import missing_views as _missing  # noqa: F401
from app.officer.board import views as _board  # noqa: F401
from app.officer.people import account_views as _account  # noqa: F401
from app.officer.people import decision_views as _decision  # noqa: F401
from app.officer.people import erase_views as _erase  # noqa: F401
from app.officer.people import phone_views as _phone  # noqa: F401
from app.officer.people import views as _people  # noqa: F401
from app.officer.records import correction_views as _correction  # noqa: F401
from app.officer.records import views as _records  # noqa: F401
from app.officer.texts import views as _texts  # noqa: F401

__all__ = ["officer"]
