"""The claim's form as it was typed: two balls, a joint, whose arm, how both are thrown, more or less."""

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace

from app.show import flat_form
from app.show.rack import picked_texts
from app.show.throw_form import DEFAULT_DIAMETER
from app.show.whose import OF_COMPARE

VERSION = 1

JOINTS = {
    "varus": "the elbow",
    "internal_rotation": "the shoulder",
    "horizontal_abduction": "the shoulder, in braking,",
}
"""What is loaded, as a claim calls it, by the reading it is read from."""

WAYS = {"more": "more", "less": "less"}
"""Which way the claim goes: key, and the words of the page."""

THROWN = {
    "profile": "each at full speed",
    "same": "both at the same speed",
    "typed": "each at a typed speed",
}
"""How the two throws are held: key, and the words of the page."""


@dataclass(frozen=True)
class ClaimForm:
    """All that a person has put in on this page.

    Attributes
    ----------
    who : str
        As `app.show.whose.whose` takes it.
    reading, way, thrown : str
        Keys of `JOINTS`, `WAYS` and `THROWN`.
    first_mass_g, first_diameter_mm, first_speed_m_s : str
        The first ball and its typed speed: of it, more or less is claimed.
    second_mass_g, second_diameter_mm, second_speed_m_s : str
        The one it is compared with.
    same_speed_m_s : str
        Speed of both; empty for full speed with the own ball.
    """

    who: str = OF_COMPARE
    reading: str = "varus"
    way: str = "more"
    thrown: str = "profile"
    first_mass_g: str = ""
    first_diameter_mm: str = DEFAULT_DIAMETER
    first_speed_m_s: str = ""
    second_mass_g: str = ""
    second_diameter_mm: str = DEFAULT_DIAMETER
    second_speed_m_s: str = ""
    same_speed_m_s: str = ""

    @property
    def no_balls(self) -> bool:
        """Whether neither ball was given."""
        return not self.first_mass_g.strip() and not self.second_mass_g.strip()

    @property
    def more(self) -> bool:
        """Whether more is claimed of the first ball."""
        return self.way != "less"

    @property
    def held(self) -> str:
        """How the throws are held: a key of `THROWN`."""
        return self.thrown if self.thrown in THROWN else "profile"


NAMES = tuple(field.name for field in fields(ClaimForm))


def to_json(form: ClaimForm) -> dict[str, object]:
    """Write a form as plain data, for the browser to keep; see `flat_form.to_json`."""
    return flat_form.to_json(form, VERSION)


def from_json(kept: object) -> ClaimForm:
    """Read a form that the browser kept; raises `FormError` as `flat_form.from_json`."""
    return flat_form.from_json(kept, ClaimForm, VERSION)


def read_form(values: Mapping[str, object]) -> ClaimForm:
    """Read the form from the controls on the page; see `flat_form.read_form`."""
    return flat_form.read_form(values, ClaimForm)


def swapped(form: ClaimForm) -> ClaimForm:
    """Let the two balls change places, each with its typed speed.

    Parameters
    ----------
    form : ClaimForm

    Returns
    -------
    ClaimForm
    """
    return replace(
        form,
        first_mass_g=form.second_mass_g,
        first_diameter_mm=form.second_diameter_mm,
        first_speed_m_s=form.second_speed_m_s,
        second_mass_g=form.first_mass_g,
        second_diameter_mm=form.first_diameter_mm,
        second_speed_m_s=form.first_speed_m_s,
    )


def with_ball(form: ClaimForm, which: str, picked: object) -> ClaimForm:
    """Put a ball of the rack into the fields of one of the two.

    Parameters
    ----------
    form : ClaimForm
    which : str
        'first' or 'second'.
    picked : object
        What the browser sent, as `app.show.rack.rack_of` has it.

    Returns
    -------
    ClaimForm
        The same form if that is no ball.
    """
    texts = picked_texts(picked)
    if which not in ("first", "second") or texts is None:
        return form
    return replace(form, **{f"{which}_mass_g": texts[0], f"{which}_diameter_mm": texts[1]})
