"""How far a plan has come: followed by hand, and as properties of any log."""

import itertools
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.build_up import RISES
from model.course import most_after, most_of, session_before, standing_of
from model.ladder import HELD_DOWN, Rung, one_below
from model.session_log import Logged, facts_of, new_signs
from model.session_rules import OPEN, JointPain, Notes, Soreness, advise
from model.stop_signs import Signed, StopSign, cleared, withdrawn
from tests.model.course_cases import FINE, FIRST, heavy_row, logged, on, pain, row

ROW = row()


def next_rung(log, signs=(), **more) -> Rung:
    return standing_of(ROW, log, signs, **more).rungs[0]


def walk(*told) -> list[Logged]:
    """A log in which each session is the one that came next; told is notes, throws and decision of each."""
    log: list[Logged] = []
    for i, (notes, throws, decision) in enumerate(told):
        log.append(logged(next_rung(log), notes, throws, on(2 * i), decision))
    return log


def test_by_hand_the_next_session_after_what_was_decided():
    assert (next_rung([]).index, next_rung([]).place) == (0, 0)
    assert next_rung(walk((FINE, 20, "go_on"))).index == 1
    assert next_rung(walk((FINE, 20, "repeat"))).index == 0
    third = walk(*[(FINE, 20, "go_on")] * 3)
    assert next_rung(third).index == 3
    assert next_rung([*third[:-1], replace(third[-1], decision="session_before")]).index == 1
    back = next_rung([*third[:-1], replace(third[-1], decision="step_back")])  # from step 2 to the first of step 1
    assert (back.index, back.place, back.lowered) == (0, 0, False)
    stopped = [replace(third[0], decision="stop")]
    assert standing_of(ROW, stopped).closed == "stopped"
    assert next_rung(stopped, lifted=1).index == 0


def test_all_thrown_is_done():
    log = [logged(Rung(i, place, ROW.steps[place])) for i, place in enumerate(ROW.order)]
    assert standing_of(ROW, log).closed == "done"


def test_a_step_back_from_the_first_step_is_one_slower_throw_and_then_the_way_up_again():
    log = walk((FINE, 20, "step_back"))
    found = standing_of(ROW, log).rungs
    first = ROW.steps[0]
    assert found[0].lowered
    assert found[0].step.speed_m_s < first.speed_m_s
    assert found[1].step == first
    below = one_below(ROW, first)
    ratios = {key: first.metrics[key] / below.metrics[key] - 1.0 for key in RISES}
    assert all(ratios[key] <= RISES[key] + 1e-9 for key in RISES)
    # some limit is used up: a throw slower still would need two steps
    assert max(ratios[key] / RISES[key] for key in ("peak", "shoulder_peak", "rise_rate", "braking", "speed")) > 0.97


def test_the_next_session_is_at_most_a_repeat_until_the_morning_is_entered_and_closed_without_pain_before_and_while():
    open_morning = replace(FINE, pain=JointPain("", 0, 0, 0, None))
    log = walk((FINE, 20, "go_on"), (open_morning, 20, "go_on"))
    assert next_rung(log).index == 1
    filled = [log[0], replace(log[1], notes=FINE)]
    assert next_rung(filled).index == 2
    unknown = [log[0], replace(log[1], notes=Notes(JointPain(before=0)))]
    assert standing_of(ROW, unknown).closed == "not_entered"
    assert standing_of(ROW, unknown).rungs == ()


def test_after_pain_the_next_session_has_no_more_throws_and_no_higher_speed_than_up_to_the_pain():
    log = walk((FINE, 20, "go_on"), (FINE, 20, "go_on"), (pain(throwing=3), 9, "go_on"))
    log[2] = replace(log[2], top_speed_m_s=0.95 * log[2].speed_m_s)
    found = standing_of(ROW, log)
    assert (found.most.throws, len(found.rungs)) == (9, 1)
    rung = found.rungs[0]
    assert rung.lowered
    assert rung.step.speed_m_s == pytest.approx(log[2].top_speed_m_s)
    assert rung.step.metrics["peak"] == pytest.approx(ROW.at(rung.step.ball, log[2].top_speed_m_s).metrics["peak"])


