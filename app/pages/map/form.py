"""What was chosen and typed on the Map page, as texts: what is drawn, over which range, and the throw looked at."""

from dataclasses import dataclass

from app.records.field_list import SETTINGS
from app.records.reads import AthleteData
from app.show.from_records import setting_text
from model.channels import READINGS

SHOWN_READINGS = ("varus", "internal_rotation", *(key for key, reading in READINGS.items() if reading.braking))
"""Elbow, shoulder, and the braking group."""

PATHS = {
    "reading": "map.reading",
    "readout": "map.readout",
    "of": "map.of",
    "axis": "map.axis",
    "mass_from_g": "map.mass_from_kg",
    "mass_to_g": "map.mass_to_kg",
    "speed_from_m_s": "map.speed_from_m_s",
    "speed_to_m_s": "map.speed_to_m_s",
    "ball_mass_g": "map.ball_mass_kg",
    "speed_m_s": "map.ball_speed_m_s",
}
"""The athlete's setting of each part."""

RANGES = ("mass_from_g", "mass_to_g", "speed_from_m_s", "speed_to_m_s")


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
        How the mass axis is divided, as Plotly calls it.
    mass_from_g, mass_to_g, speed_from_m_s, speed_to_m_s : str
        Ends of the axes; empty for those that fit the athlete's balls and speeds.
    ball_mass_g, speed_m_s : str
        The throw that is looked at.
    """

    reading: str = "varus"
    readout: str = "peak"
    of: str = ""
    axis: str = str(SETTINGS["map.axis"].default)
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


def form_of(data: AthleteData) -> MapForm:
    """What an athlete's settings say."""
    return MapForm(**{name: setting_text(data, path) for name, path in PATHS.items()})
