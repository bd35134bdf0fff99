"""The form of a build-up as typed: aim, start, goal, limits, calendar, budget. Empty means the aim's own value."""

from collections.abc import Mapping
from dataclasses import dataclass, fields

from app import flat_form
from app.whose import OF_COMPARE

VERSION = 1

BY_AIM = "aim"  # a ball: as the aim has it
NO_DAYS = "-"  # every day of the week was unticked; empty stands for the aim's
LOWEST = "lowest"  # the ball whose lead readout is lowest at the share of the start


@dataclass(frozen=True)
class PlanForm:
    """All that a person has put in to have a plan made.

    Attributes
    ----------
    who : str
        `OF_COMPARE`, or the code of an invented thrower.
    aim, lead : str
        Keys of `AIMS` and of `METRICS`; a lead of `BY_AIM` is the aim's.
    left_out : str
        Balls of the rack that are not thrown: their values as `answers.ball_value` has them, with blanks between.
    start_ball, goal_ball : str
        `BY_AIM`, `LOWEST`, or the value of a ball.
    days : str
        Days of the week, Monday 0, with blanks between them; empty for the aim's.
    first_day, target_day : str
        Year-month-day; empty for today, and for none.
    others
        Texts of the fields of `checks.FIELDS`.
    """

    who: str = OF_COMPARE
    aim: str = "after_off"
    lead: str = BY_AIM
    left_out: str = ""
    start_ball: str = BY_AIM
    start_percent: str = ""
    goal_ball: str = BY_AIM
    goal_percent: str = ""
    steps: str = ""
    rise_rise_rate: str = ""
    rise_peak: str = ""
    rise_shoulder_peak: str = ""
    rise_loaded_s: str = ""
    rise_area: str = ""
    rise_braking: str = ""
    rise_speed: str = ""
    cap_rise_rate: str = ""
    cap_peak: str = ""
    cap_shoulder_peak: str = ""
    cap_loaded_s: str = ""
    cap_area: str = ""
    cap_braking: str = ""
    cap_speed: str = ""
    days: str = ""
    first_day: str = ""
    target_day: str = ""
    repeats: str = ""
    easier_every: str = ""
    easier_percent: str = ""
    first_throws: str = ""
    first_nms: str = ""
    weekly_percent: str = ""
    most_nms: str = ""
    least_throws: str = ""
    most_throws: str = ""


NAMES = tuple(field.name for field in fields(PlanForm))


def to_json(form: PlanForm) -> dict[str, object]:
    """Write a form as plain data, for the browser to keep; see `flat_form.to_json`."""
    return flat_form.to_json(form, VERSION)


def from_json(kept: object) -> PlanForm:
    """Read a form that the browser kept; raises `FormError` as `flat_form.from_json`."""
    return flat_form.from_json(kept, PlanForm, VERSION)


def read_form(values: Mapping[str, object]) -> PlanForm:
    """Read the form from the controls on the page; see `flat_form.read_form`."""
    return flat_form.read_form(values, PlanForm)
