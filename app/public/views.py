"""The pages for everybody: the sources without signing in, the words of the trade with it."""

from flask import current_app, render_template

from app.public.pages import source_groups
from app.public.words import glossary_in
from app.web.audience import ANYBODY_SIGNED_IN, audience_blueprint
from app.web.texts import served_curriculum

public = audience_blueprint("public", __name__, role=ANYBODY_SIGNED_IN)


@public.get("/sources")
def sources() -> str:
    """Show where every figure and rule comes from, and how sure we are of it."""
    return render_template("public/sources.html", groups=source_groups(served_curriculum().sources))


@public.get("/words")
def words() -> str:
    """Show the words of the trade in both languages, with what they mean."""
    glossary = glossary_in(current_app.extensions["lowport_settings"].content)
    return render_template("public/words.html", groups=glossary.groups)
