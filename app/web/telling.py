"""Refusals in the page's language."""

from flask_babel import gettext

from app.trade.errors import Refusal


def tell(refusal: Refusal) -> str:
    """Return the refusal's sentence in the page's language."""
    places = dict(refusal.places)
    if isinstance(places.get("reason"), str):
        places["reason"] = gettext(str(places["reason"]))
    return gettext(refusal.template).format(**places)
