"""The Spanish of the pages: bring it up to date with the code, or say what is missing."""

import click


@click.command()
@click.option("--check", is_flag=True, help="Change nothing; fail when something is missing.")
def words(check: bool) -> None:
    """Collect every text of the pages, bring messages.po and messages.mo up to date.

    What is printed afterwards has no Spanish yet: write it into messages.po, then run this again.
    """
    from app.cli import word_catalogs as catalogs

    fresh = catalogs.brought_up_to_date()
    wrong = [(m, problems) for m in fresh if m.id and (problems := catalogs.problems(m))]
    for message, problems in wrong:
        place = message.locations[0][0] if message.locations else ""
        click.echo(f"{place}: “{message.id}” {'; '.join(problems)}")
    if not check:
        catalogs.keep(fresh)
    elif not catalogs.is_compiled():
        raise click.ClickException("messages.mo is not made from messages.po: run make words.")
    click.echo(f"{len(fresh)} texts of the pages, {len(wrong)} to mend in messages.po")
    if wrong:
        raise click.exceptions.Exit(1)
