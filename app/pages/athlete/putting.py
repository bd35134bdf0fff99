"""From pasted readings to acts: new balls come to the team's, readings to the athlete's, those as one act."""

import json
from collections.abc import Sequence
from datetime import date
from typing import Any

from app.pages.athlete.grid import grid_balls
from app.pages.athlete.paste import PastedReading, Place
from app.records.acts import Act, Add, Edit
from app.records.reads import AthleteData
from app.records.tables import LONGEST_UID, new_uid
from app.units.typed import NUMBER, with_point
from model.ball import DEFAULT_DIAMETER_M

MOST_ROWS = 400


def masses_of(data: AthleteData) -> dict[str, float | None]:
    """The balls of the grid in their order: uid to mass (kg)."""
    return {ball.uid: ball.mass_kg for ball in grid_balls(data)}


def acts_of(found: Sequence[PastedReading], day: date) -> tuple[list[Act], list[Act]]:
    """What is to be done: to the team's balls, then to the athlete's readings, which are of `day` unless they say."""
    made: dict[str, str] = {}
    balls: list[Act] = []
    readings: list[Act] = []
    for one in found:
        ball = one.ball or made.get(one.mass_g, "")
        if not ball:
            ball = made[one.mass_g] = new_uid()
            mass = f"{one.mass_g} g" if NUMBER.fullmatch(one.mass_g) else one.mass_g
            balls.append(Add("ball", {"mass_kg": mass}, {"diameter_m": DEFAULT_DIAMETER_M}, ball))
        if one.row:
            readings.append(Edit("reading.speed_m_s", with_point(one.speed), one.row))
            continue
        texts = {
            "speed_m_s": with_point(one.speed),
            "day": one.day or day.isoformat(),
            "asked_effort": with_point(one.effort),
        }
        readings.append(Add("reading", {name: text for name, text in texts.items() if text}, {"ball": ball}))
    return balls, readings


def dropped(sent: object) -> tuple[str, Place | None]:
    """Read what the browser says of a table that was pasted into a cell: its text and its place."""
    try:
        told: Any = json.loads(sent) if isinstance(sent, str) else None
    except ValueError:
        told = None
    if not isinstance(told, dict) or not isinstance(told.get("text"), str):
        return "", None
    rows = told.get("rows")
    given = [row for row in rows if isinstance(row, dict)] if isinstance(rows, list) else []
    balls = tuple(_uid(row.get("ball")) for row in given[:MOST_ROWS])
    cells = tuple(
        tuple(map(_uid, row["cells"])) if isinstance(row.get("cells"), list) else () for row in given[:MOST_ROWS]
    )
    return told["text"], Place(balls, cells)


def _uid(sent: object) -> str:
    return sent[:LONGEST_UID] if isinstance(sent, str) else ""
