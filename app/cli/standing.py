"""Work out standings from a file."""

import json
from typing import BinaryIO

import click


class WrongFile(click.ClickException):
    """A file without the form it must have."""

    exit_code = 2


@click.group()
def standing() -> None:
    """Work out standings from a file."""


@standing.command()
@click.argument("file", type=click.File("rb"))
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
def evaluate(file: BinaryIO, as_json: bool) -> None:
    """Answer the questions in FILE from its policy and events ("-" reads standard input).

    The file's form is described in DEVELOPERS.md, "The standing file".
    """
    from app.records.reading import Malformed
    from app.records.standing.standing_file import read_standing_file
    from app.records.standing.telling import standing_data, standing_lines

    name = getattr(file, "name", "standard input")
    try:
        asked = read_standing_file(file.read().decode("utf-8-sig"))
    except UnicodeDecodeError as problem:
        raise WrongFile(f"{name}: byte {problem.start}: this is not UTF-8 text.") from None
    except Malformed as problem:
        raise WrongFile(f"{name}: {problem.sentence}") from None
    answers = asked.answers()
    if as_json:
        told = [
            {
                **standing_data(answer),
                "known_on": question.known_on and question.known_on.isoformat(),
            }
            for question, answer in zip(asked.questions, answers, strict=True)
        ]
        click.echo(json.dumps({"answers": told}, indent=2, ensure_ascii=False))
        return
    for answer in answers:
        click.echo("\n".join(standing_lines(answer)))
