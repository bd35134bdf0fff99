"""From the claim's typed text to two balls and their speeds: every value is checked in its own field."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from app.pages.claim.form import ClaimForm
from app.show.checks import read_field
from app.show.form_fields import BALL_FIELDS, HOLD_FIELDS, Field
from app.units.systems import METRIC, System
from model.ball import Ball

_MASS, _DIAMETER = BALL_FIELDS
_SPEED = HOLD_FIELDS["speed"]


def _of(which: str) -> dict[str, Field]:
    fields = (
        replace(_MASS, name=f"{which}_mass_g", label=f"Mass of the {which} ball"),
        replace(_DIAMETER, name=f"{which}_diameter_mm", label=f"Diameter of the {which} ball"),
        replace(_SPEED, name=f"{which}_speed_m_s", label=f"Speed of the {which} ball"),
    )
    return {one.name: one for one in fields}


SAME = replace(
    _SPEED,
    name="same_speed_m_s",
    label="Speed of both",
    needed=False,
    hint="empty: full speed with the own ball",
)
FIELDS = _of("first") | _of("second") | {SAME.name: SAME}
"""The fields that are typed into, by their names in the form."""


@dataclass(frozen=True)
class CheckedClaim:
    """The form, read: what could be, and a message for each field that could not.

    A speed that is not asked for, as each is thrown, is neither read nor told about.
    """

    first: Ball | None = None
    second: Ball | None = None
    first_speed_m_s: float | None = None
    second_speed_m_s: float | None = None
    same_speed_m_s: float | None = None
    problems: Mapping[str, str] = field(default_factory=dict)

    def complete(self, held: str) -> bool:
        """Whether balls and typed speeds are all there, for throws held so (a key of `form.THROWN`)."""
        needed: list[object] = [self.first, self.second]
        if held == "typed":
            needed += [self.first_speed_m_s, self.second_speed_m_s]
        return not self.problems and all(one is not None for one in needed)


def check_claim(form: ClaimForm, system: System = METRIC) -> CheckedClaim:
    """Read the claim's fields.

    Parameters
    ----------
    form : ClaimForm
        As kept.
    system : System
        The units of the messages.

    Returns
    -------
    CheckedClaim
        Without messages while neither ball was given, and without any about speeds while neither speed was: what is
        still empty does not scold.
    """
    if form.no_balls:
        return CheckedClaim()
    problems: dict[str, str] = {}

    def number(name: str) -> float | None:
        return read_field(getattr(form, name), FIELDS[name], problems, system)

    def ball(which: str) -> Ball | None:
        mass, diameter = number(f"{which}_mass_g"), number(f"{which}_diameter_mm")
        return None if mass is None or diameter is None else Ball(mass, diameter)

    first, second = ball("first"), ball("second")
    asked = form.held == "typed" and bool(form.first_speed_m_s.strip() or form.second_speed_m_s.strip())
    speeds = [number(f"{which}_speed_m_s") if asked else None for which in ("first", "second")]
    same = number(SAME.name) if form.held == "same" else None
    return CheckedClaim(first, second, speeds[0], speeds[1], same, problems)
