"""``python -m app.cli`` is the same as ``lowport``."""

from app.cli import main

main()
