"""The trainer's blueprint with every view on it: each registers itself as it is imported."""

from app.trainer.blueprint import trainer
from app.trainer.card import views as _card  # noqa: F401
from app.trainer.jobs import choice_views as _choice  # noqa: F401
from app.trainer.jobs import crew_views as _crew  # noqa: F401
from app.trainer.jobs import views as _jobs  # noqa: F401
from app.trainer.repairs import log_views as _log  # noqa: F401
from app.trainer.repairs import views as _repairs  # noqa: F401
from app.trainer.repairs import watching_views as _watching  # noqa: F401
from app.trainer.resins import views as _resins  # noqa: F401
from app.trainer.signing import record_views as _record  # noqa: F401
from app.trainer.signing import use_views as _use  # noqa: F401
from app.trainer.signing import views as _signing  # noqa: F401
from app.trainer.wall import device_views as _device  # noqa: F401
from app.trainer.wall import views as _wall  # noqa: F401

__all__ = ["trainer"]
