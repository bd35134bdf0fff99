"""What is typed after a session and not kept yet: the browser keeps it under the plan and session it was typed for.

The fields say beside them which session they are of (`key_of`). `assets/buildup.js` writes them down under it as they
change, and lets go of those of sessions before it: they are in the log by then.
"""

from dataclasses import asdict, dataclass
from typing import Any

from app import flat_form
from app.buildup.edits import LONGEST_INITIALS
from app.buildup.plan_parts import HELD, PAINS
from app.buildup.record import Record
from app.compare.form import FormError
from model.course import DECISIONS
from model.soreness import STOP_SIGNS

VERSION = 1
BETWEEN = "|"  # signs, as they are kept
TEXTS = ("log_day", "days_off", "by", "note")  # names of the fields that are neither pain nor choice


@dataclass(frozen=True)
class LogForm:
    """The fields after a session, as typed.

    Attributes
    ----------
    before, after, morning : str
        Pain, by the keys of `PAINS`.
    held, decision : str
        Keys of `HELD` and `DECISIONS`; empty for none.
    signs : str
        Of `STOP_SIGNS`, with `BETWEEN` between them.
    log_day, days_off, by, note : str
    """

    before: str = ""
    after: str = ""
    morning: str = ""
    held: str = ""
    signs: str = ""
    decision: str = ""
    log_day: str = ""
    days_off: str = ""
    by: str = ""
    note: str = ""


def key_of(record: Record) -> str:
    """Say which session is next: the plan's mark, and how many were logged before, with a slash between.

    Parameters
    ----------
    record : Record

    Returns
    -------
    str
    """
    return f"{record.mark}/{len(record.log)}"


def _kept_for(record: Record, kept: object) -> LogForm | None:
    """What was typed for the session that is next; None if nothing was, or nothing that can be read."""
    try:
        return flat_form.from_json(kept.get(key_of(record)) if isinstance(kept, dict) else None, LogForm, VERSION)
    except FormError:
        return None


def taken_out(before: Record | None, now: Record | None) -> dict[str, object] | None:
    """Write the last line of a log as its fields had it, where a change took it out of the log.

    Parameters
    ----------
    before, now : Record or None
        The plan before the change and after it.

    Returns
    -------
    dict or None
        As the browser keeps what is typed; None where no line was taken out.
    """
    if before is None or now is None or before.mark != now.mark or len(now.log) != len(before.log) - 1:
        return None
    one = before.log[-1]
    after = one.after
    form = LogForm(
        before=str(after.pain_before),
        after=str(after.pain_after),
        morning="" if after.pain_next_morning is None else str(after.pain_next_morning),
        held={True: "yes", False: "no", None: ""}[after.speed_held],
        signs=BETWEEN.join(after.signs),
        decision=one.decision,
        log_day=one.day.isoformat(),
        days_off=str(one.days_off),
        by=one.by,
        note=one.note,
    )
    return {key_of(now): flat_form.to_json(form, VERSION)}


def fields_of(form: LogForm) -> dict[str, Any]:
    """Give each field what stands in it; a choice that is none is left open.

    Parameters
    ----------
    form : LogForm

    Returns
    -------
    dict
        ``pains``, ``held``, ``signs``, ``decision`` and ``texts``, as the page's callbacks have them.
    """
    typed = asdict(form)
    return {
        "pains": [typed[name] for name in PAINS],
        "held": form.held if form.held in HELD else "",
        "signs": [sign for sign in STOP_SIGNS if sign in form.signs.split(BETWEEN)],
        "decision": form.decision if form.decision in DECISIONS else None,
        "texts": {name: typed[name] for name in TEXTS},
    }


def shown_for(record: Record | None, stands: object, opened: object, kept: object, by: object) -> LogForm | None:
    """Say what the fields are to show.

    Parameters
    ----------
    record : Record or None
        The plan that is shown.
    stands : object
        Which session the fields are of, as `key_of` has it.
    opened : object
        What was just taken out of the log, as `taken_out` has it; None if nothing was.
    kept : object
        What the browser keeps.
    by : object
        The initials that stand there: they stay for the next session of the same plan.

    Returns
    -------
    LogForm or None
        None if the fields stay as they are.
    """
    if record is None:
        return None
    found = _kept_for(record, opened)
    if found is not None or stands == key_of(record):
        return found
    found = _kept_for(record, kept)
    if found is not None:
        return found
    same = isinstance(stands, str) and stands.startswith(f"{record.mark}/")
    return LogForm(by=by[:LONGEST_INITIALS] if same and isinstance(by, str) else "")
