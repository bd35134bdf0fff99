"""Files and forms from before there were records: a teaching session, what a browser's tab holds.

They are read into the same document as everything else, and know an athlete by the code alone.
"""

import json
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

from pydantic import ValidationError

from app.demo import load_demo
from app.records.document import (
    AthleteIn,
    BallIn,
    ComparisonIn,
    Document,
    ExchangeError,
    LessonIn,
    MeasuresIn,
    ReadingIn,
    ReferenceIn,
    SettingIn,
    TeamIn,
    ThrowIn,
)
from app.records.field_list import SETTINGS, as_kept, field_of
from app.records.tables import new_uid, now
from model.checks import InputError

SESSION_KIND = "levelpeak session"
UNNAMED = "unnamed"
SECOND = "second thrower"

KINDS = {"measured": "measured", "before": "before_injury", "estimated": "estimated"}
MEASURES = {
    "age_years": "age_years",
    "stature_m": "stature_cm",
    "body_mass_kg": "body_mass_kg",
    "upper_arm_length_m": "upper_arm_length_cm",
    "forearm_length_m": "forearm_length_cm",
    "hand_length_m": "hand_length_cm",
}
HELD_BY = {"speed": "speed_m_s", "clock": "clock_percent", "profile": "share_percent"}
IN_A_PROFILE = (
    "own_speed_m_s",
    "basis",
    "radar_distance_m",
    "radar_angle_deg",
    "joint",
    "cap_joint",
    "cap_readout",
    "cap_share",
    "cap_of",
    "throw_distance_m",
    "throw_height_m",
    "throw_angle_deg",
)
"""The fields of an old form that are settings, under the same names."""

Made = dict[str, Any]


class _Reader:
    """Reads typed texts into a row: values, texts that say more than they, and texts that were refused."""

    def __init__(self, table: str) -> None:
        self.table = table
        self.values: Made = {"uid": new_uid(), "typed": {}, "draft": {}}

    def read(self, name: str, text: Any, row: Mapping[str, Any] | None = None) -> None:
        """Read a text; what is none counts as empty."""
        if not isinstance(text, str) or not text.strip():
            return
        try:
            parsed = field_of(f"{self.table}.{name}", row).parse(text)
        except InputError:
            self.values["draft"][name] = text[:200]
            return
        self.values[name] = parsed.value
        if parsed.typed:
            self.values["typed"][name] = parsed.typed


def session_document(kept: Mapping[str, Any], today: date) -> Document:
    """Read a teaching session's file: the session, and the athlete that it brings.

    Parameters
    ----------
    kept : mapping
        The JSON of the file.
    today : date
        The day of readings that have none.

    Returns
    -------
    Document

    Raises
    ------
    ExchangeError
        If it is no such file.
    """
    try:
        session, brought = dict(kept["session"]), kept.get("brought")
        athletes, balls = [], []
        if brought is not None:
            code = str(brought["compare"]["athlete"].get("code") or "").strip()
            made = forms_document(brought["compare"], {code: brought["athlete"]}, today)
            athletes, balls = made.athletes, made.team.balls
        session.pop("who", None)
        whose = athletes[0].uid if athletes else None
        name = kept.get("name") or f"Session of {today}"
        lesson = LessonIn(uid=new_uid(), athlete=whose, name=name, body=session)
        return Document(athletes=athletes, team=TeamIn(balls=balls, lessons=[lesson]))
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise ExchangeError(f"the session cannot be read: it holds what none holds ({first_line(error)})") from None


