"""The words of the rules: each has some, and of all combinations none says two things at once."""

import pytest

from app.pages.buildup.rule_words import (
    ACTION_WORDS,
    CLEARING,
    CLOSED_WORDS,
    DECIDED_WORDS,
    DECISION_WORDS,
    ENDS_THE_SESSION,
    NO_THROWING_TODAY,
    REASONS,
    ROLE_WORDS,
    SOURCES,
    advice_lines,
    allowed_decisions,
    ratings_words,
    soreness_words,
    stop_sign_words,
)
from model.course import CLOSED
from model.session_log import DECISIONS
from model.session_rules import ACTIONS, OPEN, RULES, JointPain, Notes, Soreness, advise
from model.stop_signs import ROLES, Signed, StopSign
from tests.app.pages.buildup.conftest import TODAY, pain, thrown
from tests.notes.session_rules import combinations, line

AGAIN = ("again", "step back", "next session of the plan")


def test_every_rule_action_decision_role_and_reason_has_words():
    assert set(REASONS) == {rule.key for rule in RULES}
    assert {rule.source for rule in RULES} == set(SOURCES)
    assert set(ACTION_WORDS) == set(ACTIONS)
    assert set(DECIDED_WORDS) == set(DECISIONS) == {"", *DECISION_WORDS}
    assert set(ROLE_WORDS) == set(ROLES) == {"athlete", *CLEARING}
    assert set(CLOSED_WORDS) == set(CLOSED) - {""}


def test_of_all_combinations_none_says_two_things_at_once():
    seen = set()
    for named, facts in combinations():
        advice = advise(facts)
        lines, told = advice_lines(advice, facts), line(named, advice)
        seen.add(advice.rule.key)
        if advice.signs:  # then nothing is said of throwing again
            assert not any(words in one for one in lines for words in AGAIN), told
            assert "no throwing" in lines[0].lower(), told
        else:
            reasons = " ".join(lines[1:])
            assert ACTION_WORDS[advice.action] in lines[0] or advice.action == "closed", told
            for rule in (advice.rule, *advice.also):
                assert REASONS[rule.key] in reasons, told
                assert SOURCES[rule.source] in reasons, told
            # every other rule says "at most": with what the strictest asks for, it is kept too
            assert all("at most" in REASONS[rule.key] or rule.key in ("none", "not_entered") for rule in advice.also)
        assert (NO_THROWING_TODAY in lines) is ((facts.notes.pain.before or 0) > 0), told
        if ENDS_THE_SESSION in lines:
            assert "the next session" not in lines[0], told
    assert seen == set(REASONS)


def test_what_is_missing_is_said_last():
    def said(notes):
        facts = next(facts for _, facts in combinations())
        facts = type(facts)(notes, 12)
        return advice_lines(advise(facts), facts)[-1]

    sore = Soreness(False, False, False, False)
    assert said(Notes(JointPain("", 0, 0, 0, None), sore, painkiller=False)) == "Not entered: pain on the next morning."
    assert said(Notes(JointPain("elbow", 2), sore)) == (
        "Not entered: pain on the next morning, whether a painkiller was taken."
    )


@pytest.mark.parametrize("action", ACTIONS)
def test_only_what_the_rules_allow_is_offered_and_to_a_clinician_all_but_under_a_sign(action):
    offered = allowed_decisions(action, clinician=False, signs=False, before=True)
    if action not in OPEN:
        assert offered == allowed_decisions(action, clinician=True, signs=False, before=True) == {}
        return
    assert list(offered) == [*OPEN[OPEN.index(action) :], "stop"]
    assert list(allowed_decisions(action, clinician=True, signs=False, before=True)) == [*OPEN, "stop"]
    assert "session_before" not in allowed_decisions(action, clinician=True, signs=False, before=False)
    assert allowed_decisions(action, clinician=True, signs=True, before=True) == {}


def test_a_stop_sign_is_said_with_its_session_and_what_became_of_it():
    by = Signed("AB", "coach", TODAY, "seen at rest")
    sign = StopSign("swelling", TODAY, 2, by, withdrawn=Signed("CD", "parent", TODAY, "another athlete"), plan="a")
    assert stop_sign_words(sign, "a") == (
        "Swelling (session 3, 2026-03-02; entered by AB, coach: seen at rest). Withdrawn by CD, parent, 2026-03-02: "
        "another athlete."
    )
    assert "session" not in stop_sign_words(sign, "b")


def test_what_was_not_entered_is_a_dash_and_no_nought(made):
    one = thrown(made(), "repeat", pain(throwing=3, hour_after=None, next_morning=None))
    assert ratings_words(one) == "elbow 0 / 3 / – / –"
    assert soreness_words(one) == "none"
    assert soreness_words(thrown(made(), "", Notes())) == "–"
    sore = Notes(soreness=Soreness(True, None, False, None, one_spot=True))
    assert soreness_words(thrown(made(), "", sore)) == "in the warm-up, in one spot"
