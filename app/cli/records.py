"""Verify the records, keep checkpoints, prove one of them, rebuild the board, copy them all."""

import json
import os
from pathlib import Path
from typing import Any

import click

_TO = click.option("--to", "path", type=click.Path(path_type=Path), help="Write it to this file.")
_KEYS = click.option(
    "--key",
    "key_files",
    multiple=True,
    type=click.Path(path_type=Path, exists=True, dir_okay=False),
    help="A public key to trust besides this installation's own; may be given again.",
)


@click.group()
def records() -> None:
    """Verify the records, keep checkpoints, prove one record, rebuild the board, copy all."""


@records.command()
@click.option(
    "--against",
    multiple=True,
    metavar="CHECKPOINT",
    help="A file with a signed checkpoint, or the line from a printed sheet; may be given again.",
)
@click.option("--deep", is_flag=True, help="Also read every record and compare its columns.")
@_KEYS
def verify(against: tuple[str, ...], deep: bool, key_files: tuple[Path, ...]) -> None:
    """Check that every record is as it was written, and name the first that is not.

    The checkpoints kept in the instance folder are always compared.
    """
    from app.cli.checkpoints import checkpoints_given, known_keys
    from app.cli.opening import opened_records

    with opened_records() as (instance, connection):
        kept = checkpoints_given(instance, against, known_keys(instance, key_files))
        count, root, holds_to = _checked(connection, kept, deep)
    if count == 0:
        click.echo("There are no records yet.")
        return
    click.echo(f"{count} records hold. Their checkpoint now:\n{root}")
    if holds_to:
        click.echo(f"The first {holds_to} are those of the checkpoint kept before.")
    else:
        click.echo("Nothing older was compared: keep a checkpoint elsewhere (records checkpoint).")
    if not deep:
        click.echo("The columns were not read; --deep compares each with its record.")


@records.command()
@_TO
def checkpoint(path: Path | None) -> None:
    """Verify the records, then sign how many there are and their root.

    A copy stays in the instance folder. Keep another where the owner of this database can't get
    at it: with the inspector, in a mail, on paper.
    """
    from app.cli.checkpoints import checkpoints_given, known_keys
    from app.cli.opening import opened_records
    from app.records.proof.checkpoint import newest
    from app.records.proof.keeping import keep
    from app.records.proof.notes import signed
    from app.records.proof.signing_key import installation_key

    with opened_records() as (instance, connection):
        key = installation_key(instance)
        _checked(connection, checkpoints_given(instance, (), known_keys(instance, ())), deep=False)
        found = newest(connection)
    if found is None:
        raise click.ClickException("There are no records yet.")
    note = signed(found.text, found.origin, key)
    keep(instance, found, note)
    _write(note, path)


@records.command()
@_TO
def key(path: Path | None) -> None:
    """Print the public key that checks this installation's signatures."""
    from app.records.proof.signing_key import installation_key
    from app.settings import settings_from

    _write(installation_key(settings_from().instance).verifying.pem, path)


@records.command()
@click.argument("record_id", metavar="ID")
@_TO
def prove(record_id: str, path: Path | None) -> None:
    """Write a proof that a record stands where it stands, for somebody without the database."""
    from app.cli.opening import opened_records
    from app.cli.seals import name_behind
    from app.records.ledger.door import event_by_id, receipt_of
    from app.records.proof.proofs import proof_of
    from app.records.proof.signing_key import installation_key

    with opened_records() as (instance, connection):
        receipt = receipt_of(connection, record_id)
        if receipt is None:
            raise click.ClickException(f"There is no record {record_id}.")
        proof = proof_of(connection, receipt.seq, installation_key(instance))
        told = name_behind(connection, event_by_id(connection, record_id))
    _write(proof, path)
    if told:
        click.echo(told, err=True)


@records.command("read-proof")
@click.argument("path", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option(
    "--signed-by",
    nargs=2,
    metavar="NAME KEY",
    help="Also check that this name stands under the signature; the key comes with the proof.",
)
@_KEYS
def read_proof(path: Path, signed_by: tuple[str, str] | None, key_files: tuple[Path, ...]) -> None:
    """Check a proof and print the record in it; needs no database."""
    from app.cli.checkpoints import known_keys
    from app.cli.seals import check_name
    from app.records.proof.proofs import read_proof as read
    from app.settings import settings_from

    keys = known_keys(settings_from().instance, key_files)
    found = read(path.read_bytes().decode("utf-8", errors="replace"), keys)
    click.echo(json.dumps(json.loads(found.body), indent=2, ensure_ascii=False))
    click.echo(f"It is record {found.seq} of the {found.checkpoint.size} on the checkpoint.")
    if signed_by:
        check_name(json.loads(found.body), *signed_by)


@records.command()
def rebuild() -> None:
    """Work everybody's standings out anew from the records, so that the board is quick.

    Needed once other rules are approved and in force. Until it is done the board
    says the same, only later. Servers may go on meanwhile, and stopping half-way does no harm.
    """
    from app.cli.opening import ask_for_tables, opened_app
    from app.cli.rebuilding import rebuild_for
    from app.database import reading

    with opened_app() as app:
        with reading() as connection:
            ask_for_tables(connection)
        click.echo(rebuild_for(app))


@records.command()
@click.option("--to", "url", required=True, metavar="URL", help="sqlite:///… or postgresql://…")
def copy(url: str) -> None:
    """Copy records, people and working papers into an empty, migrated database.

    Stop the servers first. Sessions stay behind: everybody signs in again.
    """
    from app.accounts.tables import browser_session, sign_in_failure
    from app.cli.opening import opened_app
    from app.cli.rebuilding import rebuild_for
    from app.database import db, engine_at, reading, writing_to
    from app.records.ledger.copying import copy_everything
    from app.records.projection.stored.interval_tables import TABLES
    from app.records.proof.checkpoint import newest_line
    from app.settings import database_url

    left_behind = {browser_session, sign_in_failure, *TABLES}
    engine = engine_at(database_url(url))
    with opened_app() as app:
        with reading() as here, writing_to(engine) as there:
            tables = [table for table in db.metadata.sorted_tables if table not in left_behind]
            rows = copy_everything(here, there, tables)
            line = newest_line(there)
        click.echo(
            f"{rows} rows copied. Both ends have the same checkpoint:\n{line or 'no records'}"
        )
        click.echo(rebuild_for(app, engine))


def _checked(connection: Any, kept: list[Any], deep: bool) -> tuple[int, str, int]:
    """How many records hold, their checkpoint, and how many an older one vouches for."""
    from app.records.proof.checkpoint import newest_line
    from app.records.proof.comparing import compare
    from app.records.proof.verifying import verify

    found = verify(connection, is_deep=deep, processes=os.cpu_count() or 1)
    compared = compare(connection, found, kept)
    sentences = [] if compared.sentence is None else [compared.sentence]
    if found.wrong is not None:
        name = f" ({found.wrong.id})" if found.wrong.id else ""
        sentences.append(f"Record {found.wrong.seq}{name} is wrong: {found.wrong.sentence}")
    if sentences:
        raise click.ClickException(" ".join(sentences))
    return found.count, newest_line(connection), compared.holds_to


def _write(text: str, path: Path | None) -> None:
    click.echo(text, nl=False)
    if path is not None:
        path.write_text(text, encoding="utf-8")
