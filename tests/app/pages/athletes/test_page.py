"""The page of all athletes: the table, a new athlete, archiving, and what an old tab holds."""

import json
from pathlib import Path

import pytest
from dash import html

from app.bind import ids as bound
from app.bind import new_athlete
from app.bind.visit import visit_of
from app.pages.athletes import ids, old_tab, page
from app.pages.athletes.lines import lines_of
from app.pages.athletes.table import table_html
from app.records.acts import Hand
from app.records.reads import athlete_data
from app.records.stop_signs import Signed, enter
from app.show.invented import INVENTED
from app.units.systems import METRIC
from app.web.server import Config, create_app
from app.web.shell import main_of

TAG = "<a href=x>"
OLD = Path(__file__).parents[2] / "records" / "old"


@pytest.fixture
def demo():
    made = create_app(Config(demo=True))
    with made.server.test_request_context():
        yield made


@pytest.fixture
def empty():
    made = create_app(Config())
    with made.server.test_request_context():
        yield made


def texts(tree) -> list[str]:
    """Every piece of text in a component tree."""
    parts = [tree, *tree._traverse()]
    return [one for one in parts if isinstance(one, str)] + [
        one.children for one in parts if isinstance(getattr(one, "children", None), str)
    ]


def store_data(tree, part: str):
    return next(one.data for one in tree._traverse() if getattr(one, "id", None) == part)


@pytest.fixture
def refreshed(monkeypatch):
    told = []
    for module in (page, new_athlete):
        monkeypatch.setattr(module, "set_props", lambda part, props: told.append((part, props["data"])))
    return told


def test_the_demo_has_a_line_for_each_athlete(demo):
    made = page.layout(visit_of("/", ""))
    written = store_data(made, ids.ATHLETES_TABLE)["html"]
    for code in ("W01", "W06"):
        assert f'<a href="/athlete?athlete={code}">{code}</a>' in written


def test_empty_records_say_what_the_program_does_and_how_to_begin(empty):
    made = page.layout(visit_of("/", ""))
    assert page.DOES[0] in texts(made)
    assert "Take in a file" in texts(made)
    assert not [one for one in made._traverse() if getattr(one, "id", None) == ids.ATHLETES_TABLE]


def test_a_code_stands_escaped(empty):
    visit = visit_of("/", "")
    visit.store.new_athlete(TAG, Hand("t"))
    written = table_html(lines_of(visit.store, visit.today, METRIC))
    assert "<a href=x" not in written
    assert "&lt;a href=x&gt;" in written
    assert 'href="/athlete?athlete=%3Ca+href%3Dx%3E"' in written


def test_a_stop_sign_that_stands_is_said_first_after_the_code(demo):
    visit = visit_of("/", "?athlete=W02")
    enter(visit.store, visit.owner, "swelling", visit.today, Signed("AB", "coach", visit.today), Hand("t"))
    written = table_html(lines_of(visit.store, visit.today, METRIC))
    row = next(one for one in written.split("<tr") if 'data-code="w02"' in one)
    assert "Stop sign stands: swelling" in row
    assert row.index("Stop sign") < row.index("2026-")


def test_a_new_code_makes_an_athlete_and_goes_to_the_measures(empty, refreshed):
    assert page.add(1, None, " B7 ", {}) == ""
    assert refreshed == [(bound.REFRESH, {"go": "/athlete?athlete=B7"})]
    assert visit_of("/", "").store.codes() == ("B7",)


def test_a_code_that_is_taken_or_empty_is_refused_in_words(demo, refreshed):
    assert "W01" in page.add(1, None, "W01", {})
    assert "Code" in page.add(1, None, "", {})
    assert refreshed == []


def test_an_archived_athlete_leaves_the_list_and_comes_back(demo, refreshed):
    visit = visit_of("/", "?athlete=W03")
    page.put_away({"do": "archive", "athlete": visit.owner}, {})
    assert "W03" not in visit.store.codes()
    away = page.layout(visit_of("/", "?archived=1"))
    assert "W03" in store_data(away, ids.ATHLETES_TABLE)["html"]
    assert "Show the archived (1)" in texts(page.layout(visit_of("/", "")))
    page.put_away({"do": "back", "athlete": visit.owner}, {})
    assert "W03" in visit.store.codes()
    assert [told["said"] for _, told in refreshed] == [
        "W03 is archived: kept, and left out of the lists.",
        "W03 is back in the lists.",
    ]


@pytest.mark.parametrize("asked", ["team", "nobody", {"a": 1}])
def test_who_is_no_athlete_cannot_be_archived_and_that_is_said(demo, refreshed, asked):
    page.put_away({"do": "archive", "athlete": asked}, {})
    assert refreshed == [(bound.REFRESH, {"said": "This athlete was erased."})]


def invented_signs(path: str, search: str, of_athlete: bool = True) -> int:
    shown = page.Page(path, "T", lambda _visit: html.P("x"), lambda _a: None, of_athlete=of_athlete)
    return sum(getattr(one, "children", None) == INVENTED for one in main_of(shown, visit_of(path, search)))


def test_every_page_of_the_demo_says_that_it_is_invented(demo):
    assert invented_signs("/x", "") == invented_signs("/x", "", of_athlete=False) == 1


def test_in_other_records_only_the_pages_of_an_invented_athlete_say_so(empty):
    store = visit_of("/", "").store
    store.new_athlete("R1", Hand("t"))
    store.new_athlete("I1", Hand("t"), invented=True)
    assert invented_signs("/x", "?athlete=R1") == 0
    assert invented_signs("/x", "?athlete=I1") == 1
    assert invented_signs("/x", "?athlete=I1", of_athlete=False) == 0
    assert "invented" in table_html(lines_of(store, visit_of("/", "").today, METRIC))


def held() -> dict[str, str]:
    kept = json.loads((OLD / "tab.json").read_text(encoding="utf-8"))
    plan = (OLD / "plan.json").read_text(encoding="utf-8")
    return {"compare": json.dumps(kept["compare"]), "athlete": json.dumps(kept["athlete"]), "plan": plan}


def test_what_an_old_tab_holds_is_told_before_anything_is_kept(empty):
    shown = old_tab.show(held(), {})
    assert any("a new athlete" in one for one in texts(shown))
    assert visit_of("/", "").store.codes() == ()


def test_what_an_old_tab_holds_is_taken_in_and_then_forgotten(empty):
    answer = old_tab.take(1, held(), {})
    store = visit_of("/", "").store
    assert answer["forget"]
    assert "W04" in store.codes()
    assert len(athlete_data(store, "W04").plans) == 1
    assert len(athlete_data(store, "Z9").readings) == len(athlete_data(store, "W05").readings) > 5


def test_what_was_refused_is_not_forgotten(empty):
    store = visit_of("/", "").store
    for code in ("W01", "W04"):  # real ones of the same codes: they are never mixed with invented ones
        store.new_athlete(code, Hand("t"))
    answer = old_tab.take(1, held(), {})
    assert "forget" not in answer
    assert "Not all of it was taken" in answer["trouble"]


def test_an_empty_tab_offers_nothing_and_a_broken_one_says_why(empty):
    assert old_tab.show({}, {}) is None
    assert old_tab.show({"compare": "{}"}, {}) is not None
    assert any("cannot be taken in" in one for one in texts(old_tab.show({"compare": "{}"}, {})))
    assert old_tab.show({"compare": "no JSON"}, {}) is None
