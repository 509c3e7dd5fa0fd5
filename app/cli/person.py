"""Add people and reset passwords from the command line."""

import click

ROLES = ("worker", "trainer", "safety-officer")


@click.group()
def person() -> None:
    """Add people and reset passwords."""


@person.command()
@click.argument("sign_in_name")
@click.argument("printed_name")
@click.option("--role", "roles", multiple=True, type=click.Choice(ROLES), required=True)
@click.password_option(help="Asked for when not given.")
def add(sign_in_name: str, printed_name: str, roles: tuple[str, ...], password: str) -> None:
    """Add a person; the first safety officer is made this way."""
    from app.accounts.people import add_person
    from app.cli.opening import opened_app
    from app.database import writing

    with opened_app(), writing() as connection:
        add_person(
            connection,
            sign_in_name=sign_in_name,
            printed_name=printed_name,
            password=password,
            roles=roles,
        )
    click.echo(f"{printed_name} can sign in as {sign_in_name.lower()} ({', '.join(roles)}).")


@person.command()
@click.argument("sign_in_name")
@click.password_option(help="Asked for when not given.")
def password(sign_in_name: str, password: str) -> None:
    """Give a person a new password and end their sessions."""
    from datetime import UTC, datetime

    from app.accounts.people import all_people, set_password
    from app.accounts.sessions import end_all_sessions
    from app.cli.opening import opened_app
    from app.database import writing

    with opened_app(), writing() as connection:
        found = [p for p in all_people(connection) if p.sign_in_name == sign_in_name.lower()]
        if not found:
            raise click.ClickException(f"Nobody signs in as {sign_in_name}.")
        set_password(connection, found[0].id, password)
        end_all_sessions(connection, found[0].id, datetime.now(UTC))
    click.echo(f"{found[0].name} has a new password and was signed out everywhere.")