def test_pain_twice_in_a_row_is_a_step_back_and_three_times_a_stop_sign():
    once = walk((FINE, 20, "go_on"), (FINE, 20, "go_on"), (pain(throwing=2), 10, "repeat"))
    again = [*once, logged(next_rung(once), pain(throwing=2), 8, on(8), "step_back")]
    rung = next_rung(again)
    assert rung.place == 0
    assert all(rung.step.metrics[key] < again[-1].speed_m_s or key != "speed" for key in HELD_DOWN)
    most, _ = most_after(ROW, again)
    assert most.throws == 8
    third = [*again, logged(rung, pain(throwing=2), 5, on(12), "stop")]
    assert standing_of(ROW, third).closed == "stop_sign"
    assert [one.sign for one in new_signs(third, (), {})] == ["third_in_a_row"]


def test_a_step_below_pain_is_slower_and_no_longer_in_all():
    steep = heavy_row()
    slow = Rung(0, 0, steep.at(steep.steps[0].ball, 8.5))
    painful = [logged(slow, pain(throwing=2), 4, on(2 * i), "step_back") for i in range(2)]
    assert one_below(steep, slow.step).metrics["area"] > slow.step.metrics["area"]  # weight acts for longer
    assert most_after(steep, painful)[0].area_nms == pytest.approx(4 * slow.step.metrics["area"])


def test_a_stop_sign_that_was_withdrawn_counts_as_never_entered_and_one_of_another_plan_closes_this_one_too():
    swollen = replace(FINE, signs=("swelling",))
    log = [logged(Rung(0, 0, ROW.steps[0]), swollen, decision="go_on")]
    (sign,) = new_signs(log, (), {}, "a")
    mistaken = withdrawn((sign,), 0, Signed("AB", "coach", on(2), "another athlete"))
    assert standing_of(ROW, log, (sign,), plan="a").closed == "stop_sign"
    assert standing_of(ROW, log, mistaken, plan="a").rungs[0].index == 1
    assert new_signs(log, mistaken, {}, "a") == ()
    other = [logged(Rung(0, 0, ROW.steps[0]))]
    assert standing_of(ROW, other, (sign,), plan="b").closed == "stop_sign"


def test_before_anything_is_decided_the_next_session_is_closed():
    log = [logged(Rung(0, 0, ROW.steps[0]), decision="")]
    assert (standing_of(ROW, log).closed, standing_of(ROW, log).rungs) == ("not_decided", ())


def test_the_session_before_again_is_no_more_than_pain_allows():
    log = walk((FINE, 20, "go_on"), (FINE, 20, "go_on"), (FINE, 20, "go_on"))
    assert session_before(ROW, [], None) is None
    assert session_before(ROW, log, None).index == log[-1].index
    painful = [*log, logged(next_rung(log), pain(throwing=3), 9, on(8), "repeat", top_speed_m_s=20.0)]
    most, _ = most_after(ROW, painful)
    assert session_before(ROW, painful, most).step.speed_m_s == pytest.approx(20.0)


def test_a_plan_made_anew_counts_no_session_thrown_since_a_sign_that_was_entered_late():
    log = walk((FINE, 18, "go_on"), (FINE, 20, "go_on"), (FINE, 20, "go_on"), (FINE, 20, "go_on"))
    log[1] = replace(log[1], notes=replace(FINE, signs=("swelling",)))
    late = cleared(new_signs(log, (), {1: Signed("AB", "coach", on(9))}), Signed("PT", "clinician", on(9)))
    assert most_of(ROW, log, late).throws == 18


def test_pain_before_the_first_throw_goes_one_step_below_the_last_painless_session():
    log = walk((FINE, 20, "go_on"), (FINE, 18, "go_on"), (pain(before=2, throwing=None), 0, "step_back"))
    most, _ = most_after(ROW, log)
    below = one_below(ROW, ROW.steps[0])
    assert most.throws == 18
    assert most.metrics["peak"] == pytest.approx(below.metrics["peak"])
    assert next_rung(log).step.metrics["peak"] <= below.metrics["peak"] * (1.0 + 1e-9)


