"""The headers of every answer."""

from flask import Response, current_app, request

from app.web.audience import FILE_ENDPOINTS

CONTENT_SECURITY_POLICY = (
    "default-src 'self'; script-src 'self'; style-src 'self'; object-src 'none'; base-uri 'none'; "
    "frame-ancestors 'none'; form-action 'self'; worker-src 'self'; img-src 'self' blob: data:"
)
# Scripts and sheets are never opened as a page, and with nosniff nothing else can be made of them;
# on a phone's first visit these headers would weigh more than many of the scripts.
NEVER_A_PAGE = frozenset({"web.script", "web.stylesheet"})


def set_headers(response: Response) -> Response:
    """Close what a page never needs; keep pages about people out of shared caches."""
    response.headers["X-Content-Type-Options"] = "nosniff"
    if request.endpoint not in NEVER_A_PAGE:
        response.headers["Content-Security-Policy"] = CONTENT_SECURITY_POLICY
        response.headers["Referrer-Policy"] = "same-origin"
        response.headers["Cross-Origin-Opener-Policy"] = "same-origin"
        response.headers["Permissions-Policy"] = "geolocation=(), microphone=(), camera=(self)"
    if request.endpoint in FILE_ENDPOINTS:
        response.headers.add("Vary", "Accept-Encoding")
    else:
        response.headers.setdefault("Cache-Control", "private, no-cache")
        response.headers.add("Vary", "Cookie, Accept-Encoding")
    if current_app.extensions["lowport_settings"].is_https:
        response.headers["Strict-Transport-Security"] = "max-age=31536000"
    return response
