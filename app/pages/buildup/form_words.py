"""What the form says and offers, beside what is typed into it. Pure."""

from typing import Any

from dash import html
from dash.development.base_component import Component

from app.pages.buildup.aims import Care, aim_named
from app.pages.buildup.athlete import Athlete, ball_value
from app.pages.buildup.first_limits import limit_words
from app.pages.buildup.given import Given
from app.pages.buildup.orders import between
from app.pages.buildup.wanted import Wanted
from app.pages.buildup.words import share_words
from app.records.plan_fields import BY_AIM, OWN, USUAL
from app.show.cautions import GROWING
from app.show.rack import name_of, rack_of
from app.show.subject import Case, is_same
from app.units.conversion import plain
from app.units.systems import System
from model.build_up import METRICS
from model.person import Person

INJURED = ("cleared_by", "cleared_role")
ALWAYS = ("weeks_off", "throws_week", "repeats", "first_throws")


def grows(person: Person | None) -> list[Component]:
    """The caution about growing throwers in full, with its source."""
    unknown = (
        [] if person is not None else [html.P("While measures are missing, this thrower counts as still growing.")]
    )
    return [html.P(GROWING[0], className="buildup-growing-text"), html.P(GROWING[1], className="source"), *unknown]


def is_asked(name: str, care: Care) -> bool:
    """Whether a field is to be filled in."""
    return (care.asks and name in ALWAYS) or (care.injury and name in INJURED)


def lead_choices(aim: str) -> list[dict[str, str]]:
    """What can be built up evenly."""
    leads = [{"value": key, "label": label} for key, (label, _) in METRICS.items()]
    return [{"value": BY_AIM, "label": f"by the aim: {METRICS[aim_named(aim).lead][0]}"}, *leads]


def goal_choices(case: Case) -> list[dict[str, str]]:
    """The balls a goal can be."""
    own = {"value": OWN, "label": f"by the aim: {name_of(case.own_ball, case)}"}
    return [own, *(one for one in rack_of(case) if one["value"] != ball_value(case.own_ball))]


def between_choices(wanted: Wanted, athlete: Athlete) -> list[dict[str, str]]:
    """The balls that can be the one in between, the usual one first."""
    balls = between(wanted, athlete)
    if not balls:
        return [{"value": USUAL, "label": "none lies in between"}]
    given = athlete.given is not None and is_same(balls[0], athlete.given.ball)
    why = "from Start" if given else "nearest to the middle"
    made = [{"value": USUAL, "label": f"{why}: {name_of(balls[0], athlete.case)}"}]
    return made + [{"value": ball_value(ball), "label": name_of(ball, athlete.case)} for ball in balls[1:]]


def given_parts(athlete: Athlete, system: System) -> list[Any]:
    """Say what came over from Start."""
    given = athlete.given
    if given is None:
        return []
    speed = _speed(athlete.case, given)
    at = "" if speed is None else f", {system.cap(speed, 'm/s')}"
    rows = [
        (
            "First throw",
            f"{name_of(given.ball, athlete.case)}, at {share_words(given.share)} of full speed with it{at}",
        ),
        ("Limits", _limits(given, system)),
        ("Certainty", f"{plain(100.0 * given.certainty, most=1)} %, each limit by itself"),
        ("100 % is", given.dated),
        *([("Taken over on", given.on.isoformat())] if given.on else []),
    ]
    return [
        html.Dl([part for term, said in rows for part in (html.Dt(term), html.Dd(said))], className="buildup-purpose")
    ]


def _speed(case: Case, given: Given) -> float | None:
    """The speed that came over (m/s), by what is known of full speed today."""
    profile = case.profile
    if profile is None or profile.posterior.own is None:
        return None
    return given.share * float(profile.mean_speed(given.ball.mass_kg).estimate)


def _limits(given: Given, system: System) -> list[Any]:
    limits = [limit_words(bound.key, amount, system) for bound, amount in given.ceilings.given()]
    return [html.Ul([html.Li(one) for one in limits])] if limits else ["none were set"]
