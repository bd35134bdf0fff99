"""One act is one transaction and one version; nobody overwrites another in silence; nothing accepted is lost."""

from dataclasses import replace
from datetime import date

import pytest

from app.records.acts import CONFLICT, GONE, KEPT, OVERTAKEN, REFUSED, SAME, TEAM, Add, Edit, Put, Remove
from app.records.faults import GoneError, TakenError
from app.records.history import history
from app.records.opening import open_store
from app.records.reads import athlete_data, team_data
from app.units.systems import CUSTOMARY
from model.checks import InputError
from tests.app.records.hands import HAND, OTHER, TODAY


def test_what_was_accepted_is_there_after_closing_and_opening(store, act, reading, place):
    assert act(Edit("athlete.sex", "male"), Edit("reading.speed_m_s", "33,4", reading)).done
    store.close()
    again = open_store(place)
    data = athlete_data(again, "B12")
    again.close()
    assert (data.athlete.sex, data.readings[0].speed_m_s) == ("male", 33.4)
    assert data.readings[0].typed == {"speed_m_s": "33,4"}  # stands again as it was typed


def test_acts_done_together_are_one_version(store, act):
    before = act(Edit("athlete.sex", "female")).version
    acted = act(Edit("athlete.sex", "male"), Edit("athlete.handedness", "left"))
    assert acted.version == before + 1
    assert [one.state for one in acted.outcomes] == [KEPT, KEPT]
    assert {one.field for one in history(store, store.find("B12").uid, most=2)} == {"sex", "handedness"}


def test_the_same_value_again_is_no_version(act, reading):
    before = act(Edit("reading.speed_m_s", "33.4", reading)).version
    again = act(Edit("reading.speed_m_s", "33.40", reading))
    assert (again.version, again.outcomes[0].state, again.done) == (before, SAME, False)


def test_a_refused_text_changes_nothing_and_stands_in_its_field_after_a_reload(store, act, reading):
    before = act(Edit("reading.speed_m_s", "33.4", reading)).version
    refused = act(Edit("reading.speed_m_s", "3x3", reading))
    assert (refused.version, refused.outcomes[0].state) == (before, REFUSED)
    assert refused.outcomes[0].message == (
        "Reading: “3x3” given; accepted: 1 to 60 m/s, as a plain number with a point or a comma for decimals."
    )
    (row,) = athlete_data(store, "B12").readings
    assert (row.speed_m_s, row.draft) == (33.4, {"speed_m_s": "3x3"})
    act(Edit("reading.speed_m_s", "33.5", reading))
    assert athlete_data(store, "B12").readings[0].draft == {}


def test_a_new_row_keeps_what_was_accepted_and_what_was_refused_of_it(store, act):
    outcome = act(Add("measures", {"stature_m": "188", "body_mass_kg": "9"})).outcomes[0]
    assert outcome.problems == {"body_mass_kg": "Body mass: “9” given; accepted: 12 to 200 kg."}
    (row,) = athlete_data(store, "B12").measures
    assert (row.day, row.stature_m, row.body_mass_kg, row.draft) == (TODAY, 1.88, None, {"body_mass_kg": "9"})


def test_another_tab_does_not_overwrite_what_it_has_not_seen(act, reading):
    seen = act(Edit("reading.speed_m_s", "33.4", reading)).version
    mine = act(Edit("reading.speed_m_s", "33.6", reading), hand=OTHER)  # saw everything
    assert mine.done
    outcome = act(Edit("reading.speed_m_s", "33.9", reading), hand=replace(HAND, seen=seen)).outcomes[0]
    assert outcome.state == CONFLICT
    assert outcome.message == "Reading: CD has written “33.6” here since this page was drawn."


def test_a_value_that_a_row_was_made_with_in_another_tab_is_met_as_well(store, act):
    seen = store.version(store.find("B12").uid)
    act(Add("measures", {"stature_m": "181"}, {}, "measures0001"), hand=OTHER)
    mine = replace(HAND, seen=seen)
    outcome = act(Edit("measures.stature_m", "183", "measures0001"), hand=mine).outcomes[0]
    assert (outcome.state, outcome.message) == (
        CONFLICT,
        "Stature: CD has written “181” here since this page was drawn.",
    )
    assert act(Edit("measures.body_mass_kg", "84", "measures0001"), hand=mine).done


def test_what_two_tabs_type_into_new_measures_of_one_day_becomes_one_row(store, act):
    seen = store.version(store.find("B12").uid)
    act(Add("measures", {"stature_m": "181"}), hand=OTHER)
    assert act(Add("measures", {"body_mass_kg": "84"}), hand=replace(HAND, seen=seen)).done
    again = act(Add("measures", {"stature_m": "183"}), hand=replace(HAND, seen=seen)).outcomes[0]
    assert (again.state, "CD has written “181”" in again.message) == (CONFLICT, True)
    assert act(Add("measures", values={"stature_m": 1.7})).outcomes[0].state == REFUSED
    (row,) = athlete_data(store, "B12").measures
    assert (row.stature_m, row.body_mass_kg, row.day) == (1.81, 84.0, TODAY)


