"""Whose arm a page speaks of: the athlete of Compare and Athlete, or an invented thrower who leaves both alone."""

from contextlib import suppress
from dataclasses import dataclass
from typing import Any

from app.demo import Demo
from app.show.kept import form_for, form_of
from app.show.person_words import ALL_MEASURES, measures_missing, person_words, who_words
from app.show.profile_form import ProfileForm
from app.show.throw_form import Form, FormError, demo_form, from_json
from app.show.throw_form_change import opening

OF_COMPARE = "compare"  # the athlete of the Compare form; else the code of an invented thrower
UNREAD = "What was kept from last time could not be read, and is left out here."


@dataclass(frozen=True)
class Whose:
    """The two forms that say who throws.

    Attributes
    ----------
    compared : Form
        Measures and reference throw, as the Compare page has them.
    profile : ProfileForm
        The readings, as the Athlete page has them.
    unread : bool
        Whether something that the browser kept could not be read, and is left out.
    """

    compared: Form
    profile: ProfileForm
    unread: bool = False


def kept_athlete(read: object, demo: Demo, on_demo: bool, now: object = None) -> Whose:
    """Read the athlete that Compare and Athlete keep in the browser.

    Parameters
    ----------
    read : object
        What the browser sent of the two pages' stores, under ``compare`` and ``athlete``.
    demo : Demo
    on_demo : bool
        Whether the program was started on the demo data.
    now : object
        The Compare form as the page has changed it since, if it does.

    Returns
    -------
    Whose
        As the pages would open where nothing is kept.
    """
    kept = read if isinstance(read, dict) else {}
    opened = opening(kept.get("compare"), demo, on_demo)
    compared = opened.form
    if now is not None:
        with suppress(FormError):  # then as it was kept
            compared = from_json(now)
    profile, fine = form_of(kept.get("athlete"), compared, demo, on_demo)
    return Whose(compared, profile, bool(opened.notice) or not fine)


def whose(who: str, read: object, demo: Demo, on_demo: bool) -> Whose:
    """Choose whose arm it is.

    Parameters
    ----------
    who : str
        `OF_COMPARE`, or the code of an invented thrower; anything else counts as the first.
    read : object
        As for `kept_athlete`.
    demo : Demo
    on_demo : bool

    Returns
    -------
    Whose
    """
    athlete = None if who == OF_COMPARE else demo.athlete(who)
    if athlete is None:
        return kept_athlete(read, demo, on_demo)
    return Whose(demo_form(demo, athlete), form_for({}, athlete.athlete, demo, True))


def people(demo: Demo) -> list[dict[str, Any]]:
    """Whose arm can be chosen, as `dmc.Select` takes it."""
    invented = [{"value": a.athlete, "label": f"{a.athlete}, invented: {a.note}"} for a in demo.athletes]
    return [{"value": OF_COMPARE, "label": "athlete of Compare"}, *invented]


__all__ = ["ALL_MEASURES", "measures_missing", "person_words", "who_words"]
