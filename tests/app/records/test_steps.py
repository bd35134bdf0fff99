"""Undo and redo from the history: act by act, whoever acted; stop signs are never taken back; old lines are few."""

import json
import shutil
from datetime import timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import text, update

from app.records.acts import SAME, TEAM, Add, Edit, Hand, Put, Remove
from app.records.compaction import compact
from app.records.differences import difference, patched
from app.records.history import history, in_words, who_and_when
from app.records.opening import open_store
from app.records.outgoing import export
from app.records.place import Place
from app.records.reads import athlete_data
from app.records.steps import StepError
from app.records.stop_signs import Signed, clear, enter, withdraw
from app.records.tables import Revision, new_uid, now
from app.records.writer import lock_owner
from app.units.systems import CUSTOMARY
from model.checks import InputError
from tests.app.records.hands import HAND, OTHER, TODAY

COACH = Signed("AB", "coach", TODAY, "decided by Dr. Q")


def state(store) -> dict:
    """All that is kept of B12 but versions and history."""
    document = json.loads("".join(export(store, "B12", history=False)))["athletes"][0]
    for one in document.get("settings", ()):
        del one["uid"]  # a setting is known by its key
    return {name: one for name, one in document.items() if name not in ("version", "compacted", "opened_at")}


@pytest.fixture
def deeds(store, act, added, ball):
    """Acts of every kind, and the states before and after each."""
    plan = added("plan", name="Spring", values={"body": {"steps": [1, 2], "why": "x"}})
    kept = added("comparison", name="Two")
    first, _ = (added("throw", values={"comparison": kept}, mass_kg=mass, number="30") for mass in ("145", "275"))
    act(Edit("comparison.reference", first, kept))
    reading = added("reading", speed_m_s="33.1", ball=ball)
    rows = (
        (Edit("athlete.code", "B12"), Edit("athlete.sex", "male")),
        (Edit("reading.speed_m_s", "75 mph", reading),),
        (Edit("profile.cap_share", "70"),),
        (Edit("limits.amount", "80", "rise_rate"),),
        (Edit("limits.counted", "absolute", "rise_rate"),),
        (Put("plan", "body", {"steps": [1, 3], "more": None}, plan), Put("plan", "archived_at", now(), plan)),
        (Add("session_log", values={"plan": plan, "body": {"throws": 3}}), Add("note", {"text": "n"})),
        (Remove("throw", first),),
        (Remove("comparison", kept), Remove("plan", plan)),
        (Remove("reading", reading),),
    )
    states = [state(store)]
    for acts in rows:
        assert act(*acts).done
        states.append(state(store))
    return states


def test_every_act_is_taken_back_and_done_again_exactly(store, athlete, deeds):
    for before in reversed(deeds[:-1]):
        store.step(athlete, OTHER)
        assert state(store) == before
    for after in deeds[1:]:
        store.step(athlete, OTHER, back=False)
        assert state(store) == after
    assert store.step(athlete, OTHER, back=False).outcomes[0].state == SAME


def test_it_goes_back_over_days_and_after_closing(store, athlete, deeds, place):
    with store.database.writing() as connection:
        connection.execute(update(Revision).values(at=now() - timedelta(days=40)))
    store.close()
    again = open_store(place)
    for before in reversed(deeds[:-1]):
        again.step(athlete, OTHER)
        assert state(again) == before
    again.close()


def test_a_new_act_after_undo_ends_what_could_be_done_again(store, act, athlete):
    act(Edit("athlete.sex", "male"))
    store.step(athlete, HAND)
    act(Edit("athlete.handedness", "left"))
    steps = store.steps(athlete)
    assert steps.again is None
    assert steps.back.lines[0]["field"] == "handedness"


def test_what_undo_takes_back_is_said_with_whose_act_it_is(store, act, athlete):
    act(Edit("athlete.sex", "male"), hand=OTHER)
    (line,) = store.steps(athlete).back.lines
    assert (line["by"], line["field"], line["before"], line["after"]) == ("CD", "sex", None, "male")


def test_an_act_that_came_in_between_is_not_taken_back_unseen(store, act, athlete):
    act(Edit("athlete.sex", "male"))
    seen = store.steps(athlete).back.version
    act(Edit("athlete.sex", "female"), hand=OTHER)
    with pytest.raises(StepError, match="Something else was entered in the meantime"):
        store.step(athlete, HAND, expected=seen)
    assert athlete_data(store, "B12").athlete.sex == "female"


