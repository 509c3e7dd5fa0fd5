"""Run the web server."""

import os

import click


@click.command()
@click.option("--host", default="127.0.0.1", show_default=True, help="Address to listen on.")
@click.option("--port", default=8000, show_default=True, type=click.IntRange(1, 65535))
@click.option("--workers", default=1, show_default=True, type=click.IntRange(1, 64))
def serve(host: str, port: int, workers: int) -> None:
    """Serve the pages until stopped."""
    from granian import Granian
    from granian.constants import Interfaces

    from app.settings import settings_from

    # Two threads for small systems of equations are many times slower than one on a busy machine.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    settings_from()  # a wrong setting stops here with its sentence, not in a worker's log
    click.echo(f"Lowport answers on http://{host}:{port} (stop it with Ctrl-C)")
    Granian(
        "app.factory:create_app",
        factory=True,
        interface=Interfaces.WSGI,
        address=host,
        port=port,
        workers=workers,
        blocking_threads=4,
        log_access=False,
    ).serve()
