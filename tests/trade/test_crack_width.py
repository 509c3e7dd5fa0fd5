"""Crack widths against the figures of each source, side by side."""

from pathlib import Path

import pytest
import yaml

from app.trade.crack_width import width_limits

SOURCES = yaml.safe_load(
    (Path(__file__).resolve().parents[2] / "content" / "sources.yaml").read_text()
)


@pytest.mark.parametrize(
    ("width_mm", "unmet"),
    [
        # EM 1110-2-2002 §6-22a and TxDOT ch. 3 §5: bonded from 0.05 mm, hard to fill below 0.13.
        # DAfStb part 2 table 6.4 (from memory): 0.10. UFGS 03900: 0.12. NCHRP 654: above 0.15.
        (0.049, [0.05, 0.05, 0.10, 0.12, 0.13, 0.15]),
        (0.05, [0.10, 0.12, 0.13, 0.15]),
        (0.10, [0.12, 0.13, 0.15]),
        (0.12, [0.13, 0.15]),
        (0.13, [0.15]),
        (0.15, [0.15]),
        (0.151, []),
    ],
)
def test_each_source_keeps_its_own_limit(width_mm, unmet):
    found = width_limits(width_mm)
    assert [limit.limit_mm for limit in found.unmet] == unmet
    assert found.met == found.asked - len(unmet)


def test_each_limit_is_marked_as_its_source_is():
    for limit in width_limits(0.3).limits:
        assert limit.confidence == SOURCES[limit.source]["confidence"]
