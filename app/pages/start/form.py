"""The form of limits as it was typed: whose arm, the limits, what 100 % is, how sure, and for which aim."""

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace

from app.show import flat_form
from app.show.whose import OF_COMPARE

VERSION = 2  # before it the area was no limit, and an aim stood there from the beginning
SHARE, ABSOLUTE = "share", "absolute"  # how a limit is counted: of the reference throw's, or in its own unit
AXES = {"share": "share", "speed": "speed"}
"""What the figure's upright axis shows: key, and the words of the page."""

AIMS = {
    "own": "the own ball",
    "least_area": "least in all (area)",
    "gentlest_rise": "gentlest rise",
    "longest_loaded": "longest time loaded under the limits",
    "nearest_peak": "nearest to a given peak",
}
"""What can matter most: a key of `model.start_list.AIMS`, and the words of the page."""


@dataclass(frozen=True)
class StartForm:
    """All that a person has put in on this page. The limits it begins with are an example.

    Attributes
    ----------
    who : str
        As `app.show.whose.whose` takes it.
    elbow_peak, shoulder_peak, rise_rate, area, braking, least_loaded, most_loaded, speed : str
        The limits, as `model.ceilings.BOUNDS` has them; empty for none.
    elbow_peak_in, ... : str
        How each is counted: `SHARE` or `ABSOLUTE`.
    base : str
        What 100 % is: a key of `app.pages.map.form.BASES`; empty for what goes without choosing.
    doubt_percent : str
        Doubt of the reference throw's speed; empty for what goes with its kind.
    certainty_percent : str
    aim : str
        What matters most, a key of `AIMS`; empty until a person has said it.
    wanted_peak, wanted_peak_in : str
        The peak at the elbow that is wanted, for the aim that asks for one.
    left_out : str
        Balls of the rack that were unticked, see `app.show.rack.left_out`; the own ball is looked at in any case.
    axis : str
        A key of `AXES`.
    """

    who: str = OF_COMPARE
    elbow_peak: str = "80"
    elbow_peak_in: str = SHARE
    shoulder_peak: str = "80"
    shoulder_peak_in: str = SHARE
    rise_rate: str = "70"
    rise_rate_in: str = SHARE
    area: str = ""
    area_in: str = SHARE
    braking: str = "80"
    braking_in: str = SHARE
    least_loaded: str = ""
    least_loaded_in: str = SHARE
    most_loaded: str = ""
    most_loaded_in: str = SHARE
    speed: str = ""
    speed_in: str = ABSOLUTE
    base: str = ""
    doubt_percent: str = ""
    certainty_percent: str = "90"
    aim: str = ""
    wanted_peak: str = "75"
    wanted_peak_in: str = SHARE
    left_out: str = ""
    axis: str = "share"

    def absolute(self, name: str) -> bool:
        """Whether a limit is counted in its own unit."""
        return getattr(self, f"{name}_in") == ABSOLUTE


NAMES = tuple(field.name for field in fields(StartForm))
COUNTED = tuple(name.removesuffix("_in") for name in NAMES if name.endswith("_in"))
"""The fields whose unit is chosen: the limits, and the wanted peak."""

LIMITS = COUNTED[:-1]
EXAMPLE = StartForm()


def to_json(form: StartForm) -> dict[str, object]:
    """Write a form as plain data, for the browser to keep; see `flat_form.to_json`."""
    return flat_form.to_json(form, VERSION)


def from_json(kept: object) -> StartForm:
    """Read a form that the browser kept; raises `FormError` as `flat_form.from_json`."""
    return flat_form.from_json(kept, StartForm, VERSION)


def read_form(values: Mapping[str, object]) -> StartForm:
    """Read the form from the controls on the page; see `flat_form.read_form`."""
    return flat_form.read_form(values, StartForm)


def is_example(form: StartForm) -> bool:
    """Whether the limits are still those that the page begins with."""
    return all(getattr(form, name) == getattr(EXAMPLE, name) for name in _of_limits())


def with_example(form: StartForm) -> StartForm:
    """Put the limits of the example in the place of what stands there; all else stays."""
    return replace(form, **{name: getattr(EXAMPLE, name) for name in _of_limits()})


def without_limits(form: StartForm) -> StartForm:
    """Empty all limits; how they are counted stays, and all else."""
    return replace(form, **dict.fromkeys(LIMITS, ""))


def _of_limits() -> list[str]:
    return [one for name in LIMITS for one in (name, f"{name}_in")]