def test_that_an_athlete_was_made_is_not_taken_back(store, athlete):
    assert store.step(athlete, HAND).outcomes[0].state == SAME
    assert store.find("B12") is not None


def test_a_ball_that_was_thrown_since_cannot_be_unmade(store, ball, reading):
    with pytest.raises(StepError, match="something that was entered since depends on it"):
        store.step(TEAM, HAND)
    assert len(athlete_data(store, "B12").readings) == 1


def test_a_code_that_is_another_athletes_now_does_not_come_back(store, act, athlete):
    act(Edit("athlete.code", "B13"))
    store.new_athlete("B12", HAND)
    with pytest.raises(StepError, match="the code B12 is another athlete’s now"):
        store.step(athlete, HAND)
    assert store.find("B13").uid == athlete


def test_undo_never_takes_a_stop_sign_back_and_goes_to_what_was_before_it(store, act, athlete, added):
    act(Edit("athlete.sex", "male"))
    session = added("session_log", values={"body": {"throws": 3}})
    sign = enter(store, athlete, "swelling", TODAY, COACH, HAND, session)
    store.step(athlete, HAND)  # the session is taken back, the sign of it stays
    store.step(athlete, HAND)
    data = athlete_data(store, "B12")
    assert (data.sessions, data.athlete.sex) == ((), None)
    assert [one.uid for one in data.stop_signs] == [sign]
    clear(store, athlete, [sign], COACH, HAND)
    assert store.step(athlete, HAND).outcomes[0].state == SAME
    assert athlete_data(store, "B12").stop_signs[0].cleared_by == "AB"


def test_a_stop_sign_is_cleared_by_whoever_may_and_withdrawn_with_words(store, athlete):
    sign = enter(store, athlete, "swelling", TODAY, COACH, HAND)
    assert enter(store, athlete, "swelling", TODAY, COACH, HAND) == sign  # the same is not entered twice
    with pytest.raises(InputError, match="a licensed clinician"):
        clear(store, athlete, [sign], Signed("B12", "athlete", TODAY, "fine again"), HAND)
    with pytest.raises(InputError, match="whose decision it was"):
        clear(store, athlete, [sign], Signed("AB", "coach", TODAY), HAND)
    with pytest.raises(InputError, match="or later, the day of the stop sign"):
        clear(store, athlete, [sign], Signed("DR", "clinician", TODAY - timedelta(days=1)), HAND)
    with pytest.raises(InputError, match="initials"):
        clear(store, athlete, [sign], Signed(" ", "clinician", TODAY), HAND)
    clear(store, athlete, [sign], Signed("DR", "clinician", TODAY), HAND)
    with pytest.raises(InputError, match="one that still stands"):
        withdraw(store, athlete, sign, COACH, HAND)
    mistake = enter(store, athlete, "numbness", TODAY, COACH, HAND)
    with pytest.raises(InputError, match="why it was a mistake"):
        withdraw(store, athlete, mistake, Signed("AB", "coach", TODAY), HAND)
    withdraw(store, athlete, mistake, Signed("AB", "coach", TODAY, "wrong athlete"), HAND)
    cleared, withdrawn = athlete_data(store, "B12").stop_signs
    assert (cleared.cleared_role, withdrawn.withdrawn_words) == ("clinician", "wrong athlete")


def test_history_says_who_when_and_what_from_what(store, act, added, athlete, ball):
    reading = added("reading", speed_m_s="33.1", ball=ball)
    act(Edit("reading.speed_m_s", "33,4", reading), hand=OTHER)
    act(Edit("reading.ball", added("ball", TEAM, name="red", mass_kg="95"), reading))
    act(Edit("profile.basis", "best"))
    act(Edit("limits.amount", "80", "rise_rate"))
    act(Remove("reading", reading))
    store.step(athlete, HAND)
    lines = history(store, athlete)
    assert [in_words(line) for line in lines] == [
        "Taken back: reading 33.4 m/s, red 95 g, 2026-03-02 added",
        "Reading 33.4 m/s, red 95 g, 2026-03-02 removed",
        "Elbow, rise rate at most: nothing, then 80 %",
        "Elbow, rise rate at most added",
        "The profile works from: all, then best",
        "Ball: green 275 g, then red 95 g (reading 33.4 m/s, 2026-03-02)",
        "Reading: 33.1 m/s, then 33.4 m/s (red 95 g, 2026-03-02)",
        "Reading 33.1 m/s, green 275 g, 2026-03-02 added",
        "Athlete added",
    ]
    assert in_words(lines[6], CUSTOMARY) == "Reading: 74.0 mph, then 74.7 mph (red 3.35 oz, 2026-03-02)"
    assert who_and_when(lines[6]).endswith(", CD")
    assert [one.version for one in history(store, athlete, most=3, until=lines[2].version)] == [5, 4, 3]


