"""The invented demo data: throwers, a rack of balls and a winter block of throws, read from `demo_data/`.

Values are kept as the text that stands in the files: they fill the same fields a person types into and are checked
there.
"""

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from statistics import median
from typing import TypeVar

from app import places

Row = TypeVar("Row", "DemoAthlete", "RackBall", "DemoThrow", "DemoReading")


class DemoError(ValueError):
    """A demo file that cannot be read; the message names file and line."""


@dataclass(frozen=True)
class DemoAthlete:
    """An invented thrower. Every value is text, in the unit of its name; an empty one was left out."""

    athlete: str
    sex: str
    age_years: str
    stature_cm: str
    body_mass_kg: str
    handedness: str
    upper_arm_length_cm: str
    forearm_length_cm: str
    hand_length_cm: str
    own_ball_mass_g: str
    own_ball_diameter_mm: str
    own_speed_m_s: str
    reference_kind: str
    reference_date: str
    note: str


@dataclass(frozen=True)
class RackBall:
    """A ball of the rack: what it is called, mass (g) and diameter (mm), as text."""

    ball: str
    mass_g: str
    diameter_mm: str


@dataclass(frozen=True)
class DemoThrow:
    """One throw of the block: ISO date, thrower's code, ball mass (g) and release speed (m/s), as text."""

    date: str
    athlete: str
    ball_mass_g: str
    speed_m_s: str


@dataclass(frozen=True)
class DemoReading:
    """One radar reading: thrower's code, ball mass (g), speed (m/s), ISO date and asked effort (%), as text."""

    athlete: str
    ball_mass_g: str
    speed_m_s: str
    date: str
    asked_effort: str


@dataclass(frozen=True)
class Demo:
    """The demo data in the order of the files."""

    athletes: tuple[DemoAthlete, ...]
    rack: tuple[RackBall, ...]
    throws: tuple[DemoThrow, ...]

    def athlete(self, code: object) -> DemoAthlete | None:
        """Find a thrower.

        Parameters
        ----------
        code : object
            The code, as the browser sent it.

        Returns
        -------
        DemoAthlete or None
            None if there is none of that code.
        """
        return next((athlete for athlete in self.athletes if athlete.athlete == code), None)

    def last_day(self, code: str) -> tuple[tuple[str, str], ...]:
        """What a thrower threw on the last day of the block: each ball once, with the median of its speeds.

        Parameters
        ----------
        code : str
            The thrower's code.

        Returns
        -------
        tuple of (str, str)
            Ball mass (g) and speed (m/s, one decimal), in the order thrown.
        """
        own = [throw for throw in self.throws if throw.athlete == code]
        day = max((throw.date for throw in own), default="")
        speeds: dict[str, list[float]] = {}
        for throw in own:
            if throw.date == day:
                speeds.setdefault(throw.ball_mass_g, []).append(float(throw.speed_m_s))
        return tuple((ball, f"{median(readings):.1f}") for ball, readings in speeds.items())

    def diameter_of(self, mass_g: str) -> str:
        """Find the diameter of the rack's ball of a mass.

        Parameters
        ----------
        mass_g : str
            Ball mass (g), as the file has it.

        Returns
        -------
        str
            Diameter (mm); empty if the rack has no such ball.
        """
        return next((ball.diameter_mm for ball in self.rack if ball.mass_g == mass_g), "")


@cache
def load_demo(folder: Path | None = None) -> Demo:
    """Read the demo data.

    Parameters
    ----------
    folder : Path, optional
        Where the three files lie; the program's own if left out.

    Returns
    -------
    Demo

    Raises
    ------
    DemoError
        If a file is no table, has other columns than expected or a line with another number of values.
    """
    folder = folder or places.demo_data()
    return Demo(
        athletes=_read(folder / "athletes.csv", DemoAthlete),
        rack=_read(folder / "rack.csv", RackBall),
        throws=_read(folder / "throws.csv", DemoThrow),
    )


@cache
def load_readings(folder: Path | None = None) -> tuple[DemoReading, ...]:
    """Read the radar readings of the demo throwers.

    Parameters
    ----------
    folder : Path, optional
        Where `readings.csv` lies; the program's own if left out.

    Returns
    -------
    tuple of DemoReading
        In the order of the file.

    Raises
    ------
    DemoError
        As `load_demo`.
    """
    return _read((folder or places.demo_data()) / "readings.csv", DemoReading)


def _read(path: Path, row_type: type[Row]) -> tuple[Row, ...]:
    columns = list(row_type.__dataclass_fields__)
    with path.open(encoding="utf-8", newline="") as file:
        try:
            header, *lines = csv.reader(file, strict=True)
        except (csv.Error, ValueError) as error:  # an empty file has no header to unpack
            raise DemoError(f"{path.name}: cannot be read as a table ({error})") from error
    if header != columns:
        raise DemoError(f"{path.name}: columns {header} found; accepted: {columns}")
    for number, line in enumerate(lines, start=2):
        if len(line) != len(columns):
            raise DemoError(f"{path.name}, line {number}: {len(line)} values found; accepted: {len(columns)}")
    return tuple(row_type(*line) for line in lines)
