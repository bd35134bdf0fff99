"""What the page's buttons do to the records: the balls change places, or one is taken from the rack."""

from dataclasses import asdict
from typing import Any

from app.bind.edit import Doing
from app.bind.visit import Visit
from app.pages.claim.form import PATHS, form_of, swapped, with_usual
from app.show.from_records import case_of, edit_of
from app.show.rack import picked_texts

SWAP, BALL = "claim/swap", "claim/ball"


def swap(visit: Visit, _: str, __: Any) -> Doing:
    """Let the two balls change places, each with its typed speed."""
    if visit.data is None:
        return Doing()
    case = case_of(visit.data, visit.today, visit.system)
    form = with_usual(form_of(visit.data), case)
    there = asdict(swapped(form))
    return Doing([edit_of(PATHS[name], text) for name, text in there.items() if text != getattr(form, name)])


def take_ball(_: Visit, which: str, picked: Any) -> Doing:
    """Put a ball of the rack into the fields of the first or the second."""
    texts = picked_texts(picked)
    if which not in ("first", "second") or texts is None:
        return Doing()
    names = (f"{which}_mass_g", f"{which}_diameter_mm")
    return Doing([edit_of(PATHS[name], text) for name, text in zip(names, texts, strict=True)])
