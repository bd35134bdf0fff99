"""What the page's buttons do to the records: the balls change places, or one is taken from the rack."""

from typing import Any

from app.bind.edit import Doing
from app.bind.visit import Visit
from app.pages.claim.asked import BALLS, ball_paths, speed_path, usual_values
from app.records.field_list import field_of
from app.show.from_records import case_of
from app.show.kept import edit_of, setting_text
from app.show.rack import picked_texts

SWAP, BALL = "claim/swap", "claim/ball"


def swap(visit: Visit, _: str, __: Any) -> Doing:
    """Let the two balls change places, each with its typed speed."""
    data = visit.data
    if data is None:
        return Doing()
    usual = usual_values(data, case_of(data, visit.today, visit.system))
    first, second = ([*ball_paths(which), speed_path(which)] for which in BALLS)
    pairs = [*zip(first, second, strict=True), *zip(second, first, strict=True)]
    texts = {here: setting_text(data, here) or field_of(here).kept(usual.get(here)) for here, _ in pairs}
    return Doing([edit_of(there, texts[here]) for here, there in pairs if texts[here] != setting_text(data, there)])


def take_ball(_: Visit, which: str, picked: Any) -> Doing:
    """Put a ball of the rack into the fields of the first or the second."""
    texts = picked_texts(picked)
    if which not in BALLS or texts is None:
        return Doing()
    return Doing([edit_of(path, text) for path, text in zip(ball_paths(which), texts, strict=True)])
