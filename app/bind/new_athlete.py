"""A new athlete, by the code alone."""

from typing import Any

from dash import set_props

from app.bind import ids
from app.bind.visit import address, hand_of, the_store
from app.records.acts import TEAM
from app.records.faults import RecordsError
from app.records.fields import in_words
from model.checks import InputError

FIRST_PAGE_OF_NEW = "/athlete"


def make_athlete(code: str, here: Any) -> str:
    """Make an athlete and go to the page of their measures; what is wrong with the code, empty if nothing is."""
    try:
        the_store().new_athlete(code, hand_of(here, None, None, TEAM))
    except InputError as error:
        return in_words(error)
    except RecordsError as error:
        return str(error)
    set_props(ids.REFRESH, {"data": {"go": address(FIRST_PAGE_OF_NEW, code.strip())}})
    return ""
