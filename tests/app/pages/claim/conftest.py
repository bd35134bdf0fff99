"""Claims of the demo's athletes, as typed into its records, and what the tests of the page share."""

import pytest

from app.pages.claim.answers import answer_of
from app.pages.claim.asked import claim_of
from app.records.acts import Edit
from app.show.from_records import case_of
from app.units.systems import METRIC
from tests.app.kept_demo import TODAY, kept

UNKNOWN_SPEED = {"read": False, "reference": {"speed_m_s": ""}}
"""An athlete without any reading or reference speed."""


def kept_claim(code="W01", read=True, reference=None, measures=None, **texts):
    """What is kept of a demo athlete once the claim's fields named are typed."""
    columns = {"reference": reference or {}, "measures": measures or {}}
    return kept(code, *(Edit(f"claim.{name}", text) for name, text in texts.items()), read=read, **columns)


@pytest.fixture
def make_claim():
    """Answer a claim about a demo athlete, with the fields named typed."""

    def make(code="W01", system=METRIC, **typed):
        data = kept_claim(code, **typed)
        case = case_of(data, TODAY, system)
        return answer_of(claim_of(data, case), case)

    return make


def text_of(part) -> str:
    """All the text of a component, in order."""
    if part is None:
        return ""
    if isinstance(part, str | int | float):
        return str(part)
    if isinstance(part, list | tuple):
        return "".join(text_of(one) for one in part)
    return text_of(getattr(part, "children", None))


@pytest.fixture
def text():
    return text_of
