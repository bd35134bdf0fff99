"""Plans of the first version as those of the second: what was not asked then is not known."""

from typing import Any

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
