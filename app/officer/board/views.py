"""The board and its file. HTTP only: parse, call, answer; the other views are imported here."""

from typing import Any

from flask import make_response, render_template, request, url_for
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.database import reading
from app.officer.blueprint import curriculum, officer, telling
from app.officer.board.csv_file import board_csv
from app.officer.board.pages import (
    MOST_DUE,
    Asked,
    Board,
    BoardRow,
    load_board,
    page_of,
    page_status,
    told_standings,
)
from app.officer.board.turning import page_asked, turn
from app.officer.forms import BoardForm
from app.officer.telling import Telling
from app.officer.words import clock_time, day, status_word
from app.records.boards.board_cells import Cell
from app.records.proof.checkpoint import newest_line
from app.web.forms import choice_list
from app.web.kept_words import address
from app.web.now import now, today, zone
from app.web.two_clocks import Clocks
from app.web.who import choice, signed_in

_STATUSES = ("due-soon", "update-needed", "lapsed", "expired", "suspended", "revoked")


@officer.get("/board")
def board() -> str | tuple[str, int]:
    """Show who is qualified for what on a day, and what runs out next."""
    form, clocks, ask = _asked()
    if form.errors:
        return render_template("officer/board.html", form=form, board=None), 422
    with reading() as connection:
        found = load_board(connection, curriculum(), clocks, ask)
        words = telling(connection)
        checkpoint = newest_line(connection)
    rows, number, pages = page_of(found.rows, page_asked())
    return render_template(
        "officer/board.html",
        form=form,
        board=found,
        clocks=clocks,
        columns=[words.qualification(column) for column in found.columns],
        rows=[_row(row, found, clocks, words) for row in rows],
        due=found.due[:MOST_DUE],
        words=words,
        turn=turn(number, pages),
        csv_url=url_for("officer.board_file", **_query(form, clocks)),
        made_at=now(),
        checkpoint=checkpoint,
    )


@officer.get("/board.csv")
def board_file() -> Response | tuple[str, int]:
    """Send the same part of the board as a file for a spreadsheet."""
    form, clocks, ask = _asked()
    if form.errors:
        return render_template("officer/board.html", form=form, board=None), 422
    with reading() as connection:
        found = load_board(connection, curriculum(), clocks, ask)
        words = telling(connection, lambda on: on.isoformat())
        checkpoint = [_("Checkpoint of the records"), newest_line(connection)]
        heading = [*_heading(found, clocks, ask), checkpoint]
        told = told_standings(connection, curriculum(), clocks, ask, found)
        text = board_csv(told, heading, _columns(), words, status_word)
    # The byte order mark tells a spreadsheet that this is UTF-8.
    answer = make_response(text.encode("utf-8-sig"))
    answer.headers["Content-Type"] = "text/csv; charset=utf-8"
    name = f"board-{clocks.as_of.isoformat()}.csv"
    answer.headers["Content-Disposition"] = f'attachment; filename="{name}"'
    return answer


def _asked() -> tuple[BoardForm, Clocks, Asked]:
    form = BoardForm(request.args)
    language = choice("language")
    titles = [(q.id, q.title.in_language(language)) for q in curriculum().qualifications.values()]
    form.qualification.choices = choice_list([("", _("All")), *titles])
    form.standing.choices = choice_list(
        [
            ("", _("All")),
            ("current", _("Current, due soon included")),
            *((status, status_word(status)) for status in _STATUSES),
            ("not-qualified", status_word("not-qualified")),
        ]
    )
    for field in (form.qualification, form.standing):
        field.data = request.args.get(field.name, "")
    form.validate()
    if not request.args.get("as_of"):
        form.as_of.data = today()
    clocks = Clocks(form.as_of.data or today(), form.known_on.data, zone())
    return form, clocks, Asked(form.qualification.data, form.standing.data)


def _query(form: BoardForm, clocks: Clocks) -> dict[str, str]:
    fields = {"qualification": form.qualification.data, "standing": form.standing.data}
    return {**clocks.query, **{name: value for name, value in fields.items() if value}}


def _row(row: BoardRow, found: Board, clocks: Clocks, words: Telling) -> dict[str, Any]:
    url = address("officer.person", person=row.person.id, **clocks.query)
    return {
        "name": row.person.name,
        "url": url,
        "note": row.person.sign_in_name if row.person.is_active else _("no longer signs in"),
        "cells": [
            {
                "status": page_status(cell),
                "label": status_word(page_status(cell)),
                "url": f"{url}#{cell.qualification}",
                "until": _until(cell, words),
                "also": _("may sign for it")
                if (row.person.id, cell.qualification) in found.signing
                else None,
            }
            for cell in row.cells
        ],
    }


def _until(cell: Cell, words: Telling) -> str | None:
    """The day that matters most about a standing."""
    match cell.status:
        case "current":
            last = cell.runs_out_on
            return _("good through %(day)s", day=day(last)) if last else None
        case "expired":
            return _("last good day %(day)s", day=words.value("on", cell.last_good_day))
        case "lapsed":
            return _("last good day %(day)s", day=words.value("on", cell.continuity_due_on))
        case "suspended" | "revoked":
            return _("from %(day)s", day=words.value("on", cell.decided_on))
        case "update-needed" if cell.update:
            return words.module(cell.update.module)
    return None


def _heading(found: Board, clocks: Clocks, ask: Asked) -> list[list[str]]:
    known = clocks.known_on.isoformat() if clocks.known_on else clock_time(now())
    return [
        [_("Lowport board: who is qualified for what")],
        [_("As of"), clocks.as_of.isoformat()],
        [_("As known on"), known],
        [_("Records read"), str(found.records)],
        [_("Qualification"), ask.qualification or _("all")],
        [_("Standing"), ask.status or _("all")],
        [_("Made by"), signed_in().name, clock_time(now())],
    ]


def _columns() -> list[str]:
    return [
        _("Person"),
        _("Sign-in name"),
        _("Qualification"),
        _("Standing"),
        _("Granted on"),
        _("Last good day"),
        _("Continuity due on"),
        _("Reasons"),
    ]
