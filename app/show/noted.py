"""What people have noted of an athlete, as facts in words: pain of a session, and stop signs."""

from collections.abc import Mapping
from typing import Any

from app.records.field_list import OF_SESSIONS
from app.records.tables import StopSign
from model.session_rules import ALL_SIGNS, PAIN_LIMIT, WHEN


def pain_words(body: Any) -> str:
    """Say the pain that was noted of a session: "Pain at the elbow: 2 of 10 while throwing"; empty for none."""
    notes = body.get("notes") if isinstance(body, Mapping) else None
    pain = notes.get("pain") if isinstance(notes, Mapping) else None
    if not isinstance(pain, Mapping):
        return ""
    rated = {when: pain[when] for when in WHEN if type(pain.get(when)) is int and pain[when] > 0}
    of = f"of {PAIN_LIMIT.high:g}"
    told = [f"{one} {of} {OF_SESSIONS[f'noted.{when}'].label.removeprefix('Pain ')}" for when, one in rated.items()]
    site = f"at the {pain['site']}" if pain.get("site") in ("elbow", "shoulder") else "(joint not noted)"
    return f"Pain {site}: {', '.join(told)}" if told else ""


def sign_words(key: str) -> str:
    """What a stop sign is called."""
    return ALL_SIGNS.get(key, key)


def signed_words(row: StopSign) -> str:
    """Say a stop sign, and whether it stands: such as "Stop sign, cleared on 2026-03-05 by AB: swelling"."""
    if row.withdrawn_by:
        state = f"withdrawn on {row.withdrawn_on} by {row.withdrawn_by}"
    elif row.cleared_by:
        state = f"cleared on {row.cleared_on} by {row.cleared_by}"
    else:
        state = "which stands"
    return f"Stop sign, {state}: {sign_words(row.sign)}"