def test_after_a_session_without_pain_the_plan_climbs_from_there_by_its_own_limits():
    log = walk((FINE, 20, "go_on"), (FINE, 20, "go_on"), (pain(throwing=3), 9, "repeat"))
    log[2] = replace(log[2], top_speed_m_s=0.8 * log[2].speed_m_s)
    log.append(logged(next_rung(log), FINE, 9, on(8)))
    found = standing_of(ROW, log)
    assert found.most is None
    assert found.since_pain == log[3]
    steps = [ROW.at(log[3].ball, log[3].speed_m_s), *(rung.step for rung in found.rungs)]
    for low, high in itertools.pairwise(steps):
        for key, rise in RISES.items():
            assert high.metrics[key] <= low.metrics[key] * (1.0 + rise) * (1.0 + 1e-8)
    lowered = [rung for rung in found.rungs if rung.lowered]
    assert len(lowered) > 2  # 0.8 of the speed: the rise rate falls by half, at 15 % a step
    assert found.rungs[len(lowered)].step == ROW.steps[1]


def test_a_plan_of_several_balls_steps_back_to_none_that_is_higher_in_anything():
    steep = heavy_row()
    log = [
        logged(Rung(3, 3, steep.steps[3]), FINE, 20),
        logged(Rung(3, 3, steep.steps[3]), pain(throwing=2), 20, on(2)),
    ]
    log.append(logged(Rung(3, 3, steep.steps[3]), pain(throwing=2), 20, on(4), "step_back"))
    rung = standing_of(steep, log).rungs[0]
    most, _ = most_after(steep, log)
    assert all(rung.step.metrics[key] <= most.metrics[key] * (1.0 + 1e-9) for key in HELD_DOWN)


def test_a_licensed_clinicians_decision_goes_before_the_rules_but_not_before_a_stop_sign():
    log = walk((FINE, 20, "go_on"), (pain(throwing=3), 9, "go_on"))
    assert next_rung(log).index == 1
    decided = [log[0], replace(log[1], role="clinician")]
    assert next_rung(decided).index == 2
    assert standing_of(ROW, decided).most is None
    severe = [log[0], replace(log[1], role="clinician", notes=pain(throwing=6))]
    assert standing_of(ROW, severe).closed == "stop_sign"


def test_a_stop_sign_closes_the_plan_until_it_is_cleared_and_then_it_is_made_anew():
    log = walk((FINE, 20, "go_on"), (FINE, 20, "go_on"))
    sign = StopSign("swelling", on(2), 1, Signed("AB", "coach", on(2)))
    assert standing_of(ROW, log, (sign,)).closed == "stop_sign"
    clear = cleared((sign,), Signed("PT", "clinician", on(9)))
    assert standing_of(ROW, log, clear).closed == "plan_anew"
    mistaken = withdrawn((sign,), 0, Signed("AB", "coach", on(2), "another athlete"))
    assert next_rung(log, mistaken).index == 2
    most = most_of(ROW, log)
    assert (most.throws, most.metrics["speed"]) == (20, log[1].speed_m_s)


def test_a_plan_made_anew_without_any_painless_session_begins_below_the_first():
    log = walk((pain(throwing=6), 12, "stop"))
    assert most_of(ROW, log).metrics["speed"] < log[0].speed_m_s
    assert most_of(ROW, ()) is None


def test_a_limit_that_holds_until_it_is_cleared_stops_the_row_before_the_first_step_that_passes_it():
    third = ROW.steps[3]
    limit = {third.ball: third.share}
    found = standing_of(ROW, [], most_share=limit)
    assert found.closed == ""
    assert found.rungs[-1].place == 3
    assert standing_of(ROW, [], most_share={third.ball: 0.1}).closed == "limits"


def test_a_decision_to_stop_is_lifted_and_the_same_session_comes_again():
    log = walk((FINE, 20, "go_on"), (FINE, 20, "stop"))
    assert standing_of(ROW, log).closed == "stopped"
    assert next_rung(log, lifted=2).index == 1


# any log


