"""The policies by which people were judged between two moments, each with the record behind it."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime, time
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from app.curriculum.bundles import POLICY
from app.records.boards.differences import Switch
from app.records.events import ContentRevised, CounterEntry, Event
from app.records.ledger.door import history_of
from app.records.policy import Policy, policy_from
from app.records.standing.settling import settle
from app.records.texts.in_force import in_force
from app.web.texts import TextShelf


def policies_between(
    connection: Connection, shelf: TextShelf, zone: ZoneInfo, then: datetime, now: datetime
) -> tuple[Policy, list[Switch]]:
    """The policy used at the one moment, and every other that came into use up to the other.

    A time before the first approval counts as the first policy's: there was none to differ from.
    """
    events = history_of(connection)
    policy, used, switches = Policy({}), "", []
    for moment in (then, *_moments(events, zone, then, now)):
        settled = settle(events, moment)
        day = moment.astimezone(zone).date()
        served = shelf.served_as_known(connection, settled, day)
        approval = in_force(settled, POLICY, day)
        if not served.qualifications or (used and served.policy_hash == used):
            continue
        policy_now = policy_from(served)
        if not used:
            policy = policy_now
        elif approval is not None:
            switches.append(Switch(moment, approval, policy_now))
        used = served.policy_hash
    return policy, switches


def _moments(
    events: Sequence[Event], zone: ZoneInfo, then: datetime, now: datetime
) -> Iterable[datetime]:
    """When another text may have come into use: a record of it arrived, or its day began."""
    found = {moment for event in events for moment in _moments_of(event, zone)}
    return sorted(moment for moment in found if then < moment <= now)


def _moments_of(event: Event, zone: ZoneInfo) -> Iterator[datetime]:
    if isinstance(event, ContentRevised | CounterEntry):
        yield event.recorded_at
    if isinstance(event, ContentRevised):
        yield datetime.combine(event.occurred_on, time.min, zone)
