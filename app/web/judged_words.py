"""How a step of a supervised repair went, and the trainer's judgement, in words of the page."""

from flask_babel import gettext as _


def outcomes() -> dict[str, str]:
    """Return the words for how a step went."""
    return {
        "done": _("Done"),
        "done-when-prompted": _("Done when prompted"),
        "not-done": _("Not done"),
        "not-seen": _("Not seen"),
        "does-not-apply": _("Does not apply"),
    }


def judgements() -> dict[str, str]:
    """Return the words for the overall judgement, lowest first."""
    return {
        "trainer-did-it": _("The trainer had to do it"),
        "needs-guiding": _("Needs guiding, step by step"),
        "needs-reminding": _("Needs reminding now and then"),
        "works-safely-alone": _("Works safely alone"),
        "could-show-others": _("Could show others"),
    }
