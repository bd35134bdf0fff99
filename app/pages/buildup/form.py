"""The form of a build-up as typed: what was before, aim, order, start, goal, limits, calendar, budget.

An empty field is the aim's own value; what has none is asked for.
"""

from collections.abc import Mapping
from dataclasses import dataclass, fields

from app.show import flat_form
from app.show.whose import OF_COMPARE

VERSION = 2

BY_AIM = "aim"  # a lead readout: as the aim has it
OWN = "own"  # the goal's ball
USUAL = "usual"  # the ball in between: as the order has it
ORDERS = {
    "own": "The own ball, from slow to fast",
    "heavy": "The heaviest ball slow, then lighter and faster",
    "between": "A ball in between, slow, then on to the own ball",
}
ORDER_SAID = {"heavy": "what many do in rehabilitation (common practice, no source)"}
NO_DAYS = "-"  # every day of the week was unticked; empty stands for the aim's


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
        Balls of the rack that are not thrown: their masses (g) with blanks between.
    cleared_role : str
        A key of `rule_words.CLEARING`; empty for none.
    holds : str
        How long the limits from Start hold: a key of `first_limits.HOLDS`; empty while that was not said.
    given : str
        Which of those that came over from Start was seen last: it chooses the athlete once.
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

    who: str = OF_COMPARE
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
    given: str = ""
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


def to_json(form: PlanForm) -> dict[str, object]:
    """Write a form as plain data, for the browser to keep; see `flat_form.to_json`."""
    return flat_form.to_json(form, VERSION)


def from_json(kept: object) -> PlanForm:
    """Read a form that the browser kept; raises `FormError` as `flat_form.from_json`."""
    return flat_form.from_json(kept, PlanForm, VERSION)


def read_form(values: Mapping[str, object]) -> PlanForm:
    """Read the form from the controls on the page; see `flat_form.read_form`."""
    return flat_form.read_form(values, PlanForm)