def test_keep_mine_writes_it_all_the_same(store, act, reading):
    seen = act(Edit("reading.speed_m_s", "33.4", reading)).version
    act(Edit("reading.speed_m_s", "33.6", reading), hand=OTHER)
    assert act(Edit("reading.speed_m_s", "33.9", reading, mine=True), hand=replace(HAND, seen=seen)).done
    assert athlete_data(store, "B12").readings[0].speed_m_s == 33.9


def test_two_tabs_in_two_fields_of_one_row_do_not_meet(act, reading):
    seen = act(Edit("reading.speed_m_s", "33.4", reading)).version
    act(Edit("reading.asked_effort", "75", reading), hand=replace(OTHER, seen=seen))
    assert act(Edit("reading.speed_m_s", "33.9", reading), hand=replace(HAND, seen=seen)).done


def test_nothing_of_several_acts_is_done_where_one_meets_a_conflict(store, act, reading):
    seen = act(Edit("reading.speed_m_s", "33.4", reading)).version
    act(Edit("reading.speed_m_s", "33.6", reading), hand=OTHER)
    acts = (Edit("athlete.sex", "male"), Edit("reading.speed_m_s", "33.9", reading))
    acted = act(*acts, hand=replace(HAND, seen=seen))
    assert (acted.stopped, acted.done) == (True, False)
    assert athlete_data(store, "B12").athlete.sex is None


def test_a_slow_older_text_of_the_same_tab_does_not_win(store, act, reading):
    act(Edit("reading.speed_m_s", "33.9", reading), hand=replace(HAND, sent=2000))
    late = act(Edit("reading.speed_m_s", "33.5", reading), hand=replace(HAND, sent=1000))
    assert late.outcomes[0].state == OVERTAKEN
    assert athlete_data(store, "B12").readings[0].speed_m_s == 33.9


def test_a_late_edit_of_a_removed_row_lands_nowhere(store, act, added, reading, ball):
    act(Remove("reading", reading))
    new = added("reading", speed_m_s="30", ball=ball)
    outcome = act(Edit("reading.speed_m_s", "40", reading)).outcomes[0]
    assert (outcome.state, outcome.message) == (GONE, "This reading was removed in the meantime.")
    (row,) = athlete_data(store, "B12").readings
    assert (row.uid, row.speed_m_s) == (new, 30.0)


def test_no_number_of_a_removed_row_is_given_again(store, act, added, reading, ball):
    number = athlete_data(store, "B12").readings[0].id
    act(Remove("reading", reading))
    added("reading", speed_m_s="30", ball=ball)
    assert athlete_data(store, "B12").readings[0].id > number


def test_a_row_of_another_athlete_is_out_of_reach(store, act, reading):
    other = store.new_athlete("C3", HAND)
    assert act(Edit("reading.speed_m_s", "40", reading), owner=other).outcomes[0].state == GONE
    assert athlete_data(store, "B12").readings[0].speed_m_s == 33.1


def test_another_athletes_own_ball_is_out_of_reach(store, added, athlete, reading, act):
    own = added("ball", mass_kg="145", diameter_m="73")
    other = store.new_athlete("C3", HAND)
    theirs = added("reading", other, speed_m_s="30")
    assert act(Edit("reading.ball", own, theirs), owner=other).outcomes[0].state == GONE
    assert act(Edit("reading.ball", own, reading)).done


def test_an_athlete_has_one_own_ball(store, act, added):
    added("ball", mass_kg="145", diameter_m="73")
    outcome = act(Add("ball", {"mass_kg": "150", "diameter_m": "73"})).outcomes[0]
    assert (outcome.state, outcome.message.partition(":")[0]) == (REFUSED, "This athlete has an own ball already")
    assert athlete_data(store, "B12").own_ball.mass_kg == 0.145


def test_a_ball_that_readings_were_made_with_stays(store, act, ball, reading):
    outcome = act(Remove("ball", ball), owner=TEAM).outcomes[0]
    assert outcome.state == REFUSED
    assert outcome.message.startswith("Readings were made with this ball")
    act(Put("ball", "archived_at", athlete_data(store, "B12").athlete.created, ball), owner=TEAM)
    assert team_data(store).balls == ()
    assert [one.uid for one in team_data(store, archived=True).balls] == [ball]
    assert athlete_data(store, "B12").balls[athlete_data(store, "B12").readings[0].ball_id].uid == ball


