"""Whether a request was made by a page of this site, for the endpoints that carry no form token.

Browsers say where a request comes from in Sec-Fetch-Site, which no page can set; older ones send
an Origin with every POST. Source: Fetch Metadata Request Headers (W3C), Fetch §3.2 (WHATWG).
"""

from urllib.parse import urlsplit

from flask import Request


def is_from_own_page(request: Request) -> bool:
    """Say whether the request comes from our own page; one that says nothing does not."""
    site = request.headers.get("Sec-Fetch-Site")
    if site is not None:
        return site == "same-origin"
    origin = urlsplit(request.headers.get("Origin", ""))
    return origin.scheme in ("http", "https") and origin.netloc == request.host
