"""The name behind the seal of a proven record, for whoever the proof is given to."""

from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from sqlalchemy import Connection


def name_behind(connection: "Connection", event: Any) -> str:
    """A sentence with the name a record was signed with and the key that shows it; or "".

    Told beside the proof and not in it, so that a proof holds no name.
    """
    from app.accounts.printed_names import opened_seal

    seal = seal_in(event)
    opened = opened_seal(connection, seal) if seal else None
    if opened is None:
        return ""
    name, key = opened
    return f"Signed by {name}. To show that, give this along: --signed-by '{name}' {key.hex()}"


def seal_in(event: Any) -> str:
    """The seal under a record's signature; "" where there is none."""
    from app.accounts.printed_names import is_seal

    seen = getattr(event, "observation", None)
    signature = seen.signature if seen is not None else event.signature
    named = signature.printed_name if signature is not None else ""
    return named if is_seal(named) else ""


def check_name(body: Any, name: str, key: str) -> None:
    """Say that the name is the one under the seal in a proven record; else refuse."""
    from app.accounts.printed_names import seal_of
    from app.records.ledger.encoding import event_of

    try:
        seal = seal_of(bytes.fromhex(key), name)
    except ValueError:
        raise click.ClickException("The key of a name is hexadecimal digits.") from None
    if seal != seal_in(event_of(body)):
        raise click.ClickException(f"{name} with this key is not the name under the signature.")
    click.echo(f"It was signed by {name}.")
