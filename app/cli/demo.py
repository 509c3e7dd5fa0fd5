"""Load the invented demo crew into an empty database."""

import click


@click.command()
@click.option("--only-if-empty", is_flag=True, help="Do nothing where there are people already.")
def demo(only_if_empty: bool) -> None:
    """Load an invented crew with an invented past; refuses a database with people in it."""
    from datetime import UTC, datetime

    from app.accounts.people import all_people, count_people
    from app.cli.opening import opened_app
    from app.database import reading, writing
    from app.demo.loading import load_demo

    with opened_app() as app:
        with reading() as connection:
            is_empty = count_people(connection) == 0
        if is_empty or not only_if_empty:
            zone = app.extensions["lowport_settings"].zone
            with writing() as connection:
                curriculum = app.extensions["lowport_curriculum"]
                load_demo(connection, curriculum, datetime.now(UTC), zone)
        with reading() as connection:
            if any(
                p.sign_in_name == "olga" and p.name == "Olga Preface"
                for p in all_people(connection)
            ):
                _print_names()


def _print_names() -> None:
    from app.demo.crew import DEMO_PASSWORD, OFFICERS, TRAINERS, WORKERS

    click.echo("\nAn invented crew is loaded; all people, sites and products are made up.")
    click.echo(f"Everybody's password: {DEMO_PASSWORD}\n")
    for title, members in (
        ("Workers", WORKERS),
        ("Trainers", TRAINERS),
        ("Safety officers", OFFICERS),
    ):
        click.echo(f"  {title}")
        for member in members:
            click.echo(f"    {member.sign_in_name:<8} {member.printed_name:<16} {member.shows}")
    click.echo("")
