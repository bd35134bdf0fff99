"""The form: kept and read back as typed, and changed by copying, removing, moving."""

import json
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.demo import RackBall, load_demo
from app.show.throw_form import (
    ATHLETE_NAMES,
    BEFORE_MARK_NAMES,
    OTHER,
    Form,
    FormError,
    ThrowForm,
    add_throw,
    copy_throw,
    demo_form,
    empty_form,
    from_json,
    measures_of,
    move_throw,
    remove_throw,
    swapped,
    to_json,
)

THREE = Form(throws=tuple(ThrowForm(f"t{i}", str(100 * i)) for i in (1, 2, 3)), reference="t1", headline="t2")


def masses(form: Form) -> list[str]:
    return [throw.ball_mass_g for throw in form.throws]


typed = st.text(max_size=40)
forms = st.builds(
    Form,
    athlete=st.fixed_dictionaries(dict.fromkeys(ATHLETE_NAMES, typed)),
    other=st.fixed_dictionaries(dict.fromkeys(ATHLETE_NAMES, typed)),
    throws=st.lists(st.builds(ThrowForm, st.integers(1, 999999).map("t{}".format), typed, typed, typed), max_size=8,
                    unique_by=lambda throw: throw.key).map(tuple),
    reference=typed, kind=typed, date=typed, quantity=typed, headline=typed, above=typed,
)  # fmt: skip


@given(forms)
def test_what_was_typed_comes_back_as_typed(form):
    assert from_json(json.loads(json.dumps(to_json(form)))) == form


def unmarked(whole: dict) -> dict:
    """The form as it was kept before a thrower could be marked as still growing."""
    people = {by: {name: whole[by][name] for name in BEFORE_MARK_NAMES} for by in ("athlete", "other")}
    return whole | {"version": 4} | people


def broken() -> list[object]:
    whole = to_json(THREE)
    return [
        None, 3, "{}", [], {}, {"version": 1},
        whole | {"version": 6},
        whole | {"version": 4},
        unmarked(whole) | {"version": 5},
        whole | {"other": {"code": "X2"}},
        whole | {"version": 1},
        whole | {"extra": ""},
        {name: part for name, part in whole.items() if name != "above"},
        whole | {"throws": whole["throws"] * 3},
        whole | {"throws": [whole["throws"][0]] * 2},
        whole | {"throws": [whole["throws"][0] | {"key": "../t1"}]},
        whole | {"throws": [whole["throws"][0] | {"speed_m_s": 28.5}]},
        whole | {"throws": [{"key": "t1"}]},
        whole | {"throws": "t1"},
        whole | {"athlete": {"code": "X1"}},
        whole | {"athlete": dict.fromkeys(ATHLETE_NAMES)},
        whole | {"reference": None},
        whole | {"above": "1" * 201},
    ]  # fmt: skip


def test_what_was_kept_before_throws_could_be_held_otherwise_is_held_at_its_speeds():
    form = empty_form()
    whole = unmarked(to_json(replace(form, throws=(ThrowForm("t1", "145", "73", "33.0"),))))
    old = {"hold", "clock_percent", "share_percent", "by"}
    lines = [{name: text for name, text in line.items() if name not in old} for line in whole["throws"]]
    assert from_json(whole | {"version": 1, "throws": lines}).throws == (ThrowForm("t1", "145", "73", "33.0", "speed"),)


def test_what_was_kept_before_there_could_be_two_throwers_has_one():
    whole = unmarked(to_json(demo_form(load_demo(), load_demo().athletes[0])))
    lines = [{name: text for name, text in line.items() if name != "by"} for line in whole["throws"]]
    old = {name: part for name, part in whole.items() if name != "other"} | {"version": 3, "throws": lines}
    form = from_json(old)
    assert form == demo_form(load_demo(), load_demo().athletes[0])
    assert not form.two


def test_what_was_kept_before_a_thrower_could_be_marked_has_nobody_marked():
    demo = load_demo()
    form = replace(demo_form(demo, demo.athletes[0]), other=measures_of(demo.athletes[1]))
    assert from_json(unmarked(to_json(form))) == form
    assert [form.measures(by)["still_growing"] for by in ("", OTHER)] == ["", ""]


