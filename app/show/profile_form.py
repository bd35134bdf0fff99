"""The speed profile's form as it was typed: the athlete's balls, radar readings and choices, nothing worked out.

It is what the browser keeps and sends, so it is read with distrust and changed only by pure functions. The readings
belong to an athlete's code; `kept` holds the forms of several.
"""

from dataclasses import dataclass

from app.show.throw_form import DEFAULT_DIAMETER


@dataclass(frozen=True)
class Cell:
    """One radar reading, as typed: speed (m/s), day and asked effort (%); the last two may be left out. Of one that is
    kept, the uid of its row; and "yes" if the number is the release speed already, and no radar's.

    Without a speed there is no reading: an emptied cell takes its day and effort with it.
    """

    speed: str = ""
    date: str = ""
    effort: str = ""
    row: str = ""
    release: str = ""

    @property
    def blank(self) -> bool:
        """Whether there is no reading."""
        return not self.speed.strip()


@dataclass(frozen=True)
class BallRow:
    """One ball and its readings, as typed."""

    key: str
    mass_g: str = ""
    diameter_mm: str = DEFAULT_DIAMETER
    cells: tuple[Cell, ...] = ()

    @property
    def empty(self) -> bool:
        """Whether it has no reading."""
        return all(cell.blank for cell in self.cells)


@dataclass(frozen=True)
class ProfileForm:
    """All that belongs to an athlete's speed profile.

    Attributes
    ----------
    rows : tuple of BallRow
        The athlete's balls.
    own_speed_m_s : str
        Typed full speed with the own ball; empty for the reference throw's.
    basis : str
        What the profile works from: a key of `model.speed_readings.BASES`.
    radar, radar_distance_m, radar_angle_deg : str
        "on" for the radar correction, and where the radar stands.
    joint : str
        Whose level points are shown: "varus" or "internal_rotation".
    cap_joint, cap_readout, cap_share, cap_of : str
        What the speed caps hold level, the share of full speed (%), and of which full speed: "profile" or "reference".
    throw_ball, throw_distance_m, throw_height_m, throw_angle_deg : str
        A throw prescribed as a distance: key of its ball (empty for the own one), and how it is thrown.
    """

    rows: tuple[BallRow, ...] = ()
    own_speed_m_s: str = ""
    basis: str = "all"
    radar: str = ""
    radar_distance_m: str = "2"
    radar_angle_deg: str = "0"
    joint: str = "varus"
    cap_joint: str = "varus"
    cap_readout: str = "peak"
    cap_share: str = "80"
    cap_of: str = "profile"
    throw_ball: str = ""
    throw_distance_m: str = "40"
    throw_height_m: str = "1.8"
    throw_angle_deg: str = "25"

    @property
    def untouched(self) -> bool:
        """Whether there is no reading."""
        return all(row.empty for row in self.rows)

    def place(self, key: str) -> int:
        """Find a ball's place among the rows; -1 if it is not there."""
        return next((i for i, row in enumerate(self.rows) if row.key == key), -1)
