"""What the profile says of every ball: a table of full speeds; and what the readings were taken as."""

from datetime import date

from dash import html
from dash.development.base_component import Component

from app.pages.athlete.wild import Wild
from app.records.fields import EARLIEST_DAY
from app.records.reads import AthleteData
from app.records.rows import counted as count_of
from app.show.counted import can_count, counts
from app.show.hundred import own_speed_known_by
from app.show.plain_table import plain_table, with_unit
from app.show.subject import OWN_BALL, Case, Fitted, is_same, mean_speeds
from model.day_speeds import SEASON_DAYS
from model.speed_readings import SAME_BALL_KG

BASIS_WORDS = {
    "all": "Every full-effort throw counts alike.",
    "mean": "Each ball counts by the mean of its throws, the more throws the more.",
    "best": "Each ball counts by its best throw. The best of several lies above the mean throw; the fit takes that "
    "excess off, so the curve still speaks of the mean full-effort throw.",
}


def counted(data: AthleteData, since: date | None, chosen: bool) -> str:
    """Say which readings count, and how many do not."""
    out = sum(can_count(one) and not counts(one, since) for one in data.readings)
    if since is None:
        return "All readings count." if data.readings else ""
    if chosen and since <= EARLIEST_DAY:
        return "All readings count, as was chosen."
    why = "as was chosen" if chosen else f"the last {SEASON_DAYS} days, about a season"
    older = f" {count_of(out, 'older reading')} in grey and not counted." if out else ""
    return f"Readings since {since} count: {why}.{older}"


def used(case: Case, which: str = "") -> list[Component]:
    """Say what the profile works from, which own-ball speed is used, and which readings count."""
    profile = case.profile
    if profile is None:
        return [html.P("Complete the measures: the fit needs the arm.", className="invitation")]
    basis = BASIS_WORDS.get(profile.basis, "")
    full = sum(reading.asked_effort == 1.0 for reading in case.found.used)
    lines = [f"{count_of(full, 'full-effort reading')}. {basis}" if full else "No full-effort reading yet."]
    if profile.left_out:
        lines.append(f"{count_of(len(profile.left_out), 'reading')} at less than full effort stay out of the fit.")
    own = case.found.own_speed
    ball = case.mass(case.own_ball.mass_kg)
    if own is None:
        lines.append(f"Own ball: {ball}. No speed with it yet.")
    else:
        lines.append(
            f"Own ball: {ball}, full speed {case.speed(own.estimate)} {case.speed_unit}, from {_source(case)}."
        )
    if not case.reference.found:
        lines.append(f"There is no own ball with a mass yet: it is taken to be {case.mass(OWN_BALL.mass_kg)}.")
    return [html.P(" ".join([*lines, *([which] if which else [])]), role="status")]


def _source(case: Case) -> str:
    profile = case.profile
    if profile is not None and profile.own_speed_is_given:
        if case.choices.own_speed_m_s is not None:
            return "what was typed above"
        return f"the reference throw ({case.reference.known})"
    return "the readings with it" if own_speed_known_by(case) == "readings" else "the readings with the other balls"


def table(case: Case) -> Component | None:
    """Make the table of full speeds, ball by ball; None while nothing is known of the own-ball speed."""
    profile = case.profile
    if profile is None or profile.posterior.own is None:
        return None
    masses = tuple(ball.mass_kg for ball in case.rack)
    mean, one = mean_speeds(Fitted(profile), masses), profile.next_speed(masses)
    full = [read.ball_mass_kg for read in case.found.used if read.asked_effort == 1.0]
    rows = []
    for i, ball in enumerate(case.rack):
        count = sum(abs(mass - ball.mass_kg) < SAME_BALL_KG for mass in full)
        own = [html.Span(" own", className="unit")] if is_same(ball, case.own_ball) else []
        between = html.Span(f" {case.speed(mean.low[i])}–{case.speed(mean.high[i])}", className="kind")
        speed = [html.Strong(case.speed(mean.estimate[i])), between]
        following = f"{case.speed(one.low[i])}–{case.speed(one.high[i])}"
        rows.append(([case.mass(ball.mass_kg), *own], speed, following, str(count) if count else "–"))
    unit = f"{case.speed_unit}, 90 %"
    heads = ("Ball", with_unit("Mean full throw", unit), with_unit("Next throw", unit), "Readings")
    return plain_table("Full speed with each ball, by the fit.", heads, rows, "speeds-table")


def figure_note(case: Case) -> str:
    """Say what the plot shows and how it is read."""
    profile = case.profile
    if profile is None or profile.posterior.own is None:
        return "The curve begins with one full-effort speed with the own ball."
    p, noise = profile.exponent(), profile.noise()
    prior = ", as the published range has it" if profile.exponent_is_prior else ""
    joint = "elbow" if case.choices.joint == "varus" else "shoulder"
    scatter = (
        ""
        if profile.exponent_is_prior
        else f" Throws scatter by {100 * noise.estimate:.1f} % ({100 * noise.low:.1f} to {100 * noise.high:.1f})."
    )
    return (
        f"Band: 90 % of the mean full-effort throw{prior}; p {p.estimate:.2f} ({p.low:.2f} to {p.high:.2f}).{scatter} "
        f"Grey lines: the speed at which a ball loads the {joint} as much as the own ball at full speed does. "
        "Faster than a line, that readout is higher than with the own ball; slower, lower. "
        "Open circles are readings asked at less than full effort."
    )


def wild_notes(found: tuple[Wild, ...]) -> list[Component]:
    """Name the flagged readings."""
    return [html.Ul([html.Li(one.sentence) for one in found], className="beyond")] if found else []
