"""Numbers as they are shown."""

import pytest

from app.show.numbers import percent


@pytest.mark.parametrize(
    ("share", "most", "said"),
    [(0.8, 0, "80 %"), (0.969, 1, "96.9 %"), (0.8, 1, "80 %"), (1.25, 0, "125 %"), (0.0512, 1, "5.1 %")],
)
def test_a_share_is_written_in_per_cent_without_needless_decimals(share, most, said):
    assert percent(share, most) == said
