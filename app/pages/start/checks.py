"""From the typed limits to the model's: every value is checked in its own field."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from app.pages.start.form import COUNTED, LIMITS, StartForm
from app.records.field_list import LIMIT_LABELS
from app.show.checks import message, read_field
from app.show.form_fields import Field
from app.units.systems import METRIC, System
from model.ceilings import BOUNDS, DOUBT_LIMIT, SHARE_LIMIT, Amount, Bound, Ceilings
from model.checks import InputError
from model.start import CERTAINTY_LIMIT

SHOWN_IN = {"N·m": "N·m", "N·m/s": "N·m/s", "N·m·s": "N·m·s", "s": "ms", "m/s": "m/s"}
"""The unit people read, for that of a limit in the model."""

LABELS = LIMIT_LABELS | {"wanted_peak": "Wanted peak at the elbow"}
HINTS = {
    "elbow_peak": "varus torque",
    "shoulder_peak": "internal-rotation torque",
    "rise_rate": "varus torque",
    "area": "under the varus torque of one throw; a very slow throw has more of it",
    "braking": "after release, horizontal-abduction torque; a lighter, faster ball raises it",
    "least_loaded": "elbow, varus torque",
    "most_loaded": "elbow, varus torque",
    "speed": "of every ball",
    "wanted_peak": "varus torque",
}

CERTAINTY = Field("certainty_percent", "Certainty", "%", replace(CERTAINTY_LIMIT, unit=""), "certainty")
DOUBT = Field(
    "doubt_percent",
    "Doubt of the reference speed (±)",
    "%",
    replace(DOUBT_LIMIT, unit=""),
    "relative_sd",
    needed=False,
    hint="one standard deviation; empty: 10 for an estimated one, else 0",
)
TYPED = (*COUNTED, DOUBT.name, CERTAINTY.name)
"""The fields that are typed into, by their names in the form."""


def bound_of(name: str) -> Bound:
    """The model's limit of a field; the wanted peak is counted as the limit on the peak at the elbow."""
    return BOUNDS.get(name, BOUNDS["elbow_peak"])


def fields_of(form: StartForm) -> dict[str, Field]:
    """The fields of a form, each in the unit that was chosen for it.

    Parameters
    ----------
    form : StartForm

    Returns
    -------
    dict of str to Field
        By name, in the order of the page.
    """
    made = {}
    for name in COUNTED:
        accepted, unit = replace(SHARE_LIMIT, unit=""), "%"
        if form.absolute(name):
            accepted = bound_of(name).accepted
            unit = SHOWN_IN[accepted.unit]
        needed = name == "wanted_peak"
        made[name] = Field(name, LABELS[name], unit, accepted, name, needed=needed, hint=HINTS[name])
    return made | {DOUBT.name: DOUBT, CERTAINTY.name: CERTAINTY}


@dataclass(frozen=True)
class CheckedStart:
    """The form, read: what could be, and a message for each field that could not.

    Attributes
    ----------
    ceilings : Ceilings or None
        None if any limit could not be read: one that is left out by a slip must not count as none.
    certainty : float or None
    doubt : float or None
        None if nothing was typed.
    wanted : Amount or None
        None unless the aim asks for it.
    problems : mapping of str to str
    amounts : mapping of str to Amount
        Every limit that could be read, and the wanted peak if it is asked for.
    """

    ceilings: Ceilings | None = None
    certainty: float | None = None
    doubt: float | None = None
    wanted: Amount | None = None
    problems: Mapping[str, str] = field(default_factory=dict)
    amounts: Mapping[str, Amount] = field(default_factory=dict)


def check_start(form: StartForm, system: System = METRIC) -> CheckedStart:
    """Read the fields.

    Parameters
    ----------
    form : StartForm
        As kept.
    system : System
        The units of the messages.

    Returns
    -------
    CheckedStart
    """
    problems: dict[str, str] = {}
    specs = fields_of(form)

    def number(name: str) -> float | None:
        return read_field(getattr(form, name), specs[name], problems, system)

    def amount(name: str) -> Amount | None:
        value = number(name)
        return None if value is None else Amount(value, form.absolute(name))

    limits = {name: amount(name) for name in LIMITS}
    wanted = amount("wanted_peak") if form.aim == "nearest_peak" else None
    certainty, doubt = number(CERTAINTY.name), number(DOUBT.name)
    ceilings = None
    if not problems.keys() & limits.keys():
        try:
            ceilings = Ceilings(**limits)
        except InputError:
            least, most = specs["least_loaded"], specs["most_loaded"].label.lower()
            accepted = f"no more than “{most}”, {form.most_loaded.strip()} {least.unit}"
            problems["least_loaded"] = message(InputError(least.label, form.least_loaded, accepted))
    amounts = {name: one for name, one in (limits | {"wanted_peak": wanted}).items() if one is not None}
    return CheckedStart(ceilings, certainty, doubt, wanted, problems, amounts)
