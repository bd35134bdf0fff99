"""Claims of the demo's athletes, typed into its records, and what the tests of the page share."""

import pytest

from app.bind.visit import visit_of
from app.pages.claim.answers import answer_of
from app.pages.claim.asked import claim_of
from app.pages.claim.view import view_of
from app.records.acts import Add, Edit, Hand
from app.show.checks import check_athlete
from app.show.from_records import subject_of
from app.units.systems import METRIC
from tests.app.bind.conftest import app as app


@pytest.fixture
def visited(app):
    """Read the records anew."""
    return lambda code="W01": visit_of("/claim", f"?athlete={code}")


@pytest.fixture
def typed(visited):
    """Type into fields of an athlete's page, and read the records anew."""

    def type_in(code="W01", system=None, **texts):
        visit = visited(code)
        done = [Edit(f"claim.{name}", text) for name, text in texts.items()]
        if done:
            visit.store.act(visit.owner, done, Hand("one"), system or visit.system)
        return visited(code)

    return type_in


@pytest.fixture
def make_claim(typed):
    """Answer a claim about an athlete after typing into the fields named."""

    def make(code="W01", system=METRIC, **texts):
        visit = typed(code, **texts)
        case = subject_of(visit.data, visit.today).case(visit.today, system)
        return answer_of(claim_of(visit.data, case), case)

    return make


@pytest.fixture
def view(visited):
    """Put an answer into words."""

    def put(answer):
        visit = visited(answer.case.code)
        athlete = subject_of(visit.data, visit.today).compared.athlete
        return view_of(answer, check_athlete(athlete, answer.case.system))

    return put


@pytest.fixture
def unread(app, visited):
    """Make an athlete with measures, and without any reading or reference throw; gives the code."""
    store = visited().store
    store.new_athlete("N2", Hand())
    measures = {"day": "2026-01-02", "age_years": "25", "stature_m": "188", "body_mass_kg": "90"}
    acts = [Edit("athlete.sex", "male"), Edit("athlete.handedness", "right"), Add("measures", measures)]
    store.act(visited("N2").owner, acts, Hand("one"), METRIC)
    return "N2"


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
