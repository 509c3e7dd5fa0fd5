"""The practice crack's blueprint: open to anybody signed in."""

from app.web.audience import ANYBODY_SIGNED_IN, audience_blueprint

practice = audience_blueprint(
    "practice", __name__, role=ANYBODY_SIGNED_IN, prefix="/practice-crack"
)
