"""What becomes of a text that is typed into a field."""

from types import SimpleNamespace

import pytest
from dash.exceptions import PreventUpdate

from app.bind import edit, ids
from app.bind.edit import as_text, conflict, dom_id, keep_edit
from app.bind.visit import hand_of, visit_of
from app.records.acts import TEAM, Hand


def field(visit, path: str, row=None, units: str = "metric") -> dict[str, str]:
    return ids.field_id(visit.owner, path, row.uid if row else "", units)


def test_what_is_typed_is_on_the_next_page_that_is_made(visit):
    part = field(visit, "measures.stature_m", visit.data.measures[-1])
    kept = keep_edit(part, "181.5", Hand("one"))
    assert kept.error is None
    assert kept.acted.done
    assert visit_of("/athlete", "?athlete=W01").data.measures[-1].stature_m == pytest.approx(1.815)


def test_a_text_means_what_it_says_in_the_units_of_its_field(visit):
    part = field(visit, "measures.body_mass_kg", visit.data.measures[-1], "customary")
    keep_edit(part, "200", Hand("one"))
    # 1 lb = 0.45359237 kg
    assert visit_of("/athlete", "?athlete=W01").data.measures[-1].body_mass_kg == pytest.approx(90.718474)


def test_a_refused_text_is_told_with_what_is_accepted_and_stands_there_again(visit):
    row = visit.data.measures[-1]
    kept = keep_edit(field(visit, "measures.stature_m", row), "18", Hand("one"))
    assert kept.error.startswith("Stature: “18” given; accepted: ")
    assert not kept.acted.done
    again = visit_of("/athlete", "?athlete=W01").data.measures[-1]
    assert again.stature_m == row.stature_m
    assert again.draft["stature_m"] == "18"


def test_a_field_that_another_tab_has_written_since_asks_which_shall_stand(visit, here):
    row = visit.data.measures[-1]
    part = field(visit, "measures.stature_m", row)
    seen = {visit.owner: visit.data.version}
    keep_edit(part, "181", Hand("other", by="KL"))
    kept = keep_edit(part, "182", hand_of(here, seen, None, visit.owner))
    words = kept.error.children[0]
    assert "KL has written “181”" in words
    assert [one.children for one in kept.error.children if getattr(one, "id", None)] == ["Keep mine", "Take the newer"]
    assert visit_of("/athlete", "?athlete=W01").data.measures[-1].stature_m == pytest.approx(1.81)
    keep_edit(part, "182", hand_of(here, seen, None, visit.owner), mine=True)
    assert visit_of("/athlete", "?athlete=W01").data.measures[-1].stature_m == pytest.approx(1.82)


def test_of_two_texts_of_one_field_the_one_typed_later_stays_whichever_comes_first(visit):
    row = visit.data.measures[-1]
    part = field(visit, "measures.stature_m", row)
    keep_edit(part, "184", Hand("one", sent=2000))
    assert not keep_edit(part, "182", Hand("one", sent=1000)).acted.done
    assert visit_of("/athlete", "?athlete=W01").data.measures[-1].stature_m == pytest.approx(1.84)


def test_another_mass_of_the_own_ball_makes_the_page_anew_for_its_readings_are_called_by_it(visit):
    part = field(visit, "ball.mass_kg") | {"row": visit.data.own_ball.uid}
    assert keep_edit(part, "150", Hand("one")).anew
    ball = visit.team.balls[0].uid
    assert not keep_edit(part | {"of": TEAM, "row": ball}, "97", Hand("one")).anew


def test_a_new_code_makes_the_page_anew_and_the_code_of_another_is_refused(visit):
    assert keep_edit(field(visit, "athlete.code"), "W77", Hand("one")).anew
    assert visit_of("/athlete", "?athlete=W77").data is not None
    assert "a code that no other athlete here has" in keep_edit(field(visit, "athlete.code"), "W02", Hand("one")).error


@pytest.mark.parametrize("path", ["athlete.version", "stop_sign.sign.x", "", None, "plan"])
def test_a_path_that_is_no_field_is_not_asked_of_the_records(visit, path):
    with pytest.raises(PreventUpdate):
        keep_edit({**field(visit, ""), "path": path}, "1", Hand("one"))


def test_an_athlete_who_is_gone_is_told(visit):
    kept = keep_edit({**field(visit, "athlete.sex"), "of": "nobody"}, "male", Hand("one"))
    assert kept.error.startswith("Not kept: ")


@pytest.mark.parametrize(("value", "text"), [(None, ""), (True, "yes"), (False, "no"), (3, "3"), ("a", "a")])
def test_what_a_control_sends_is_a_text(value, text):
    assert as_text(value) == text


def test_ids_are_called_as_the_browser_calls_them():
    assert dom_id({"type": "act", "of": "a", "do": "b", "row": ""}) == '{"do":"b","of":"a","row":"","type":"act"}'


def test_a_conflict_without_a_newer_text_still_has_both_answers(visit):
    from app.records.acts import CONFLICT, Outcome

    made = conflict(field(visit, "athlete.sex"), Outcome(CONFLICT, "", "Somebody"))
    assert len(made.children) == 5


@pytest.mark.parametrize("value", [{}, {"a": 1}, ["a"], None, ""])
def test_what_no_button_and_no_choice_sends_reaches_no_doer(visit, here, monkeypatch, value):
    told = {"triggered_id": ids.act_id(visit.owner, "do", kind=ids.PICK), "triggered": [{"value": value}]}
    monkeypatch.setattr(edit, "ctx", SimpleNamespace(**told))
    with pytest.raises(PreventUpdate):
        edit._pressed({"do": lambda *_: pytest.fail("was done")}, None, None, here, {})
