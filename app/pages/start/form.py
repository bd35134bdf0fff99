"""What was typed and chosen on the Start page, as texts: limits, what 100 % is, how sure, and for which aim."""

from dataclasses import dataclass, fields
from types import SimpleNamespace
from typing import Any

from app.records.field_list import field_of
from app.records.reads import AthleteData
from app.show.from_records import kept_text, setting_text

SHARE, ABSOLUTE = "share", "absolute"  # how a limit is counted: of the reference throw's, or in its own unit
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
    """All that a person has put in on this page. A limit that nobody has touched is that of the example.

    Attributes
    ----------
    elbow_peak, shoulder_peak, rise_rate, area, braking, least_loaded, most_loaded, speed : str
        The limits, as `model.ceilings.BOUNDS` has them; empty for none.
    elbow_peak_in, ... : str
        How each is counted: `SHARE` or `ABSOLUTE`.
    base : str
        What 100 % is: a key of `app.show.hundred.BASES`; empty for what goes without choosing.
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
        What the figure's upright axis shows: "share" or "speed".
    """

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


def form_of(data: AthleteData) -> StartForm:
    """What an athlete's limits and settings say."""
    texts: dict[str, str] = {}
    for name, row in data.limits.items():
        if name in LIMITS:
            texts |= {name: kept_text(row, "limits.amount"), f"{name}_in": row.counted}
    wanted_in = setting_text(data, "start.wanted_peak_counted")
    wanted = setting_text(data, "start.wanted_peak")
    return StartForm(
        **texts,
        base=setting_text(data, "start.base"),
        doubt_percent=kept_text(data.reference, "reference.relative_sd") if data.reference else "",
        certainty_percent=setting_text(data, "start.certainty"),
        aim=setting_text(data, "start.aim"),
        wanted_peak=wanted or (EXAMPLE.wanted_peak if wanted_in == SHARE else ""),
        wanted_peak_in=wanted_in,
        left_out=setting_text(data, "start.left_out"),
        axis=setting_text(data, "start.axis"),
    )


def limit_row(data: AthleteData, name: str) -> Any:
    """The row of a limit; while nobody has touched it, one of the example that stands for it."""
    if name in data.limits:
        return data.limits[name]
    counted = getattr(EXAMPLE, f"{name}_in")
    field = field_of("limits.amount", {"key": name, "counted": counted})
    amount = field.parse(getattr(EXAMPLE, name)).value
    return SimpleNamespace(uid=name, key=name, counted=counted, amount=amount, typed={}, draft={})


def is_example(form: StartForm) -> bool:
    """Whether the limits are still those that the page begins with."""
    return all(getattr(form, name) == getattr(EXAMPLE, name) for name in _of_limits())


def _of_limits() -> list[str]:
    return [one for name in LIMITS for one in (name, f"{name}_in")]