def test_the_history_of_a_plan_says_that_it_changed_and_keeps_only_what_differs(store, act, added):
    body = {"steps": [{"share": one / 100} for one in range(60)], "why": "x" * 5000}
    plan = added("plan", values={"body": body}, name="Spring")
    changed = body | {"steps": [{"share": 0.5}, *body["steps"][1:]]}
    act(Put("plan", "body", changed, plan))
    line = history(store, store.find("B12").uid)[0]
    assert in_words(line) == "Plan Spring changed"
    with store.database.reading() as connection:
        kept = connection.execute(text("SELECT after FROM revision ORDER BY id DESC LIMIT 1")).scalar()
    assert len(str(kept)) < 60
    store.step(store.find("B12").uid, HAND)
    assert athlete_data(store, "B12").plans[0].body == body


def test_old_lines_are_drawn_together_one_for_each_field_and_day(store, act, athlete, reading):
    for speed in range(20, 50):
        act(Edit("reading.speed_m_s", str(speed), reading))
    before = store.version(athlete)
    with store.database.writing() as connection:
        gone = compact(connection, lock_owner(connection, athlete), kept=10)
    assert gone == 20  # of 21 old ones of that field, one is left
    lines = [line for line in history(store, athlete) if line.field == "speed_m_s"]
    assert len(lines) == 10
    assert (lines[-1].before[0], lines[-1].after[0]) == (33.1, 40.0)
    for speed in range(48, 40, -1):
        store.step(athlete, HAND)
        assert athlete_data(store, "B12").readings[0].speed_m_s == speed
    assert store.version(athlete) > before


def test_compaction_comes_by_itself_and_leaves_the_values_alone(store, act, athlete, reading):
    for place in range(330):
        act(Edit("reading.speed_m_s", f"{20 + place / 100:.2f}", reading))
    lines = history(store, athlete, most=1000)
    assert len(lines) < 310
    assert athlete_data(store, "B12").readings[0].speed_m_s == 23.29


BODIES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-5, 5)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(max_size=3),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=2), inner, max_size=3),
    max_leaves=12,
)


@given(
    st.dictionaries(st.text(max_size=2), BODIES, max_size=4), st.dictionaries(st.text(max_size=2), BODIES, max_size=4)
)
@settings(suppress_health_check=[HealthCheck.too_slow], max_examples=200)
def test_a_difference_leads_there_and_back(before, after):
    there, back = difference(before, after)
    assert patched(before, there) == after
    assert patched(after, back) == before
    assert (there == []) == (repr(before) == repr(after) or before == after)


FEW = {"measures": ("stature_m", "body_mass_kg"), "reading": ("speed_m_s", "asked_effort"), "note": ("text",)}
TEXTS = st.sampled_from(["", "20", "75", "33,4", "6 ft", "fast", "188"])
DEEDS = st.lists(
    st.one_of(
        st.tuples(st.just("add"), st.sampled_from(sorted(FEW)), TEXTS),
        st.tuples(st.just("edit"), st.integers(0, 5), TEXTS),
        st.tuples(st.just("remove"), st.integers(0, 5), st.just("")),
        st.tuples(st.just("set"), st.sampled_from(["athlete.sex", "profile.cap_share", "profile.since"]), TEXTS),
        st.tuples(st.just("undo"), st.just(""), st.just("")),
        st.tuples(st.just("redo"), st.just(""), st.just("")),
    ),
    max_size=14,
)


