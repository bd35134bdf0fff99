"""What the rules allow after a session: the printed soreness rules line by line; pain at a joint never less strict."""

from itertools import product

import pytest

from model.checks import InputError
from model.published import values
from model.session_rules import (
    ACTIONS,
    FOUND_SIGNS,
    OPEN,
    PRINTED,
    RULES,
    STOP_SIGNS,
    URGENT_SIGNS,
    Facts,
    JointPain,
    Notes,
    Soreness,
    advise,
    no_more_than,
)

NONE = JointPain("", 0, 0, 0, 0)


def noted(pain: JointPain = NONE, soreness: Soreness | None = None, **more) -> Notes:
    return Notes(
        pain, soreness or Soreness(False, False, False, False), painkiller=more.pop("painkiller", False), **more
    )


def after(pain: JointPain = NONE, soreness: Soreness | None = None, thrown: int = 20, **more) -> tuple[str, int | None]:
    facts = {name: more.pop(name) for name in ("painful_in_a_row", "painless_before", "was_repeat") if name in more}
    facts = {"painless_before": True, "painful_in_a_row": int(noted(pain, soreness).painful)} | facts
    found = advise(Facts(noted(pain, soreness, **more), thrown, **facts))
    return found.action, found.days_off


@pytest.mark.parametrize(
    ("soreness", "action", "days_off"),
    [
        # values.csv 9-load-rules-15, as two clinics print them: line by line
        (Soreness(False, False, False, False), "go_on", 0),  # no soreness: advance one step every throwing day
        (Soreness(True, False, False, False), "session_before", 0),  # sore in warm-up, gone within 10-15: repeat
        (Soreness(True, True, False, False), "step_back", 2),  # sore again in that session, or on through it
        (Soreness(False, False, True, False), "repeat", 1),  # sore more than an hour after
        (Soreness(False, False, False, True), "repeat", 1),  # or the next day: a day off, repeat
    ],
)
def test_the_printed_soreness_rules_stand_whole(soreness, action, days_off):
    assert {values()[row].topic for row in ("9-load-rules-12", "9-load-rules-15")} == {"9-load-rules"}
    assert after(soreness=soreness) == (action, days_off)
    assert advise(Facts(noted(soreness=soreness), 20)).rule.source == PRINTED


def test_who_threw_the_session_before_again_and_had_no_more_soreness_goes_on_from_there():
    sore = Soreness(True, False, False, False)
    assert after(soreness=sore, was_repeat=True) == ("go_on", 0)
    assert after(soreness=Soreness(True, True, False, False), was_repeat=True) == ("step_back", 2)


@pytest.mark.parametrize(
    ("pain", "row", "thrown", "action"),
    [
        (JointPain("elbow", 0, 2, 0, 0), 1, 12, "repeat"),
        (JointPain("elbow", 0, 0, 1, 0), 1, 20, "repeat"),
        (JointPain("elbow", 2, None, 0, 0), 1, 0, "step_back"),  # before the first throw: no throwing that day
        (JointPain("elbow", 2, 2, 0, 0), 1, 15, "step_back"),  # thrown in spite of it: nothing counts as painless
        (JointPain("shoulder", 0, 2, 0, 0), 2, 12, "step_back"),
        (JointPain("shoulder", 0, 2, 0, 0), 3, 12, "stop"),
        (JointPain("shoulder", 0, 2, 0, 0), 4, 12, "stop"),
        (JointPain("elbow", 0, 5, 0, 0), 1, 12, "stop"),
        (JointPain("elbow", 0, 1, 1, 1), 1, 12, "stop"),  # still there the next morning
    ],
)
def test_pain_at_a_joint_by_when_it_came_and_how_often_in_a_row(pain, row, thrown, action):
    assert after(pain, thrown=thrown, painful_in_a_row=row)[0] == action


def test_pain_before_the_first_throw_and_no_painless_session_yet_is_a_stop_sign():
    pain = JointPain("elbow", 3, None, None, None)
    assert advise(Facts(noted(pain), 0, 1, painless_before=False)).signs == ("no_painless",)
    assert after(pain, thrown=0, painless_before=False)[0] == "stop"


