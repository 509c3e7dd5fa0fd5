"""A wrong setting stops the start and names itself."""

import pytest

from app.settings import SettingsError, settings_from


@pytest.mark.parametrize(
    ("name", "value", "said"),
    [
        ("LOWPORT_ZONE", "Chicago", "not an IANA time zone"),
        ("LOWPORT_HTTPS", "true", "neither yes nor no"),
        ("LOWPORT_PROXY_HOPS", "-1", "not a whole number"),
        ("LOWPORT_CONTENT", "/no/such/folder", "no folder"),
        ("LOWPORT_SECRET", "x", "is not a setting"),
    ],
)
def test_a_wrong_setting_stops_the_start(tmp_path, name, value, said):
    with pytest.raises(SettingsError, match=said):
        settings_from({"LOWPORT_INSTANCE": str(tmp_path), name: value})


def test_the_secret_is_made_once_and_only_its_owner_may_read_it(tmp_path):
    environ = {"LOWPORT_INSTANCE": str(tmp_path)}
    first = settings_from(environ).secret_key
    assert len(first) > 40
    assert settings_from(environ).secret_key == first
    assert (tmp_path / "secret-key").stat().st_mode & 0o777 == 0o600
