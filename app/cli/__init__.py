"""The ``lowport`` command: one file per noun, loaded only when it is called.

Exit status: 0 done, 1 a refusal with its sentence, 2 wrong usage.
"""

import sys
from importlib import import_module

import click

NOUNS = {
    "calc": "every calculator of the trade's arithmetic",
    "content": "check the modules, questions and sources",
    "database": "bring the database up to date",
    "demo": "load the invented demo crew into an empty database",
    "person": "add people and reset passwords",
    "read": "show how a typed quantity is read",
    "records": "verify the records, keep checkpoints, rebuild the board",
    "serve": "run the web server",
    "standing": "work out standings from a file",
    "words": "bring the Spanish of the pages up to date",
}


class NounGroup(click.Group):
    """A click group whose commands are imported on first use, so that each starts quickly."""

    def list_commands(self, _ctx: click.Context) -> list[str]:
        return sorted(NOUNS)

    def get_command(self, _ctx: click.Context, name: str) -> click.Command | None:
        if name not in NOUNS:
            return None
        command = getattr(import_module(f"app.cli.{name}"), name)
        assert isinstance(command, click.Command)
        return command

    def format_commands(self, _ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(sorted(NOUNS.items()))


@click.group(cls=NounGroup)
def lowport() -> None:
    """Teach, watch, sign off and show who is qualified for surface-port crack injection."""


def main() -> None:
    """Run the command line; turn a refusal into its sentence and exit status 1."""
    try:
        status = lowport.main(standalone_mode=False)
    except click.ClickException as problem:
        problem.show()
        sys.exit(problem.exit_code)
    except click.Abort:
        sys.exit(1)
    except Exception as problem:
        sentence = getattr(problem, "sentence", None)
        if sentence is None:
            raise
        click.echo(sentence, err=True)
        sys.exit(1)
    sys.exit(status if isinstance(status, int) else 0)