def forms_document(
    compared: Mapping[str, Any], profiles: Mapping[str, Mapping[str, Any]], today: date, invented: bool = False
) -> Document:
    """Read what a browser's tab of the old version holds.

    Parameters
    ----------
    compared : mapping
        The form of Compare, as JSON.
    profiles : mapping of str to mapping
        The forms of Athlete, by code.
    today : date
        The day of readings that have none.
    invented : bool
        Whether the tab was on the demo data.

    Returns
    -------
    Document
        The athlete of Compare first, with the comparison; then those of other codes.

    Raises
    ------
    ExchangeError
        If it is no such form.
    """
    try:
        code = str(compared["athlete"].get("code") or "").strip()
        balls: dict[str, BallIn] = {}
        invented = invented or of_the_demo(compared["athlete"])
        first = _athlete(compared["athlete"], code or UNNAMED, today, invented)
        other = compared.get("other") or {}
        second = None
        if any(str(text).strip() for text in other.values()):
            named = str(other.get("code") or "").strip() or SECOND
            second = _athlete(other, named, today, invented)
        _compared(first, second, compared)
        made = [first, *([second] if second is not None else [])]
        for whose, profile in profiles.items():
            mine = first if whose == code else next((one for one in made if one["code"] == whose), None)
            if mine is None:
                mine = _athlete({}, whose or UNNAMED, today, invented)
                made.append(mine)
            _profile(mine, profile, balls, today)
        athletes = [AthleteIn(**one) for one in made if len(one) > _BARE]
        return Document(athletes=athletes, team=TeamIn(balls=list(balls.values())))
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise ExchangeError(f"what was kept cannot be read ({first_line(error)})") from None


def of_the_demo(form: Mapping[str, Any]) -> bool:
    """Whether the fields of an athlete are those of an invented one: such files do not say so themselves."""
    demo = load_demo().athlete(form.get("code"))
    return demo is not None and (demo.sex, demo.age_years) == (form.get("sex"), form.get("age_years"))


def first_line(error: Exception) -> str:
    """What is wrong, in one line."""
    if isinstance(error, ValidationError):
        one = error.errors(include_url=False, include_input=False)[0]
        return f"{'.'.join(map(str, one['loc']))}: {one['msg'].removeprefix('Value error, ')}"
    return str(error).splitlines()[0][:80] if str(error) else type(error).__name__


def _athlete(form: Mapping[str, Any], code: str, today: date, invented: bool) -> Made:
    made: Made = {"uid": new_uid(), "code": code, "created": now(), "invented": invented}
    for name in ("sex", "handedness"):
        if form.get(name) in field_of(f"athlete.{name}").choices:
            made[name] = form[name]
    if form.get("still_growing"):
        made["still_growing"] = True
    measures = _Reader("measures")
    for name, old in MEASURES.items():
        measures.read(name, form.get(old))
    if len(measures.values) > len(_Reader("measures").values) or measures.values["draft"]:
        made["measures"] = [MeasuresIn(day=today, **measures.values)]
    return made


_BARE = len(_athlete({}, "", date(2000, 1, 1), False))
"""How much is said of an athlete of whom nothing is known."""


def _compared(first: Made, second: Made | None, compared: Mapping[str, Any]) -> None:
    """The comparison, and what its reference throw says of the athlete: own ball and reference."""
    throws, uids = [], {}
    reference = next((one for one in compared["throws"] if one["key"] == compared["reference"]), None)
    for place, one in enumerate(compared["throws"]):
        hold = one.get("hold", "speed") if one.get("hold", "speed") in HELD_BY else "speed"
        row = _Reader("throw")
        row.read("mass_kg", one["ball_mass_g"])
        row.read("diameter_m", one["ball_diameter_mm"])
        row.read("number", one.get(HELD_BY[hold]), {"hold": hold})
        if row.values.get("mass_kg") is None and "number" not in row.values and not row.values["draft"]:
            continue
        thrower = second["uid"] if second is not None and one.get("by") == "other" else None
        uids[one["key"]] = row.values["uid"]
        throws.append(ThrowIn(position=place, hold=hold, thrower=thrower, **row.values))
    kind = KINDS.get(str(compared["kind"]), "estimated")
    day = _day(compared.get("date"))
    if reference is not None and reference["key"] in uids:
        _reference(first, reference, kind, day)
    if not throws:
        return
    kept = _Reader("comparison")
    kept.read("above", compared.get("above"), {"quantity": compared["quantity"]})
    for name in ("quantity", "align", "scale"):
        if compared.get(name) in field_of(f"comparison.{name}").choices:
            kept.values[name] = compared[name]
    kept.values |= {name: uids.get(compared.get(name)) for name in ("reference", "headline")}
    comparison = ComparisonIn(name="Compare", kind=kind, day=day, throws=throws, **kept.values)
    first["comparisons"] = [comparison]


