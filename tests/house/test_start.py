"""What a start may not load: it is for one page, one command or one database only."""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
NOT_AT_THE_START = {
    "numpy": "the fill model, when somebody fills a crack",
    "scipy": "tests only",
    "alembic": "migrations",
    "flask_migrate": "migrations",
    "PIL": "a photo that is drawn anew",
    "joserfc": "a phone's key or signature",
    "cryptography": "keys and checkpoints that are signed",
}
START = """
import sys
from app.factory import create_app
app = create_app()
assert app.test_client().get("/sign-in").status_code == 200
print(" ".join(sys.modules))
"""


def test_making_the_app_and_answering_once_loads_none_of_these(tmp_path):
    environment = {**os.environ, "LOWPORT_INSTANCE": str(tmp_path)}
    environment.pop("LOWPORT_DATABASE_URL", None)
    command = [sys.executable, "-c", START]
    done = subprocess.run(command, env=environment, cwd=ROOT, capture_output=True, check=True)
    loaded = done.stdout.decode().split()
    assert "app.worker.views" in loaded
    assert sorted(NOT_AT_THE_START.keys() & set(loaded)) == []
