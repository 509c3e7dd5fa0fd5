"""The one place where everything is wired."""

from collections.abc import Callable
from datetime import datetime

from flask import Flask
from flask_babel import Babel
from flask_wtf import CSRFProtect
from werkzeug.middleware.proxy_fix import ProxyFix

from app.curriculum.loading.content import load_curriculum
from app.curriculum.loading.crew import load_crew
from app.curriculum.model import Curriculum
from app.database import db, prepare_engine
from app.settings import ROOT, Settings, settings_from
from app.web.audience import ask_to_sign_in
from app.web.errors import register_errors
from app.web.form_token import keep_form_token, reuse_form_token
from app.web.headers import set_headers
from app.web.now import system_clock
from app.web.pages import register_pages
from app.web.sending import answer_changed_only, compress
from app.web.texts import TextShelf
from app.web.unkeepable import refuse_unkeepable
from app.web.who import choice, load_person


def create_app(
    settings: Settings | None = None,
    clock: Callable[[], datetime] = system_clock,
    curriculum: Curriculum | None = None,
    must_be_approved: bool | None = None,
) -> Flask:
    """Build the app; a wrong setting or wrong content stops it here, with its place named.

    Tests hand in a clock of their own, and the curriculum once loaded. What is read from the files
    is served only once it is approved; a curriculum handed in is served as it is, unless told.
    """
    settings = settings or settings_from()
    app = Flask("app", static_folder=None)
    # No view or hook is a coroutine; Flask looks at each of them in every request otherwise.
    app.ensure_sync = lambda function: function  # type: ignore[method-assign]
    _configure(app, settings)
    app.extensions["lowport_settings"] = settings
    app.extensions["lowport_clock"] = clock
    content = curriculum or load_curriculum(settings.content)
    load_crew(settings.content, content.qualifications)  # what is wrong in it stops the start
    app.extensions["lowport_curriculum"] = content
    is_open = curriculum is not None if must_be_approved is None else not must_be_approved
    app.extensions["lowport_texts"] = TextShelf(content, is_open)
    _start_database(app)
    csrf = CSRFProtect(app)
    Babel(app, locale_selector=lambda: choice("language"), timezone_selector=lambda: settings.zone)
    app.before_request(load_person)
    app.before_request(refuse_unkeepable)
    app.before_request(ask_to_sign_in)
    app.before_request(reuse_form_token)
    # The last one registered runs first.
    for step in (compress, answer_changed_only, keep_form_token, set_headers):
        app.after_request(step)
    register_errors(app)
    register_pages(app)
    _register_audiences(app)
    _register_outbox(app, csrf)
    _register_phone(app)
    if settings.proxy_hops:
        hops = settings.proxy_hops
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=hops, x_proto=hops, x_host=hops)  # type: ignore[method-assign]
    return app


def _configure(app: Flask, settings: Settings) -> None:
    app.config.update(
        SECRET_KEY=settings.secret_key,
        SQLALCHEMY_DATABASE_URI=settings.database_url,
        SQLALCHEMY_ENGINE_OPTIONS={"pool_pre_ping": True},
        MAX_CONTENT_LENGTH=settings.max_body_bytes,
        SESSION_COOKIE_NAME="__Host-lowport" if settings.is_https else "lowport",
        SESSION_COOKIE_SECURE=settings.is_https,
        SESSION_COOKIE_HTTPONLY=True,
        SESSION_COOKIE_SAMESITE="Lax",
        WTF_CSRF_TIME_LIMIT=settings.session_hours * 3600,
        BABEL_TRANSLATION_DIRECTORIES=str(ROOT / "app" / "translations"),
    )
    app.jinja_env.trim_blocks = True
    app.jinja_env.lstrip_blocks = True


def _start_database(app: Flask) -> None:
    # The tables stand in these modules; importing them puts them into the metadata.
    # (Written with "from": "import app.x" would bind the name app to the package.)
    from app.accounts import tables as _accounts  # noqa: F401
    from app.records.ledger import tables as _records  # noqa: F401
    from app.records.projection.stored import interval_tables as _intervals  # noqa: F401
    from app.records.texts import tables as _texts  # noqa: F401
    from app.workbook import outbox_tables as _outbox  # noqa: F401
    from app.workbook import sign_off_tables as _sign_offs  # noqa: F401
    from app.workbook import tables as _workbook  # noqa: F401

    db.init_app(app)
    with app.app_context():
        prepare_engine(db.engine)


def _register_audiences(app: Flask) -> None:
    from app.officer.all_views import officer
    from app.public.views import public
    from app.trainer.all_views import trainer
    from app.web.text_views import text_pages
    from app.web.views import web
    from app.worker.practice.views import practice
    from app.worker.views import worker

    for blueprint in (web, text_pages, worker, practice, trainer, officer, public):
        app.register_blueprint(blueprint)


def _register_outbox(app: Flask, csrf: CSRFProtect) -> None:
    """What phones may send, from each audience; see app/web/outbox/kinds.py."""
    from app.trainer.outbox_kinds import KINDS as TRAINER_KINDS
    from app.web.outbox import importing as _import  # noqa: F401  (registers itself on the blueprint)
    from app.web.outbox.kinds import OWN_KINDS, register_kinds
    from app.web.outbox.views import outbox, receive
    from app.worker.outbox_kinds import KINDS as WORKER_KINDS

    app.register_blueprint(outbox)
    csrf.exempt(receive)  # it asks where the request comes from instead
    for kinds in (OWN_KINDS, WORKER_KINDS, TRAINER_KINDS):
        register_kinds(app, kinds)


def _register_phone(app: Flask) -> None:
    """What phones keep for days without signal; see app/web/kept_pages.py."""
    from app.public.shelf import SHELF as PUBLIC_SHELF
    from app.trainer.shelf import SHELF as TRAINER_SHELF
    from app.web.kept_pages import register_shelves, tell_whose
    from app.web.phone_views import SHELF as OWN_SHELF
    from app.web.phone_views import phone
    from app.worker.shelf import SHELF as WORKER_SHELF

    app.register_blueprint(phone)
    register_shelves(app, (OWN_SHELF, WORKER_SHELF, TRAINER_SHELF, PUBLIC_SHELF))
    app.after_request(tell_whose)
