"""The form of a build-up as it is kept: what was before, aim, order, start, goal, limits, calendar, budget, as texts.

An empty field is the aim's own value; what has none is asked for.
"""

from dataclasses import dataclass, fields

from app.records.plan_fields import BY_AIM, NO_DAYS, ORDERS, OWN, USUAL
from app.records.reads import AthleteData
from app.show.from_records import setting_text

ORDER_SAID = {"heavy": "what many do in rehabilitation (common practice, no source)"}


@dataclass(frozen=True)
class PlanForm:
    """All that a person has put in to have a plan made.

    Attributes
    ----------
    aim, lead : str
        Keys of `AIMS` and of `METRICS`; a lead of `BY_AIM` is the aim's.
    left_out : str
        Balls of the rack that are not thrown: their masses (g) with blanks between.
    cleared_role : str
        A key of `rule_words.CLEARING`; empty for none.
    holds : str
        How long the limits from Start hold: a key of `first_limits.HOLDS`; empty while that was not said.
    order : str
        A key of `ORDERS`; empty for the one that stands unless another is chosen.
    between_ball, goal_ball : str
        `USUAL`, `OWN`, or the value of a ball.
    days : str
        Days of the week, Monday 0, with blanks between them; empty for the aim's.
    first_day, target_day : str
        Year-month-day; empty for today, and for none.
    others
        Texts of the fields of `checks.FIELDS`.
    """

    aim: str = "after_off"
    lead: str = BY_AIM
    left_out: str = ""
    weeks_off: str = ""
    throws_week: str = ""
    thrown: str = ""
    cleared_by: str = ""
    cleared_role: str = ""
    holds: str = ""
    hold_count: str = ""
    order: str = ""
    between_ball: str = USUAL
    start_percent: str = ""
    goal_ball: str = OWN
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


def form_of(data: AthleteData | None) -> PlanForm:
    """The form as the records have it: each text as typed, also one that was refused."""
    if data is None:
        return PlanForm()
    return PlanForm(**{name: setting_text(data, f"plan.{name}") for name in NAMES})


__all__ = ["BY_AIM", "NAMES", "NO_DAYS", "ORDERS", "ORDER_SAID", "OWN", "USUAL", "PlanForm", "form_of"]
