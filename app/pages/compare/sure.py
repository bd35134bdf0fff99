"""How sure each throw's difference from the reference is: with what is not known of movement, arm, ball and speeds."""

from app.pages.compare.answers import Answer
from app.pages.compare.current import Current
from app.show.against_reference import Against, against, against_another, thrown_as, who_throws
from model.drawn_throws import Subject, Thrown
from model.person import Person


def sure_of(current: Current) -> dict[str, Against]:
    """Hold every throw that is compared against the reference, by its uid; none without a reference."""
    comparison = current.compared()
    reference = comparison.reference
    if reference is None:
        return {}
    drawn = {one.key: _thrown(one, current) for one in comparison.drawn}
    who = {one.thrower: _subject(one, comparison.drawn, current) for one in comparison.drawn}
    key, second = comparison.reading.key, drawn[reference.key]
    own = [one for one in comparison.compared if one.thrower == reference.thrower]
    found = against(who[reference.thrower], [drawn[one.key] for one in own], second, key)
    sure = {one.key: held for one, held in zip(own, found, strict=True)}
    for one in comparison.compared:
        if one.key not in sure:
            there = (who[reference.thrower], second)
            sure[one.key] = against_another((who[one.thrower], drawn[one.key]), there, key)
    return sure


def _thrown(one: Answer, current: Current) -> Thrown:
    """A speed that was typed is taken as exact; one that follows from the profile is as uncertain as that."""
    ball, speed = one.throw.ball, one.throw.speed_m_s
    if ball is None or speed is None:
        raise ValueError(f"{one.name} has no curve")
    return thrown_as(ball, speed, current.profile(one.thrower) if one.throw.hold == "profile" else None)


def _subject(one: Answer, drawn: tuple[Answer, ...], current: Current) -> Subject:
    person, case = one.person, current.cases[one.thrower]
    if not isinstance(person, Person):
        raise ValueError(f"nobody is known to throw {one.name}")
    speeds = [each.throw.speed_m_s or 0.0 for each in drawn if each.thrower == one.thrower]
    return who_throws(person, case.own_ball, case.profile, max(speeds))