def test_exchanged_twice_the_throwers_are_as_they_were():
    demo = load_demo()
    first = demo_form(demo, demo.athletes[0])
    two = replace(
        first, other=measures_of(demo.athletes[1]), throws=(replace(first.throws[0], by=OTHER), *first.throws[1:])
    )
    exchanged = swapped(two)
    assert exchanged.athlete["code"] == "W02"
    assert [throw.by for throw in exchanged.throws] == ["", *[OTHER] * (len(two.throws) - 1)]
    assert swapped(exchanged) == two


@pytest.mark.parametrize("kept", broken(), ids=range(len(broken())))
def test_a_kept_form_of_another_shape_is_refused(kept):
    with pytest.raises(FormError):
        from_json(kept)


json_values = st.recursive(
    st.none() | st.booleans() | st.floats() | st.text(max_size=9),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=9), inner, max_size=3),
    max_leaves=9,
)


@given(json_values)
def test_anything_else_the_browser_could_hold_is_refused_too(kept):
    with pytest.raises(FormError):
        from_json(kept)


def test_the_empty_form_has_two_blank_throws_and_a_reference():
    form = empty_form()
    assert form.untouched
    assert [throw.blank for throw in form.throws] == [True, True]
    assert form.place(form.reference) == 0


def test_a_form_with_one_typed_value_is_no_longer_untouched():
    assert not Form(athlete=dict.fromkeys(ATHLETE_NAMES, "") | {"code": "X1"}).untouched
    assert not Form(throws=(ThrowForm("t1", speed_m_s="3"),)).untouched


def test_a_copy_stands_right_after_its_original_with_a_key_of_its_own():
    copied = copy_throw(THREE, "t1")
    assert masses(copied) == ["100", "100", "200", "300"]
    assert len({throw.key for throw in copied.throws}) == 4
    assert copied.reference == "t1"


def test_a_throw_is_added_at_the_end_blank_or_with_a_ball_of_the_rack():
    assert masses(add_throw(THREE)) == ["100", "200", "300", ""]
    added = add_throw(THREE, RackBall("big", "470", "90")).throws[-1]
    assert (added.ball_mass_g, added.ball_diameter_mm, added.speed_m_s) == ("470", "90", "")


def test_the_first_throw_of_an_empty_list_becomes_the_reference():
    added = add_throw(Form())
    assert added.reference == added.throws[0].key


def test_eight_is_the_end():
    full = THREE
    while len(full.throws) < 8:
        full = add_throw(full)
    assert add_throw(full) is full
    assert copy_throw(full, "t1") is full


def test_removing_the_reference_makes_the_first_of_those_left_the_reference():
    left = remove_throw(THREE, "t1")
    assert masses(left) == ["200", "300"]
    assert left.reference == "t2"
    assert remove_throw(remove_throw(left, "t2"), "t3").reference == ""


def test_removing_the_throw_of_the_first_sentence_forgets_the_choice():
    assert remove_throw(THREE, "t2").headline == ""
    assert remove_throw(THREE, "t3").headline == "t2"


def test_moving_changes_the_order_and_nothing_else():
    assert masses(move_throw(THREE, "t3", -1)) == ["100", "300", "200"]
    assert masses(move_throw(THREE, "t1", 1)) == ["200", "100", "300"]
    assert move_throw(THREE, "t1", -1) is THREE
    assert move_throw(THREE, "t3", 1) is THREE
    assert move_throw(THREE, "t9", 1) is THREE


@given(st.lists(st.tuples(st.sampled_from(["add", "copy", "remove", "up", "down"]), st.integers(0, 8)), max_size=25))
def test_no_row_of_clicks_breaks_the_list(clicks):
    form = THREE
    for what, place in clicks:
        key = form.throws[place].key if place < len(form.throws) else "t777"
        form = {
            "add": lambda f, _: add_throw(f),
            "copy": copy_throw,
            "remove": remove_throw,
            "up": lambda f, k: move_throw(f, k, -1),
            "down": lambda f, k: move_throw(f, k, 1),
        }[what](form, key)
    assert from_json(to_json(form)) == form
    assert form.place(form.reference) >= 0 or not form.throws


def test_a_demo_thrower_begins_with_the_reference_throw():
    demo = load_demo()
    athlete = demo.athlete("W06")
    assert athlete is not None
    form = demo_form(demo, athlete)
    assert (form.kind, form.date) == ("before", "2025-09-02")
    assert form.throws[0] == ThrowForm("t1", "145", "73", "35.1")
    assert form.athlete["stature_cm"] == "188"
