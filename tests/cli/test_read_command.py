"""``lowport read`` says back what was typed, or asks."""

import pytest

from app.cli import main


@pytest.fixture
def read(monkeypatch, capsys):
    def run(*words):
        monkeypatch.setattr("sys.argv", ["lowport", "read", *words])
        with pytest.raises(SystemExit) as ended:
            main()
        out, err = capsys.readouterr()
        return ended.value.code, out.splitlines(), err

    return run


def test_a_length_comes_back_in_both_systems(read):
    status, lines, _ = read("6'-4 1/2\"")
    assert status == 0
    assert lines == ["6 ft 4 1/2 in = 76 1/2 in", "1943.1 mm", "76.5 in"]


def test_another_quantity(read):
    status, lines, _ = read("0.25 gal", "--quantity", "volume")
    assert status == 0
    assert lines == ["0.25 gal is about 946.353 mL", "946 mL", "32 fl oz"]


def test_a_comma_is_asked_about(read):
    status, lines, err = read("1,5 mm")
    assert (status, lines) == (1, [])
    assert err.startswith("What does the comma in “1,5 mm” mean?")


def test_an_unknown_quantity_is_wrong_usage(read):
    assert read("4 mm", "--quantity", "colour")[0] == 2
