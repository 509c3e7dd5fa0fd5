"""Everything that may differ between installations, read once; a wrong value stops the start."""

import os
import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from zoneinfo import ZoneInfo, available_timezones

ROOT = Path(__file__).resolve().parent.parent
PREFIX = "LOWPORT_"
KNOWN = ("INSTANCE", "DATABASE_URL", "SECRET_KEY", "CONTENT", "ZONE", "HTTPS", "PROXY_HOPS")

DRIVERS = {
    "sqlite": "sqlite",
    "postgresql": "postgresql+psycopg",
    "postgresql+psycopg": "postgresql+psycopg",
}


class SettingsError(Exception):
    """A setting in the environment is wrong; the sentence names it and its value."""

    @property
    def sentence(self) -> str:
        """What the command line prints."""
        return str(self)


@dataclass(frozen=True, slots=True)
class Settings:
    """What the program needs to know before it starts."""

    instance: Path
    database_url: str
    secret_key: str
    content: Path
    zone: str
    is_https: bool
    proxy_hops: int
    max_body_bytes: int = 2 * 1024 * 1024
    session_hours: int = 14
    idle_hours: int = 10

    @property
    def tz(self) -> ZoneInfo:
        """The zone in which the firm's civil dates are counted."""
        return ZoneInfo(self.zone)


def settings_from(environ: Mapping[str, str] = os.environ) -> Settings:
    """Read the ``LOWPORT_…`` variables; raise SettingsError on an unknown or wrong one."""
    given = {k[len(PREFIX) :]: v for k, v in environ.items() if k.startswith(PREFIX)}
    for name in given:
        if name not in KNOWN:
            raise SettingsError(f"{PREFIX}{name} is not a setting; known: {', '.join(KNOWN)}.")
    instance = Path(given.get("INSTANCE", ROOT / "instance")).resolve()
    instance.mkdir(parents=True, exist_ok=True)
    content = Path(given.get("CONTENT", ROOT / "content")).resolve()
    if not content.is_dir():
        raise SettingsError(f"{PREFIX}CONTENT: there is no folder {content}.")
    return Settings(
        instance=instance,
        database_url=database_url(
            given.get("DATABASE_URL", f"sqlite:///{instance / 'lowport.db'}")
        ),
        secret_key=given.get("SECRET_KEY") or _kept_secret(instance / "secret-key"),
        content=content,
        zone=_zone(given.get("ZONE", "America/Chicago")),
        is_https=_flag("HTTPS", given.get("HTTPS", "no")),
        proxy_hops=_whole("PROXY_HOPS", given.get("PROXY_HOPS", "0")),
    )


def database_url(value: str) -> str:
    """The URL with the driver in it; SettingsError unless it is SQLite or PostgreSQL."""
    scheme, colon, rest = value.partition("://")
    if not colon or scheme not in DRIVERS:
        # The value may hold a password, so only its beginning is told.
        raise SettingsError(
            f"{PREFIX}DATABASE_URL begins with {scheme!r:.24}; it must begin with "
            "sqlite:/// or postgresql://."
        )
    if scheme != "sqlite" and find_spec("psycopg") is None:
        raise SettingsError(
            f"{PREFIX}DATABASE_URL: the driver for PostgreSQL is not installed; "
            "run pip install 'psycopg[binary]'."
        )
    return f"{DRIVERS[scheme]}://{rest}"


def _kept_secret(path: Path) -> str:
    """Return the installation's secret, made on first use and readable by its owner only."""
    if not path.exists():
        descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(descriptor, "w") as file:
            file.write(secrets.token_urlsafe(48))
    return path.read_text().strip()


def _zone(value: str) -> str:
    if value not in available_timezones():
        raise SettingsError(f"{PREFIX}ZONE: {value!r} is not an IANA time zone.")
    return value


def _flag(name: str, value: str) -> bool:
    if value.lower() not in ("yes", "no"):
        raise SettingsError(f"{PREFIX}{name}: {value!r} is neither yes nor no.")
    return value.lower() == "yes"


def _whole(name: str, value: str) -> int:
    if not value.isascii() or not value.isdigit():
        raise SettingsError(f"{PREFIX}{name}: {value!r} is not a whole number.")
    return int(value)