def _reference(made: Made, throw: Mapping[str, Any], kind: str, day: date | None) -> None:
    ball = _Reader("ball")
    ball.read("mass_kg", throw["ball_mass_g"])
    ball.read("diameter_m", throw["ball_diameter_mm"])
    if ball.values.get("mass_kg") is None:
        return
    made["own_ball"] = BallIn(**ball.values)
    speed = _Reader("reference")
    speed.read("speed_m_s", throw.get("speed_m_s"))
    if throw.get("hold", "speed") == "speed" and speed.values.get("speed_m_s") is not None:
        made["references"] = [ReferenceIn(kind=kind, day=day, ball=made["own_ball"].uid, **speed.values)]


def _profile(made: Made, profile: Mapping[str, Any], balls: dict[str, BallIn], today: date) -> None:
    """Readings, balls and settings of a form of Athlete."""
    readings, keys = [], {}
    for row in profile["rows"]:
        ball = _ball(made, row, balls)
        if ball is None:
            continue
        keys[row["key"]] = ball.uid
        readings += list(_readings(row["cells"], ball, today))
    if readings:
        made["readings"] = readings
    settings = []
    for name in IN_A_PROFILE:
        field, text = SETTINGS[f"profile.{name}"], str(profile.get(name, ""))
        try:
            parsed = field.parse(text)
        except InputError:
            settings.append(SettingIn(uid=new_uid(), key=field.path, draft={"value": text[:200]}))
            continue
        if parsed.value not in (None, field.default):
            typed = {"value": parsed.typed} if parsed.typed else {}
            settings.append(SettingIn(uid=new_uid(), key=field.path, value=as_kept(field, parsed.value), typed=typed))
    if profile.get("radar") == "on":
        settings.append(SettingIn(uid=new_uid(), key="profile.radar", value=True))
    if profile.get("throw_ball") in keys:
        settings.append(SettingIn(uid=new_uid(), key="profile.throw_ball", value=keys[profile["throw_ball"]]))
    if settings:
        made["settings"] = settings


def _ball(made: Made, row: Mapping[str, Any], balls: dict[str, BallIn]) -> BallIn | None:
    read = _Reader("ball")
    read.read("mass_kg", row["mass_g"])
    read.read("diameter_m", row["diameter_mm"])
    if read.values.get("mass_kg") is None and not any(cell["speed"].strip() for cell in row["cells"]):
        return None
    own = made.get("own_ball")
    mass = read.values.get("mass_kg")
    if own is not None and mass is not None and abs(own.mass_kg - mass) < 1e-6:
        return BallIn(**own.__dict__)
    key = json.dumps([mass, read.values.get("diameter_m"), read.values["draft"]])
    if key not in balls:
        balls[key] = BallIn(position=len(balls), **read.values)
    return balls[key]


def _readings(cells: list[Mapping[str, Any]], ball: BallIn, today: date) -> Iterator[ReadingIn]:
    for cell in cells:
        if not cell["speed"].strip():
            continue
        row = _Reader("reading")
        row.read("speed_m_s", cell["speed"])
        row.read("asked_effort", cell["effort"])
        yield ReadingIn(ball=ball.uid, day=_day(cell["date"]) or today, **row.values)


def _day(text: object) -> date | None:
    try:
        return field_of("reading.day").parse(str(text or "")).value if str(text or "").strip() else None
    except InputError:
        return None
