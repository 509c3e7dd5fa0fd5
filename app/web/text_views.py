"""The text as it was: any approved revision, found by its hash, for anybody signed in."""

from collections.abc import Mapping
from dataclasses import dataclass

from flask import Blueprint, abort, render_template
from flask_babel import format_date
from flask_babel import gettext as _

from app.accounts.people import names
from app.curriculum.bundles import POLICY
from app.curriculum.loading.content import ContentErrors
from app.curriculum.model import Module, Source, Step
from app.database import reading
from app.records.events import ContentRevised
from app.records.ledger.door import history_of
from app.records.standing.settling import settle
from app.records.texts.kept import TextLost, kept_files
from app.web.telling import tell
from app.web.texts import text_shelf
from app.web.who import choice, signed_in

text_pages = Blueprint("texts", __name__)


@dataclass(frozen=True, slots=True)
class ShownText:
    """A text ready to print.

    module: None for the policy, or where this program can't read the old form; then files (path,
    words) are shown instead. has_questions: with the questions and their keys.
    """

    name: str
    module: Module | None
    files: tuple[tuple[str, str], ...]
    has_questions: bool

    def sources(self, step: Step) -> list[tuple[str, Source]]:
        """The sources of a step's facts, as they stood."""
        assert self.module is not None
        return [(name, self.module.sources[name]) for name in step.source_ids()]


def shown_text(
    name: str, files: Mapping[str, bytes], module: Module | None, *, has_questions: bool
) -> ShownText:
    """A text ready to print; the questions' file is shown only where their keys may be."""
    plain = tuple(
        (path, data.decode(errors="replace"))
        for path, data in sorted(files.items())
        if module is None and (has_questions or not path.endswith("questions.yaml"))
    )
    return ShownText(name, module, plain, has_questions)


@text_pages.get("/text/<sha256>")
def as_it_was(sha256: str) -> str:
    """Show an approved text as it was. Keys of questions are for the safety officer alone."""
    with reading() as connection:
        events = history_of(connection)
        approvals = [e for e in events if isinstance(e, ContentRevised) and e.sha256 == sha256]
        if not approvals:
            abort(404)
        name = approvals[0].module
        voided = settle(events).voided
        known = names(connection)
        lost, files, module = "", {}, None
        try:
            files = kept_files(connection, sha256)
            if name != POLICY:
                module = text_shelf().module(connection, name, sha256)
        except TextLost as refusal:
            lost = tell(refusal)
        except ContentErrors:
            pass  # an old form: the files are shown instead
    is_officer = signed_in().has_role("safety-officer")
    return render_template(
        "text-as-it-was.html",
        shown=shown_text(name, files, module, has_questions=is_officer),
        title=text_title(name, module),
        approvals=[(event, event.id in voided) for event in approvals],
        names=known,
        show_day=lambda on: format_date(on, "d MMM y"),
        sha256=sha256,
        lost=lost,
    )


def text_title(name: str, module: Module | None) -> str:
    """What a text is called on pages."""
    if name == POLICY:
        return _("Qualification policy")
    return module.lesson(choice("language")).title if module else name.replace("-", " ")