@given(random_acts=DEEDS)
@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
def test_whatever_was_done_all_of_it_is_taken_back_and_done_again(random_acts, empty_file, tmp_path):
    folder = tmp_path / new_uid()
    folder.mkdir()
    shutil.copy(empty_file, folder)
    store = open_store(Place(folder))
    uid = store.new_athlete("B12", HAND)
    rows: list[tuple[str, str]] = []
    for kind, what, text_ in random_acts:
        if kind == "add":
            column = FEW[what][0]
            rows.append((what, store.act(uid, Add(what, {column: text_}), HAND, today=TODAY).outcomes[0].row))
        elif kind in ("edit", "remove") and rows:
            table, row = rows[what % len(rows)]
            act = Remove(table, row) if kind == "remove" else Edit(f"{table}.{FEW[table][-1]}", text_, row)
            store.act(uid, act, HAND, today=TODAY)
        elif kind == "set":
            store.act(uid, Edit(what, "male" if what == "athlete.sex" and text_ else text_), HAND, today=TODAY)
        elif kind in ("undo", "redo"):
            store.step(uid, HAND, back=kind == "undo")
    done = without_drafts(state(store))
    back = 0
    while store.steps(uid).back is not None:
        store.step(uid, HAND)
        back += 1
    assert without_drafts(state(store)).keys() <= {"code", "invented", "created", "uid"}
    for _ in range(back):
        store.step(uid, HAND, back=False)
    assert without_drafts(state(store)) == done
    store.close()
    shutil.rmtree(folder)


def without_drafts(kept: dict) -> dict:
    """The same without refused texts, which are no act of their own, and settings of which there is nothing else."""
    made = {name: one for name, one in kept.items() if name != "draft"}
    for name, rows in made.items():
        if isinstance(rows, list):
            made[name] = [{key: one for key, one in row.items() if key != "draft"} for row in rows]
    made["settings"] = [one for one in made.get("settings", ()) if "value" in one]
    return {name: one for name, one in made.items() if one != []}


def test_keys_and_uids_of_choices_are_said_in_the_words_of_their_fields(store, act, athlete, added, ball):
    of = f"@{'p' * 12}/0"
    acts = [
        Edit("plan.days", "- 0 2"),
        Edit("plan.days", "-"),
        Edit("plan.days", ""),
        Edit("plan.left_out", "145 212.6"),
        Edit("plan.goal_ball", "198.4|73"),
        Edit("plan.goal_ball", "own"),
        Edit("plan.lead", "loaded_s"),
        Edit(f"noted.role{of}", "clinician"),
        Edit(f"noted.decision{of}", "repeat"),
        Edit(f"noted.signs{of}", "swelling lost_motion"),
        Edit("map.reading", "internal_rotation"),
    ]
    for one in acts:
        act(one)
    assert [in_words(line) for line in history(store, athlete, most=len(acts))][::-1] == [
        "Days to throw on: those of the aim, then Mon, Wed",
        "Days to throw on: Mon, Wed, then none",
        "Days to throw on: none, then those of the aim",
        "Balls that are left out: nothing, then 145 g, 212.6 g",
        "To the ball: the own ball, then 198.4 g",
        "To the ball: 198.4 g, then the own ball",
        "Lead readout: by the aim, then time loaded",
        "Role: nothing, then licensed clinician",
        "What is decided: nothing, then throw this session again",
        "Stop signs: nothing, then swelling, loss of motion",
        "Quantity: varus torque, then internal-rotation torque",
    ]


def test_the_throw_that_a_comparison_leads_to_is_said_and_not_its_uid(store, act, athlete, added):
    kept = added("comparison", name="A")
    throw = added("throw", values={"comparison": kept}, mass_kg="145", number="33")
    act(Edit("comparison.reference", throw, kept))
    (line,) = history(store, athlete, most=1)
    assert in_words(line) == "Reference throw: none, then 145 g at 33 m/s (comparison A)"


def test_who_signed_stands_in_the_history_where_nobody_gave_initials(store, act, athlete):
    enter(store, athlete, "lost_motion", TODAY, Signed("KL", "coach", TODAY), Hand("one"))
    (line,) = history(store, athlete, most=1)
    assert who_and_when(line).endswith(", KL")
    assert in_words(line) == "Stop sign loss of motion, 2026-03-02 added"
    act(Add("session_log", values={"day": TODAY, "body": {"by": "MN"}}), hand=Hand("one"))
    assert who_and_when(history(store, athlete, most=1)[0]).endswith(", MN")