def test_codes_are_unique_trimmed_and_printable(store, athlete, act):
    with pytest.raises(TakenError, match="“B12” given; it is another athlete’s here"):
        store.new_athlete(" B12 ", HAND)
    for wrong in ("", "  ", "x" * 25, "a\nb", "a\u200bb", "a\x00"):
        with pytest.raises(InputError, match="1 to 24 printable characters"):
            store.new_athlete(wrong, HAND)
    other = store.new_athlete("Ж 7/ä", HAND)
    refused = act(Edit("athlete.code", "B12"), owner=other).outcomes[0]
    assert (refused.state, refused.message) == (
        REFUSED,
        "Code: “B12” given; accepted: a code that no other athlete here has.",
    )
    assert act(Edit("athlete.code", "<a href=x>")).done
    assert store.find("<a href=x>").uid == athlete


def test_a_new_code_renames_and_takes_all_readings_along(store, act, reading):
    act(Edit("athlete.code", "B13"))
    assert store.find("B12") is None
    assert [one.uid for one in athlete_data(store, "B13").readings] == [reading]


def test_a_new_athlete_begins_with_nothing_of_another(store, reading):
    store.new_athlete("New", HAND)
    data = athlete_data(store, "New")
    assert (data.readings, data.measures, data.own_ball, data.plans) == ((), (), None, ())


def test_units_behind_a_number_and_the_readers_units_are_kept_as_typed(store, act, added):
    row = added("measures", stature_m="6 ft 2 in")
    act(Edit("measures.body_mass_kg", "190", row), system=CUSTOMARY)
    (measures,) = athlete_data(store, "B12").measures
    assert measures.stature_m == 74 * 0.0254  # inches by definition
    assert measures.body_mass_kg == pytest.approx(86.18255, abs=1e-5)  # 190 lb of 0.45359237 kg
    again = act(Edit("measures.body_mass_kg", "190", row), system=CUSTOMARY)
    assert again.outcomes[0].state == SAME
    metric = act(Edit("measures.body_mass_kg", "86.2", row))  # as the metric field shows it: nobody typed
    assert metric.outcomes[0].state == SAME
    assert athlete_data(store, "B12").measures[0].body_mass_kg == measures.body_mass_kg


def test_another_unit_empties_the_number_that_was_in_the_old_one(store, act):
    act(Edit("limits.amount", "80", "elbow_peak"))
    act(Edit("limits.counted", "absolute", "elbow_peak"))
    assert athlete_data(store, "B12").limits["elbow_peak"].amount is None
    act(Edit("limits.amount", "75 N·m", "elbow_peak"))
    assert athlete_data(store, "B12").limits["elbow_peak"].amount == 75.0
    act(Edit("limits.counted", "share", "elbow_peak"), Edit("limits.amount", "70", "elbow_peak"))
    assert athlete_data(store, "B12").limits["elbow_peak"].amount == 0.7


def test_settings_have_defaults_until_they_are_set(store, act):
    assert athlete_data(store, "B12").settings["profile.cap_share"] == 0.8
    assert act(Edit("profile.cap_share", "80")).outcomes[0].state == SAME
    assert act(Edit("profile.cap_share", "75 %")).done
    assert act(Edit("profile.since", "2026-01-10")).done
    refused = act(Edit("profile.cap_share", "soon")).outcomes[0]
    assert refused.state == REFUSED
    data = athlete_data(store, "B12")
    assert (data.settings["profile.cap_share"], data.settings["profile.since"]) == (0.75, date(2026, 1, 10))
    assert data.setting_rows["profile.cap_share"].draft == {"value": "soon"}


def test_a_comparison_goes_with_its_throws_and_its_first_throw_takes_over_as_reference(store, act, added):
    kept = added("comparison", name="Heavy")
    first, second = (added("throw", values={"comparison": kept}, mass_kg=mass, number="33") for mass in ("145", "275"))
    act(Edit("comparison.reference", first, kept), Edit("comparison.headline", first, kept))
    act(Remove("throw", first))
    data = athlete_data(store, "B12")
    assert (data.comparisons[0].reference, data.comparisons[0].headline) == (second, None)
    act(Remove("comparison", kept))
    assert athlete_data(store, "B12").throws == ()


def test_days_to_come_are_refused_but_for_plans(act, reading, added):
    outcome = act(Edit("reading.day", "2026-03-03", reading)).outcomes[0]
    assert (
        outcome.message
        == "Day of the reading: “2026-03-03” given; accepted: year-month-day from 1990-01-01 to 2026-03-02."
    )
    plan = added("plan", name="Spring")
    assert act(Edit("plan.start", "2026-09-01", plan)).done


def test_what_there_is_not_is_named(act, store):
    with pytest.raises(InputError, match="a field that is typed into"):
        act(Edit("profile.shoe", "44"))
    with pytest.raises(InputError, match="one whose rows are added by hand"):
        act(Add("stop_sign"))
    with pytest.raises(GoneError, match="no athlete with the code “Z”"):
        athlete_data(store, "Z")
    with pytest.raises(GoneError, match="erased"):
        store.act("nobody", Edit("athlete.sex", "male"), HAND)
