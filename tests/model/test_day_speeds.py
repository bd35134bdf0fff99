"""Full-effort speeds with the own ball, day by day."""

from datetime import date, timedelta

import pytest

from model.checks import InputError
from model.day_speeds import SEASON_DAYS, DatedSpeed, DaySpeed, by_day, season_start

FIRST = date(2026, 1, 5)


def test_a_day_has_its_full_effort_throws_their_mean_their_best_and_their_scatter():
    later = FIRST + timedelta(3)
    found = by_day(
        [
            DatedSpeed(later, 34.0, 1.0),
            DatedSpeed(FIRST, 33.0),
            DatedSpeed(FIRST, 20.0, 0.6),
            DatedSpeed(FIRST, 32.0),
            DatedSpeed(FIRST, 34.0),
            DatedSpeed(later + timedelta(1), 20.0, 0.6),
        ]
    )
    assert found == (DaySpeed(FIRST, 3, 33.0, 34.0, 1.0), DaySpeed(later, 1, 34.0, 34.0, None))


@pytest.mark.parametrize(("field", "values"), [("speed_m_s", (0.0, None)), ("asked_effort", (33.0, 1.2))])
def test_a_reading_outside_its_range_is_refused_by_name(field, values):
    with pytest.raises(InputError, match=f"^{field}: "):
        DatedSpeed(FIRST, *values)


def test_a_season_begins_half_a_year_back():
    assert season_start(date(2026, 11, 28)) == date(2026, 6, 1)
    assert season_start(date(2028, 3, 1)) == date(2028, 3, 1) - timedelta(SEASON_DAYS) == date(2027, 9, 3)
