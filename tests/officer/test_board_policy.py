"""The board's rows go by the approved rules, not by those that wait in a server's files."""

import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask import Flask

from app.cli.rebuilding import needs_rebuild, rebuild_for
from app.curriculum.bundles import POLICY
from app.curriculum.loading.content import load_curriculum
from app.curriculum.model import Curriculum
from app.settings import ROOT, Settings
from tests.officer.text_servers import Servers, servers_at

HINT = "lowport records rebuild"


@pytest.fixture(scope="module")
def stricter(tmp_path_factory: pytest.TempPathFactory) -> Curriculum:
    """The content with grants that are good for 12 months instead of 24."""
    folder = tmp_path_factory.mktemp("stricter")
    shutil.copytree(ROOT / "content", folder / "content")
    path: Path = folder / "content" / "qualifications.yaml"
    words = path.read_text()
    assert "  validity_months: 24\n" in words
    words = words.replace("  validity_months: 24\n", "  validity_months: 12\n")
    words = re.sub(r"(?m)^policy_version: .*$", 'policy_version: "stricter"', words)
    path.write_text(words)
    return load_curriculum(folder / "content")


@pytest.fixture
def servers(
    firm: Any, settings: Settings, clock: Any, curriculum: Curriculum, stricter: Curriculum
) -> Iterator[Servers]:
    both = servers_at(settings, clock, curriculum, stricter)
    assert both.as_delivered().status_code == 303
    yield both
    both.stop()


def rebuilt(app: Flask) -> None:
    with app.app_context():
        rebuild_for(app)


def needs(app: Flask) -> bool:
    with app.app_context():
        return needs_rebuild(app)


def test_rules_that_only_wait_in_the_files_change_no_row(servers: Servers):
    rebuilt(servers.edited)
    for app in (servers.delivered, servers.edited):
        assert not needs(app)
        page = servers.page("olga", "/board", app)
        assert "Pump operator" in page
        assert HINT not in page


def test_approved_rules_hold_at_once_and_are_quick_after_a_rebuild(servers: Servers):
    assert servers.approve(text=POLICY).status_code == 303
    for app in (servers.delivered, servers.edited):
        assert needs(app)
        assert HINT in servers.page("olga", "/board", app)
    rebuilt(servers.delivered)
    for app in (servers.delivered, servers.edited):
        assert not needs(app)
        assert HINT not in servers.page("olga", "/board", app)


def test_before_any_approval_no_hint_is_shown(
    firm: Any, settings: Settings, clock: Any, curriculum: Curriculum, stricter: Curriculum
):
    both = servers_at(settings, clock, curriculum, stricter)
    assert HINT not in both.page("olga", "/board", both.delivered)
    both.stop()
