"""The fields of the form: what each is called, its unit, and what the model accepts."""

from dataclasses import dataclass, replace

from app.units.conversion import range_in
from app.units.systems import METRIC, System
from app.units.typed import kept_text, read_typed, shown_text
from model.ball import BALL_LIMITS
from model.checks import Limit
from model.hold import CLOCK_LIMIT, PROFILE_SHARE_LIMIT
from model.person import HANDS, MEASURED_LENGTHS, PERSON_LIMITS, SEXES
from model.throw import SPEED_LIMIT


@dataclass(frozen=True)
class Field:
    """A field for a number.

    Attributes
    ----------
    name : str
        Key in the form, with the unit in it.
    label, unit : str
        As they are printed.
    limit : Limit
        What the model accepts, in SI.
    model_name : str
        The model's name of the value, with its SI unit.
    needed : bool
        Whether it may not be left out.
    hint : str
        What it is, where the label does not say it.
    stature : bool
        Whether it is a person's height, which some read in feet and inches.
    """

    name: str
    label: str
    unit: str
    limit: Limit
    model_name: str
    needed: bool = True
    hint: str = ""
    stature: bool = False

    @property
    def accepted(self) -> str:
        """The accepted range, in the field's own unit."""
        return self.accepted_in(METRIC)

    def unit_in(self, system: System) -> str:
        """The unit that stands beside the field."""
        return system.stature if self.stature else system.unit(self.unit)

    def accepted_in(self, system: System) -> str:
        """The accepted range, in the unit that stands beside the field."""
        return range_in(self.limit, self.unit_in(system))

    def described(self, system: System) -> str:
        """The same without the unit, where it is one word."""
        return self.accepted_in(system).removesuffix(self.unit_in(system)).strip()

    def shown(self, kept: str, system: System) -> str:
        """What the field shows of a kept text, see `app.units.typed.shown_text`."""
        return shown_text(kept, self.unit, self.unit_in(system))

    def read(self, kept: str) -> float | None:
        """The number (SI) of a kept text; None if it is none, or not accepted."""
        typed = read_typed(kept, self.unit)
        return typed.si if typed is not None and self.limit.low <= typed.si <= self.limit.high else None

    def kept(self, text: str, before: str, system: System) -> str:
        """What is kept of the field's text, see `app.units.typed.kept_text`."""
        return kept_text(text, before, self.unit, self.unit_in(system))


def _measure(name: str, label: str, unit: str, model_name: str, hint: str = "") -> Field:
    needed = model_name not in MEASURED_LENGTHS
    return Field(name, label, unit, PERSON_LIMITS[model_name], model_name, needed, hint, name == "stature_cm")


MEASURES = (
    _measure("age_years", "Age", "years", "age_years"),
    _measure("stature_cm", "Stature", "cm", "stature_m"),
    _measure("body_mass_kg", "Body mass", "kg", "body_mass_kg"),
)

LENGTHS = (
    _measure("upper_arm_length_cm", "Upper arm", "cm", "upper_arm_length_m", "shoulder joint to elbow joint"),
    _measure("forearm_length_cm", "Forearm", "cm", "forearm_length_m", "elbow joint to wrist joint"),
    _measure("hand_length_cm", "Hand", "cm", "hand_length_m", "wrist centre to third knuckle, not to the fingertip"),
)

BALL_FIELDS = (
    Field("ball_mass_g", "Ball mass", "g", BALL_LIMITS["mass_kg"], "mass_kg"),
    Field("ball_diameter_mm", "Ball diameter", "mm", BALL_LIMITS["diameter_m"], "diameter_m"),
)

HOLD_FIELDS = {
    "speed": Field("speed_m_s", "Release speed", "m/s", SPEED_LIMIT, "speed_m_s"),
    "clock": Field("clock_percent", "Joint speeds", "%", replace(CLOCK_LIMIT, unit=""), "clock"),
    "profile": Field("share_percent", "Share of full speed", "%", replace(PROFILE_SHARE_LIMIT, unit=""), "share"),
}
"""The field that says how fast a throw is, by how the throw is held."""

HOLDS = {"speed": "release speed", "clock": "same clock", "profile": "speed profile"}
"""How a throw can be held when something else changes, in words; see `model.hold`."""

HELD_MEANS = {
    "speed": "The release speed stays as typed or measured, whatever else changes.",
    "clock": "The joint speeds stay, in per cent of the reference motion's: a longer arm releases faster.",
    "profile": "A share of this athlete's full speed with that ball, from the readings on the Athlete page.",
}

THROW_FIELDS = (*BALL_FIELDS, HOLD_FIELDS["speed"])
"""What a throw takes where it is held at a release speed, as on the command line."""

CHOICES = {"sex": SEXES, "handedness": HANDS}
"""Fields with a choice of words, and the words."""

MARK = "still_growing"
"""The field in which a thrower is marked as still growing: "yes", or empty for by age."""

MARKED = "yes"
BY_AGE = "age"  # what the control shows in the place of an empty text, which it cannot choose
MARKS = {BY_AGE: "by age", MARKED: "yes"}
"""Its choices, in words."""

MEASURE_NAMES = {"sex": "sex", "handedness": "throwing hand", MARK: "still growing"} | {
    f.name: f.label.lower() for f in MEASURES + LENGTHS
}
"""What the fields of the athlete are called in a sentence."""

ABOVE_LIMITS = {"N·m": Limit(0.1, 2000.0, "N·m"), "N": Limit(1.0, 20000.0, "N")}
"""Levels that "time above" may be asked for; wide, to catch a slip of the keyboard only."""

LONGEST_CODE = 24
"""Characters of an athlete's code."""

LONGEST_TEXT = 40
"""Characters of any field; the browser's fields stop there too."""
