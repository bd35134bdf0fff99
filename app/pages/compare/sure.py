"""How sure each throw's difference from the reference is: with what is not known of movement, arm, ball and speeds."""

from app.pages.compare.answers import Answer, Comparison
from app.pages.compare.current import Current
from app.show.against_reference import Against, against, against_another, thrown_as, who_throws
from model.drawn_throws import Subject, Thrown


def sure_of(current: Current, comparison: Comparison) -> dict[str, Against]:
    """Hold every throw that is compared against the reference, by its uid; none without a reference."""
    reference = comparison.reference
    if reference is None:
        return {}
    second, key = _drawn(reference, comparison, current), comparison.reading.key
    own = [one for one in comparison.compared if one.thrower == reference.thrower]
    throws = [_drawn(one, comparison, current)[1] for one in own]
    found = against(second[0], throws, second[1], key)
    sure = {one.key: held for one, held in zip(own, found, strict=True)}
    for one in comparison.compared:
        if one.key not in sure:
            sure[one.key] = against_another(_drawn(one, comparison, current), second, key)
    return sure


def _drawn(one: Answer, comparison: Comparison, current: Current) -> tuple[Subject, Thrown]:
    """Who throws, and the throw: a typed speed is exact, one that follows from the profile as uncertain as that."""
    throw, case = one.throw_drawn, current.cases[one.thrower]
    fastest = max(each.throw_drawn.speed_m_s for each in comparison.drawn if each.thrower == one.thrower)
    profile = case.profile if one.throw.hold == "profile" else None
    subject = who_throws(throw.person, case.own_ball, case.profile, fastest)
    return subject, thrown_as(throw.ball, throw.speed_m_s, profile)