def test_not_entered_is_not_none():
    for pain in (JointPain(), JointPain(before=0), JointPain(throwing=0)):
        assert after(pain) == ("closed", None)
    assert after(JointPain(before=0, throwing=0)) == ("repeat", 0)  # until the morning is entered
    assert after(JointPain(before=0, throwing=0, next_morning=0)) == ("go_on", 0)
    assert after(painkiller=None)[0] == "repeat"


def test_with_a_painkiller_no_session_counts_as_painless():
    assert after(painkiller=True)[0] == "repeat"
    assert not noted(painkiller=True).painless
    assert noted().painless


def test_soreness_of_over_three_days_or_in_one_spot_is_treated_as_pain_at_the_joint():
    for sore in (Soreness(True, True, False, False, over_three_days=True), Soreness(False, one_spot=True)):
        assert noted(soreness=sore).painful
        assert not noted(soreness=sore).painless
        assert after(soreness=sore, painful_in_a_row=3)[0] == "stop"


@pytest.mark.parametrize("sign", [*STOP_SIGNS, *URGENT_SIGNS])
def test_every_sign_stops_whatever_else_was_noted(sign):
    assert after(signs=(sign,))[0] == ("urgent" if sign in URGENT_SIGNS else "stop")
    assert after(JointPain(), signs=(sign,))[0] not in OPEN
    assert not noted(signs=(sign,)).painless


def everything():
    """All that can be noted, coarsely: some 70 000 sessions."""
    pains = [
        JointPain("elbow" if max(r or 0 for r in ratings) else "", *ratings)
        for ratings in product((None, 0, 2), (None, 0, 2, 6), (None, 0, 2), (None, 0, 2))
    ]
    sores = [
        Soreness(*four, *two)
        for four in product((None, False, True), repeat=4)
        for two in ((False, False), (True, False))
    ]
    for pain, sore in product(pains, sores[::7]):
        for sign, painkiller, held, row in product(
            ((), ("swelling",)), (None, False, True), (None, False), (0, 1, 2, 3)
        ):
            notes = Notes(pain, sore, sign, painkiller, held)
            yield Facts(notes, 10, row if notes.painful else 0, painless_before=bool(row % 2))


def test_of_all_combinations_none_contradicts_itself():
    found = set()
    for facts in everything():
        advice, notes = advise(facts), facts.notes
        found.add(advice.rule.key)
        if advice.signs:
            assert advice.action in ("stop", "urgent")
            assert advice.days_off is None
        if notes.painful:
            assert ACTIONS.index(advice.action) >= ACTIONS.index("repeat")
        if advice.action == "go_on":
            assert notes.painless
            assert notes.speed_held is not False
        if advice.action in OPEN:
            assert advice.days_off >= max((rule.days_off or 0 for rule in advice.also), default=0)
        # no rule that applies asks for more than what is advised
        assert all(no_more_than(rule.action, advice.action) == advice.action for rule in advice.also)
    assert found == {rule.key for rule in RULES} - {"urgent"}


def test_more_pain_or_more_soreness_never_allows_more():
    for facts in everything():
        least = ACTIONS.index(advise(facts).action)
        if (facts.notes.pain.throwing or 0) == 0 and facts.notes.pain.throwing is not None:
            pain = facts.notes.pain
            worse = JointPain("elbow", pain.before, 3, pain.hour_after, pain.next_morning)
            row = max(1, facts.painful_in_a_row)
            notes = Notes(
                worse, facts.notes.soreness, facts.notes.signs, facts.notes.painkiller, facts.notes.speed_held
            )
            assert ACTIONS.index(advise(Facts(notes, 10, row, facts.painless_before)).action) >= least


def test_what_is_decided_is_never_more_than_what_is_allowed():
    assert no_more_than("go_on", "repeat") == "repeat"
    assert no_more_than("step_back", "repeat") == "step_back"


@pytest.mark.parametrize("rating", [-1, 11, 2.5, float("nan")])
def test_a_rating_that_is_none_is_refused_by_name(rating):
    with pytest.raises(InputError, match="throwing"):
        JointPain("elbow", 0, rating)


def test_pain_without_a_joint_and_unknown_signs_are_refused():
    with pytest.raises(InputError, match="site"):
        JointPain("", 0, 2)
    with pytest.raises(InputError, match="site"):
        JointPain("knee", 0, 2)
    with pytest.raises(InputError, match="signs"):
        Notes(signs=("tired",))
    assert set(FOUND_SIGNS) == {"severe", "morning_pain", "third_in_a_row", "no_painless"}
