"""The map's form as it was typed: what is drawn, over which range, and the throw that is looked at."""

from collections.abc import Mapping
from dataclasses import dataclass, fields

from app.show import flat_form
from model.channels import READINGS

VERSION = 1

SHOWN_READINGS = ("varus", "internal_rotation", *(key for key, reading in READINGS.items() if reading.braking))
"""Elbow, shoulder, and the braking group."""


AXES = {"log": "even ratios", "linear": "even masses"}
"""How the mass axis is divided: as Plotly calls it, and the words of the page."""


@dataclass(frozen=True)
class MapForm:
    """All that a person has put in on this page.

    Attributes
    ----------
    reading, readout : str
        The quantity: a key of `SHOWN_READINGS` and one of `model.quantity.READOUTS`.
    of : str
        What 100 % is: a key of `BASES`; empty for what goes without choosing.
    axis : str
        A key of `AXES`.
    mass_from_g, mass_to_g, speed_from_m_s, speed_to_m_s : str
        Ends of the axes; empty for those that fit the athlete's balls and speeds.
    ball_mass_g, speed_m_s : str
        The throw that is looked at.
    """

    reading: str = "varus"
    readout: str = "peak"
    of: str = ""
    axis: str = "log"
    mass_from_g: str = ""
    mass_to_g: str = ""
    speed_from_m_s: str = ""
    speed_to_m_s: str = ""
    ball_mass_g: str = ""
    speed_m_s: str = ""

    @property
    def pointless(self) -> bool:
        """Whether no throw is looked at."""
        return not self.ball_mass_g.strip() and not self.speed_m_s.strip()


NAMES = tuple(field.name for field in fields(MapForm))
RANGES = ("mass_from_g", "mass_to_g", "speed_from_m_s", "speed_to_m_s")


def to_json(form: MapForm) -> dict[str, object]:
    """Write a form as plain data, for the browser to keep; see `flat_form.to_json`."""
    return flat_form.to_json(form, VERSION)


def from_json(kept: object) -> MapForm:
    """Read a form that the browser kept; raises `FormError` as `flat_form.from_json`."""
    return flat_form.from_json(kept, MapForm, VERSION)


def read_form(values: Mapping[str, object]) -> MapForm:
    """Read the form from the controls on the page; see `flat_form.read_form`."""
    return flat_form.read_form(values, MapForm)
