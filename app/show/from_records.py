"""From the records to the athlete that the pages compute with: measures, reference throw and readings, as texts.

The texts are those that were typed, as far as they were kept, so that a number is shown as it came.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from app.records.acts import Edit
from app.records.field_list import field_of, is_setting
from app.records.reads import AthleteData, age_on
from app.records.tables import Ball, Reading, Reference
from app.show.form_fields import LENGTHS, MARK, MARKED, MEASURES
from app.show.profile_form import BallRow, Cell, ProfileForm
from app.show.subject import Case, case_of
from app.show.throw_form import ATHLETE_NAMES, Form, ThrowForm
from app.units.conversion import UNITS
from app.units.systems import METRIC, System
from app.units.typed import ADDED, NUMBER
from model.day_speeds import season_start

REFERENCE_KEY = "reference"
DEFAULT_KIND = "measured"
KIND_OF = {"before_injury": "before"}
"""What the form calls a kind of reference, where the records call it otherwise."""
AGE_DECIMALS = 10.0  # an age that has gone on since its day is cut to a tenth of a year, so that nobody is made older


@dataclass(frozen=True)
class Subject:
    """Who a page is about.

    Attributes
    ----------
    compared : Form
        Measures, and the reference throw as its one throw.
    profile : ProfileForm
        The balls and the readings that count.
    invented : bool
    """

    compared: Form
    profile: ProfileForm
    invented: bool = False

    def case(self, today: date, system: System = METRIC) -> Case:
        """Person, own ball, reference and speed profile."""
        return case_of(self.compared, self.profile, today, system)


def subject_of(data: AthleteData | None, today: date) -> Subject:
    """Who an athlete of the records is; nobody yet, where there is none."""
    if data is None:
        return Subject(Form(), ProfileForm())
    compared = compared_of(data, today)
    return Subject(compared, profile_of(data, today), data.athlete.invented)


def kept_text(row: Any, path: str) -> str:
    """What stands in a row's field, as a text in its metric unit: the refused text, the typed one, or the number's."""
    field = field_of(path, row.__dict__)
    draft = row.draft.get(field.name)
    return draft if draft is not None else field.kept(getattr(row, field.name), row.typed.get(field.name, ""))


def measures_of(data: AthleteData, today: date) -> dict[str, str]:
    """The measures that count today, as texts by the names of the form."""
    athlete, texts = data.athlete, dict.fromkeys(ATHLETE_NAMES, "")
    texts |= {"code": athlete.code, "sex": athlete.sex or "", "handedness": athlete.handedness or ""}
    texts[MARK] = MARKED if athlete.still_growing else ""
    for row in sorted(data.measures, key=lambda row: (row.day > today, -row.day.toordinal(), -row.id), reverse=True):
        for field in (*MEASURES, *LENGTHS):
            column = field.model_name
            if column == "age_years":
                age = age_on(row, today)
                text = "" if age is None else _age_text(row, age, today)
            else:
                text = kept_text(row, f"measures.{column}")
            texts[field.name] = text or texts[field.name]
    return texts


def _age_text(row: Any, age: float, today: date) -> str:
    """The age as it was typed on its day; later cut to a tenth of a year."""
    if row.day >= today:
        return kept_text(row, "measures.age_years")
    return f"{math.floor(age * AGE_DECIMALS) / AGE_DECIMALS:.12g}"


def compared_of(data: AthleteData, today: date) -> Form:
    """Measures and reference throw of an athlete."""
    known, ball = data.reference, own_ball_of(data)
    texts = measures_of(data, today)
    if ball is None:
        return Form(athlete=texts)
    throw = ThrowForm(
        REFERENCE_KEY,
        kept_text(ball, "ball.mass_kg"),
        kept_text(ball, "ball.diameter_m"),
        kept_text(known, "reference.speed_m_s") if known else "",
    )
    kind = KIND_OF.get(known.kind, known.kind) if known else DEFAULT_KIND
    day = known.day.isoformat() if known and known.day else ""
    return Form(texts, (throw,), REFERENCE_KEY, kind, day)


def own_ball_of(data: AthleteData) -> Ball | None:
    """The ball of the reference throw: the athlete's own, else the one that the reference names."""
    known: Reference | None = data.reference
    if data.own_ball is not None:
        return data.own_ball
    return data.balls.get(known.ball_id) if known and known.ball_id else None


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
    """Whether a reading can be one of the speed profile: a throw over an asked distance says nothing of full speed."""
    return one.distance_m is None and one.speed_m_s is not None


def counts(one: Reading, since: date | None) -> bool:
    """Whether a reading is one of the profile's, of those since a day."""
    return one.distance_m is None and (since is None or one.day >= since)


def profile_of(data: AthleteData, today: date) -> ProfileForm:
    """The balls with the readings that count, and the choices of the speed profile."""
    settings, since = data.settings, readings_since(data, today)
    counted = [one for one in data.readings if counts(one, since)]
    with_ball = {one.ball_id for one in counted}
    balls = [ball for ball in data.balls.values() if ball.archived_at is None or ball.id in with_ball]
    rows = tuple(
        BallRow(
            ball.uid,
            kept_text(ball, "ball.mass_kg"),
            kept_text(ball, "ball.diameter_m"),
            tuple(_cell(one) for one in counted if one.ball_id == ball.id),
        )
        for ball in sorted(balls, key=lambda ball: (ball.mass_kg or math.inf, ball.id))
    )
    thrown = settings.get("profile.throw_ball") or ""
    return ProfileForm(rows, throw_ball=thrown, **_choices(data, settings))


def _cell(one: Reading) -> Cell:
    effort = kept_text(one, "reading.asked_effort")
    release = "yes" if one.speed_is == "release" else ""
    return Cell(kept_text(one, "reading.speed_m_s"), one.day.isoformat(), effort, one.uid, release)


def _choices(data: AthleteData, settings: Mapping[str, Any]) -> dict[str, str]:
    """The settings of the profile, as texts by the names of the form."""
    names = (
        *("own_speed_m_s", "basis", "radar_distance_m", "radar_angle_deg", "joint", "cap_joint", "cap_readout"),
        *("cap_share", "cap_of", "throw_distance_m", "throw_height_m", "throw_angle_deg"),
    )
    made = {name: setting_text(data, f"profile.{name}") for name in names}
    if settings.get("profile.throw_farthest"):
        made["throw_angle_deg"] = ""
    return made | {"radar": "on" if settings.get("profile.radar") else ""}


def setting_text(data: AthleteData, path: str) -> str:
    """What stands in the field of a setting, as a text in its metric unit."""
    if not is_setting(path):
        raise KeyError(path)
    settings = data.settings
    field, row = field_of(path, settings), data.setting_rows.get(path)
    draft = row.draft.get("value") if row is not None else None
    if draft is not None:
        return draft
    return field.kept(settings.get(path), row.typed.get("value", "") if row is not None else "")


def with_unit(kept: str, unit: str) -> str:
    """A kept text as a field takes it whatever units the reader has."""
    return f"{kept}{ADDED}{unit}" if NUMBER.fullmatch(kept) and unit in UNITS else kept


def edit_of(path: str, kept: str) -> Edit:
    """An edit that puts a kept text into a setting, whatever units the reader has."""
    return Edit(path, with_unit(kept, field_of(path).unit))


__all__ = ["Subject", "can_count", "counts", "edit_of", "readings_since", "setting_text", "subject_of"]
