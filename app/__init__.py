"""Lowport: teach, watch, sign off and show who is qualified for surface-port crack injection."""

from typing import Any


def create_app(*args: Any, **kwargs: Any) -> Any:
    """Hand on ``app.factory.create_app`` without importing Flask for those who only want a part."""
    from app.factory import create_app as build

    return build(*args, **kwargs)


__all__ = ["create_app"]
