"""The same record sent twice: what may differ between the two sendings. PURE."""

from dataclasses import replace
from datetime import datetime

from app.records.events import Event, Practical


def without_arrival(event: Event) -> Event:
    """The event with its times of arrival set to a fixed value, for comparing two sendings.

    A form sent twice arrives, and is signed, at two instants, maybe on a page in another language
    by then, and is still one record.
    Example: ``without_arrival(first) == without_arrival(again)``.
    """
    fixed = datetime.min.replace(tzinfo=event.recorded_at.tzinfo)
    if event.signature is not None:
        event = replace(event, signature=replace(event.signature, signed_at=fixed, language=""))
    if isinstance(event, Practical) and event.observation is not None:
        signature = replace(event.observation.signature, signed_at=fixed, language="")
        return replace(
            event, recorded_at=fixed, observation=replace(event.observation, signature=signature)
        )
    return replace(event, recorded_at=fixed)
