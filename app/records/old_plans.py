"""Plan files as rows of the records; those of the first version as those of the second.

What was not asked then is not known.
"""

import hashlib
from collections.abc import Mapping
from datetime import date
from typing import Any

from app.records.document import (
    AthleteIn,
    BallIn,
    Document,
    ExchangeError,
    MeasuresIn,
    PlanIn,
    SessionIn,
    StopSignIn,
)
from app.records.old_files import MEASURES, UNNAMED, Made, first_line
from app.records.tables import new_uid, now

PLAN_KIND = "levelpeak build-up"
NOT_IN_BODY = ("kind", "made_with", "code", "invented", "log", "signs", "earlier")
"""What of a plan's file stands in rows of its own, or in none."""

DECISIONS = {"advance": "go_on"}
SIGNS = {"loss of motion": "lost_motion"}


def upgraded(kept: dict[str, Any]) -> dict[str, Any]:
    """Write a plan of version 1 as one of version 2.

    Parameters
    ----------
    kept : dict
        Whatever came under that version; it is read with distrust afterwards.
    """
    added = {
        "order": "",
        "own_early": False,
        "own_first": 1.0,
        "reference": {"kind": "", "on": None, "speed_m_s": None},
        "asked": {"weeks_off": None, "throws_a_week": None, "thrown": "", "cleared": None},
        "first": None,
        "notes": [],
        "signs": [],
        "earlier": [],
        "start_most": None,
        "calendars": 0,
    }
    steps = [one["sessions"] for one in kept["steps"]]
    # it was not kept whether a calendar was made: all sessions may stand in one
    handed_out = [{"mark": kept["mark"], "first": 1, "last": len(kept["log"]) + sum(steps)}]
    return kept | added | {"log": _log(kept["log"], steps), "handed_out": handed_out}


def _log(kept: list[dict[str, Any]], sessions: list[int]) -> list[dict[str, Any]]:
    """The log, each session at its place in the row: as the decisions of then moved it."""
    firsts = [sum(sessions[:i]) for i in range(len(sessions))]
    made, index = [], 0
    for one in kept:
        place = min(one["place"], len(firsts) - 1)  # steps may have been left out by hand since
        index = index if firsts[place] <= index < firsts[place] + sessions[place] else firsts[place]
        made.append(_logged(one, index))
        index += one["decision"] == "advance"
    return made


def _logged(one: dict[str, Any], index: int) -> dict[str, Any]:
    after = one["after"]
    pains = (after["pain_before"], after["pain_after"], None, after["pain_next_morning"])
    pain = dict(zip(("before", "throwing", "hour_after", "next_morning"), pains, strict=True))
    sore = dict.fromkeys(("before", "throwing", "hour_after", "next_morning"))
    notes = {
        "pain": pain | {"site": "unknown" if any(pains) else ""},
        "soreness": sore | {"over_three_days": False, "one_spot": False},
        "signs": [SIGNS.get(sign, sign) for sign in after["signs"]],
        "painkiller": None,
        "speed_held": after["speed_held"],
    }
    return {
        "day": one["day"],
        "index": index,
        "place": one["place"],
        "ball": one["ball"],
        "speed_m_s": one["speed_m_s"],
        "planned": one["throws"],
        "throws": one["throws"],
        "notes": notes,
        "decision": DECISIONS.get(one["decision"], one["decision"]),
        "days_off": one["days_off"],
        "by": one["by"],
        "role": "other",
        "top_speed_m_s": None,
        "was_repeat": False,
        "note": one["note"],
    }


def plan_document(kept: Mapping[str, Any], code: str = "") -> Document:
    """Read a plan's file.

    Parameters
    ----------
    kept : mapping
        The JSON of the file.
    code : str
        Of the athlete, where the file has none.

    Returns
    -------
    Document

    Raises
    ------
    ExchangeError
        If it is no such file.
    """
    with_words = "the plan cannot be read"
    try:
        kept = upgraded(dict(kept)) if kept.get("version") == 1 else kept
        named = str(kept.get("code") or code or UNNAMED)
        uid = _digest(named, kept["mark"])[:23]
        sessions = [
            SessionIn(uid=session_uid(uid, place), position=place, day=date.fromisoformat(one["day"]), body=one)
            for place, one in enumerate(kept["log"])
        ]
        signs = {_sign_uid(named, one): _sign(one, uid, kept["mark"]) for one in [*kept["earlier"], *kept["signs"]]}
        earlier = [_sign_uid(named, one) for one in kept["earlier"]]
        start = kept["calendar"]["first_day"]
        plan = PlanIn(
            uid=uid,
            name=f"Build-up of {kept['made_on']}",
            start=date.fromisoformat(start),
            body=plan_body(kept) | {"earlier": earlier},
            sessions=sessions,
        )
        person = dict(kept["person"])
        measures = MeasuresIn(
            uid=new_uid(),
            day=date.fromisoformat(kept["made_on"]),
            **{name: person[name] for name in MEASURES if person.get(name) is not None},
        )
        own = BallIn(uid=new_uid(), **{name: kept["own_ball"][name] for name in ("mass_kg", "diameter_m")})
        athlete = AthleteIn(
            uid=new_uid(),
            code=named,
            sex=person["sex"],
            handedness=person["handedness"],
            still_growing=True if person.get("still_growing") else None,
            invented=kept.get("invented") is True,
            created=now(),
            own_ball=own,
            measures=[measures],
            plans=[plan],
            stop_signs=[StopSignIn(uid=one, **values) for one, values in signs.items()],
        )
        return Document(athletes=[athlete])
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise ExchangeError(f"{with_words}: it holds what no plan holds ({first_line(error)})") from None


def _digest(*parts: Any) -> str:
    return hashlib.sha1(" ".join(map(str, parts)).encode(), usedforsecurity=False).hexdigest()


def session_uid(plan: str, place: int) -> str:
    """The uid of a session by its plan's and its place: who enters it twice at the same moment enters it once."""
    return _digest(plan, place)[:24]


def plan_body(kept: Mapping[str, Any]) -> Made:
    """What of a plan's file stands in the body of its row: all that has no row of its own."""
    return {name: one for name, one in kept.items() if name not in NOT_IN_BODY}


def _sign_uid(code: str, one: Mapping[str, Any]) -> str:
    entered = one["entered"] if one["session"] is None else None
    return _digest(code, one["sign"], one["since"], one["session"], one["plan"], entered)[:24]


def _sign(one: Mapping[str, Any], plan: str, mark: str) -> Made:
    """A stop sign of a plan's file as a row; that of a session of another plan belongs to none here."""
    own = one["session"] is not None and one["plan"] == mark
    since, session = date.fromisoformat(one["since"]), session_uid(plan, one["session"]) if own else None
    made: Made = {"sign": one["sign"], "since": since, "session": session}
    for act in ("entered", "cleared", "withdrawn"):
        signed = one[act]
        if signed:
            made |= {f"{act}_{name}": signed[name] for name in ("by", "role", "words")}
            made[f"{act}_on"] = date.fromisoformat(signed["on"])
    return made
