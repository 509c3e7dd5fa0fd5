"""The pages anyone may open without signing in."""

from flask import render_template

from app.public.pages import source_groups
from app.web.audience import ANYBODY_SIGNED_IN, audience_blueprint
from app.web.texts import served_curriculum

public = audience_blueprint("public", __name__, role=ANYBODY_SIGNED_IN)


@public.get("/sources")
def sources() -> str:
    """Show where every figure and rule comes from, and how sure we are of it."""
    return render_template("public/sources.html", groups=source_groups(served_curriculum().sources))