@st.composite
def notes(draw) -> Notes:
    mild = st.sampled_from([0, 0, 0, 0, 1, 3])
    maybe = st.one_of(st.none(), mild)
    ratings = draw(st.tuples(mild, mild, maybe, st.sampled_from([0, 0, 0, None])))
    site = draw(st.sampled_from(["elbow", "shoulder"])) if max(one or 0 for one in ratings) else ""
    some = st.sampled_from([False, False, False, True, None])
    sore = Soreness(draw(some), draw(some), draw(some), draw(some), draw(st.sampled_from([False] * 9 + [True])))
    signs = draw(st.sampled_from([()] * 12 + [("swelling",), ("lost_speed",)]))
    return Notes(JointPain(site, *ratings), sore, signs, draw(st.sampled_from([False] * 5 + [True, None])))


Told = st.lists(
    st.tuples(notes(), st.integers(0, 30), st.sampled_from(OPEN), st.floats(0.8, 1.05), st.integers(0, 3)), max_size=9
)


def play(told, of=ROW) -> list[Logged]:
    """A log of sessions each of which was open when it was thrown, until none is."""
    log: list[Logged] = []
    for i, (noted, throws, decision, read, off) in enumerate(told):
        standing = standing_of(of, log, new_signs(log, (), {}))
        if not standing.rungs or standing.closed:
            break
        rung, most = standing.rungs[0], standing.most
        throws = min(throws, most.throws) if most else throws
        if throws == 0 and not (noted.painful or noted.signs):
            throws = 1
        top = min(read * rung.step.speed_m_s, 59.0)
        log.append(logged(rung, noted, throws, on(4 * i), decision, days_off=off, top_speed_m_s=top))
    return log


@settings(max_examples=60, deadline=None)
@given(Told, st.booleans())
def test_after_pain_and_until_a_session_without_nothing_planned_is_more_than_up_to_the_pain(told, heavy):
    of = heavy_row() if heavy else ROW
    log = play(told, of)
    for end in range(1, len(log) + 1):
        part = log[:end]
        since = [i for i, one in enumerate(part) if one.notes.painless]
        painful = [one for one in part[(since[-1] + 1 if since else 0) :] if one.notes.painful]
        for rung in standing_of(of, part, new_signs(part, (), {})).rungs:
            for one in painful:
                thrown = up_to_pain(one)
                if thrown == 0:
                    continue
                reached = of.at(one.ball, min(one.speed_m_s, one.top_speed_m_s))
                for key in HELD_DOWN:
                    assert rung.step.metrics[key] <= reached.metrics[key] * (1.0 + 1e-8)
                most = standing_of(of, part, new_signs(part, (), {})).most
                assert most.throws <= thrown
                assert most.area_nms <= thrown * reached.metrics["area"] * (1.0 + 1e-9)


def up_to_pain(one: Logged) -> int:
    """Throws up to the pain."""
    return facts_of([one])[0].thrown_up_to_pain


@settings(max_examples=60, deadline=None)
@given(Told)
def test_under_a_stop_sign_there_is_no_open_session_and_none_is_forgotten(told):
    log = play(told)
    signs = new_signs(log, (), {})
    assert new_signs(log, signs, {}) == ()
    found = standing_of(ROW, log, signs)
    if signs:
        assert (found.closed, found.rungs) == ("stop_sign", ())
        assert (
            standing_of(ROW, log[:-1], signs).closed == "stop_sign"
        )  # a session taken out of the log takes none along
    for one, advice in zip(log, map(advise, facts_of(log)), strict=True):
        assert bool(advice.signs) is any(sign.since == one.day for sign in signs)


@settings(max_examples=60, deadline=None)
@given(Told)
def test_what_follows_never_leaps_each_session_is_a_step_of_the_limits_from_the_one_before(told):
    log = play(told)
    found = standing_of(ROW, log, new_signs(log, (), {}))
    if not log or not found.rungs or found.most is not None:
        return
    steps = [ROW.at(log[-1].ball, log[-1].speed_m_s), *(rung.step for rung in found.rungs)]
    for low, high in itertools.pairwise(steps):
        for key, rise in RISES.items():
            assert high.metrics[key] <= low.metrics[key] * (1.0 + rise) * (1.0 + 1e-6)


def test_days_of_a_log_are_those_of_its_sessions():
    assert walk((FINE, 20, "go_on"))[0].day == FIRST
