"""Which of an athlete's readings count in the speed profile."""

from datetime import date

from app.records.reads import AthleteData
from app.records.tables import Reading
from model.day_speeds import season_start


def readings_since(data: AthleteData, today: date) -> date | None:
    """The first day of the readings that count: as it was chosen; else of a season, where readings lie in it.

    None where all count: the last reading is older than a season, and an old speed says more than none.
    """
    chosen: date | None = data.settings.get("profile.since")
    if chosen is not None:
        return chosen
    start = season_start(today)
    return start if any(one.day >= start and can_count(one) for one in data.readings) else None


def can_count(one: Reading) -> bool:
    """Whether a reading can be one of the speed profile: all of it could be read, and no distance was asked for, which
    says nothing of full speed.
    """
    return not one.draft and one.distance_m is None and one.speed_m_s is not None


def counts(one: Reading, since: date | None) -> bool:
    """Whether a reading is one of the profile's, of those since a day."""
    return one.distance_m is None and (since is None or one.day >= since)
