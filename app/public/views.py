"""The pages anyone may open without signing in."""

from flask import current_app, render_template

from app.public.pages import source_groups
from app.web.audience import ANYBODY_SIGNED_IN, audience_blueprint

public = audience_blueprint("public", __name__, role=ANYBODY_SIGNED_IN)


@public.get("/sources")
def sources() -> str:
    """Show where every figure and rule comes from, and how sure we are of it."""
    curriculum = current_app.extensions["lowport_curriculum"]
    return render_template("public/sources.html", groups=source_groups(curriculum.sources))
