"""``lowport read``: how a typed quantity is read, before anything is computed with it."""

import click

from app.trade.lengths import in_unit, read_quantity
from app.trade.showing import System, digits, show
from app.trade.units import BASE_UNITS


@click.command()
@click.argument("text")
@click.option(
    "--quantity",
    type=click.Choice(sorted(BASE_UNITS)),
    default="length",
    show_default=True,
    help="What the text should be.",
)
def read(text: str, quantity: str) -> None:
    """Read TEXT as people on site type it, and say back what was read."""
    reading = read_quantity(text, quantity)
    click.echo(reading.said)
    if quantity == "length":
        click.echo(f"{digits(reading.value, 7)} mm")
        click.echo(f"{digits(in_unit(reading.value, 'in'), 7)} in")
        return
    systems: tuple[System, ...] = ("metric", "us")
    for line in dict.fromkeys(show(reading.value, quantity, system) for system in systems):
        click.echo(line)
