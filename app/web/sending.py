"""How an answer travels: compressed, and only when it has changed since the browser last had it."""

import gzip
from functools import lru_cache

from flask import Response, request

SMALLEST = 500  # bytes; below, compressing costs more than it saves
_TEXT = ("text/", "application/json", "application/problem+json", "application/manifest+json")
_PICTURE = "image/svg+xml"


def answer_changed_only(response: Response) -> Response:
    """Give a page its digest as ETag, and answer 304 where the browser has that one already.

    Source: RFC 9110 sections 8.8.3 (ETag) and 15.4.5 (304).
    """
    is_page = request.method == "GET" and response.status_code == 200 and not response.is_streamed
    if not is_page or response.headers.get("Cache-Control") == "no-store":
        return response
    response.add_etag(weak=True)
    if request.if_none_match:
        response.make_conditional(request)
        response.headers.pop("Date", None)  # the server sets it; two of them can't be read
    return response


def compress(response: Response) -> Response:
    """Compress text for browsers that take gzip.

    Pages carry a form token, and compressing secrets beside chosen text can leak them (BREACH,
    2013); that takes many requests with the person's cookie from another site, which SameSite=Lax
    keeps away from everything but a visible visit.
    """
    if not (response.mimetype.startswith(_TEXT) or response.mimetype == _PICTURE):
        return response
    if not _may_compress(response):
        return response
    response.direct_passthrough = False
    data = response.get_data()
    if len(data) < SMALLEST:
        return response
    is_file = "immutable" in response.headers.get("Cache-Control", "")
    response.set_data(_packed_file(data) if is_file else gzip.compress(data, 1, mtime=0))
    response.headers["Content-Encoding"] = "gzip"
    _weaken(response)
    return response


def _may_compress(response: Response) -> bool:
    return (
        request.accept_encodings["gzip"] > 0
        and response.status_code not in (204, 206, 304)
        and "Content-Encoding" not in response.headers
        and request.method != "HEAD"
    )


@lru_cache(maxsize=200)
def _packed_file(data: bytes) -> bytes:
    return gzip.compress(data, 9, mtime=0)


def _weaken(response: Response) -> None:
    """The compressed bytes are other bytes: an ETag over the plain ones is a weak one now."""
    tag, is_weak = response.get_etag()
    if tag and not is_weak:
        response.set_etag(tag, weak=True)
