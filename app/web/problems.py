"""Errors for scripts: problem details as RFC 9457 has them, with the headers of the error kept."""

from typing import Any

from flask import Response, json, request
from werkzeug.exceptions import HTTPException

PROBLEM = "application/problem+json"


def problem(status: int, code: str, title: str, detail: str = "") -> dict[str, Any]:
    """Return the members of one problem; ``code`` names it for scripts, the rest is for people."""
    found = {"type": "about:blank", "status": status, "code": code, "title": title}
    return {**found, "detail": detail} if detail else found


def problem_answer(members: dict[str, Any]) -> Response:
    """Return a problem as an answer of its own."""
    answer = Response(json.dumps(members), status=members["status"])
    answer.headers["Content-Type"] = PROBLEM
    return answer


def is_asked_by_script() -> bool:
    """Say whether the request wants JSON back: it says so, or it sends JSON itself."""
    if request.is_json:
        return True
    asked = request.accept_mimetypes
    json_wanted = max(asked["application/json"], asked[PROBLEM])
    return bool(json_wanted > asked["text/html"])


def as_problem(error: HTTPException, code: int, title: str, detail: str) -> Response:
    """Return an error as a problem; its own headers (Allow, Retry-After) stay."""
    answer = Response(status=code, headers=list(error.get_response().headers))
    name = (error.name or "error").lower().replace(" ", "-")
    answer.set_data(json.dumps(problem(code, name, title, detail)))
    answer.headers["Content-Type"] = PROBLEM
    return answer
