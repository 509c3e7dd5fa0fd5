"""Verify the records."""

import click


@click.group()
def records() -> None:
    """Verify the records."""


@records.command()
def verify() -> None:
    """Check that every record is as it was written, and name the first that is not."""
    from app.cli.opening import opened_app
    from app.database import reading
    from app.records.verifying import verify as verify_records

    with opened_app(), reading() as connection:
        found = verify_records(connection)
    if found.wrong is not None:
        wrong = found.wrong
        raise click.ClickException(f"Record {wrong.seq} ({wrong.id}) is wrong: {wrong.sentence}")
    if found.count == 0:
        click.echo("There are no records yet.")
        return
    click.echo(f"{found.count} records hold. The last hash is {found.last_hash}.")
    click.echo("Keep both numbers elsewhere: a chain alone cannot show a cut at its end.")
