"""What a phone needs to work without signal: the service worker, its list, and what is kept."""

from flask import Blueprint, Response, g, jsonify, render_template, url_for
from flask_babel import force_locale
from flask_babel import gettext as _

from app.accounts.people import LANGUAGES
from app.web.kept_pages import Group, Shelf, digest_of, groups_of
from app.web.offline_assets import assets, assets_for, service_worker

phone = Blueprint("phone", __name__)


@phone.get("/sw.js")
def worker() -> Response:
    """Serve the service worker; browsers ask for it again with every visit."""
    answer = Response(service_worker(), mimetype="text/javascript")
    answer.headers["Cache-Control"] = "no-cache"
    return answer


@phone.get("/offline")
def offline() -> str:
    """The page shown where nothing is kept: the same for everybody, in both languages."""
    g.person = None
    sections = [_no_signal(language) for language in LANGUAGES]
    return render_template("offline.html", sections=sections, is_for_everybody=True)


def _no_signal(language: str) -> dict[str, str]:
    with force_locale(language):
        return {
            "language": language,
            "title": _("No signal"),
            "text": _(
                "This page is not on this phone. If you were sending something, it was not sent: "
                "go back, it is still there. Send it when you have signal."
            ),
            "link": _("What is on this phone"),
        }


@phone.get("/on-this-phone")
def kept() -> str:
    """Show what is kept; the phone itself looks whether each page is really there."""
    return render_template("on-this-phone.html", groups=groups_of(g.person))


@phone.get("/on-this-phone/list")
def list_of_pages() -> Response:
    """Tell the phone what to keep."""
    groups = groups_of(g.person)
    told = [
        {"id": one.id, "kind": one.kind, "title": one.title, "urls": one.urls} for one in groups
    ]
    files = (*assets(), *assets_for(g.person.roles))
    return jsonify(digest=digest_of(groups), groups=told, assets=files)


def _own_groups(_connection: object, _person: object) -> list[Group]:
    urls = (url_for("outbox.waiting"), url_for("phone.kept"))
    return [Group("phone", "", urls, "", "page")]


SHELF = Shelf("", frozenset({"outbox.waiting", "phone.kept"}), _own_groups)
