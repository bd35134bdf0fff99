"""What the page says: shares in words, what is missing, where the speeds come from, how the map is read."""

import math

from app.pages.map.answers import MapAnswer
from app.show.ball_words import throw_words, value_words
from app.show.checked_range import beyond
from app.show.hundred import Hundred, hundred_words
from app.show.numbers import share_of
from app.show.quantities import title
from model.channels import READINGS
from model.quantity import READOUTS, Quantity

CLICK = "A click on the map adds the throw there to Compare; by keyboard, the two fields and the button do."
FULL_SPEED = "full speed, 90 % interval"
PRIOR = "prior, not this athlete: full speed"


def quantity_words(quantity: Quantity) -> str:
    """Name the quantity of the map, for example "Varus torque at the elbow, peak"."""
    return f"{title(READINGS[quantity.reading])}, {READOUTS[quantity.readout].label}"


def share_words(value: float, reference: float, kind: str) -> str:
    """Write a value in per cent of the reference's, with the kind of the reference."""
    share = share_of(value, reference)
    return f"{math.floor(share + 0.5)} % of {kind}" if math.isfinite(share) else "no per cent"


def base_words(hundred: Hundred) -> str:
    """Name the throw that is 100 %: the reference throw, or the full speed that the speed profile knows."""
    return "the reference throw" if hundred.of == "reference" else "the own ball at full speed"


def profile_words(answer: MapAnswer) -> str:
    """Say where the line of full speed and its band come from."""
    if answer.speeds is None:
        return ""
    full = [reading for reading in answer.readings if reading.asked_effort == 1.0]
    if answer.on_prior:
        told = "No readings" if not full else "Readings with one ball only"
        return (
            f"{told}: how much this athlete slows down with another ball is not known. The line and its band are the "
            "prior from published groups, not this athlete."
        )
    balls = len({round(reading.ball_mass_kg, 4) for reading in full})
    return (
        f"Line and band: this athlete’s mean full-effort throw with its 90 % interval, from {len(full)} readings with "
        f"{balls} balls."
    )


def notes(answer: MapAnswer) -> list[str]:
    """Say what the map is counted from, where its speeds come from, and what leaves the checked range."""
    hundred, window = answer.hundred, answer.window
    if hundred is None or window is None:
        return []
    said = [hundred_words(hundred, answer.case), profile_words(answer)]
    if not answer.contours:
        said.append(_no_lines(answer))
    masses = (window.mass_low_kg, window.mass_high_kg)
    said.append(beyond(masses, (window.speed_low_m_s, window.speed_high_m_s), "Part of the map", answer.case.system))
    outside = [
        number
        for number, ball, speed in answer.thrown
        if not (masses[0] <= ball.mass_kg <= masses[1] and window.speed_low_m_s <= speed <= window.speed_high_m_s)
    ]
    if outside:
        names = ("throw " if len(outside) == 1 else "throws ") + ", ".join(str(number) for number in outside)
        said.append(f"Outside the map: {names} of Compare. Other ends of the axes show more.")
    return [text for text in said if text]


def _no_lines(answer: MapAnswer) -> str:
    if math.isfinite(answer.value) and answer.value > 0.0:
        return "No line falls in this part of the map."
    readout = READOUTS[answer.quantity.readout].label
    return f"No lines: {readout} is not defined for the throw that is 100 %, so nothing can be counted from it."


def figure_note(answer: MapAnswer) -> str:
    """Say how the map is read."""
    hundred = answer.hundred
    if hundred is None:
        return ""
    parts = [
        "Along a line the quantity stays the same; the deeper the shading, the more of it. The thick line is the level "
        f"line: as much as {base_words(hundred)}, which is the diamond.",
    ]
    if READINGS[answer.quantity.reading].braking:
        parts.append("After release the hand is empty: only the clock counts, and the lines lie level.")
    if answer.readings:
        parts.append("Dots are radar readings, open ones at less than full effort.")
    if answer.thrown:
        parts.append("Squares are the throws of Compare.")
    parts.append("Bold masses are balls of the rack.")
    diameter = answer.case.system.text(hundred.throw.ball.diameter_m, "mm", most=1)
    parts.append(f"Drawn for balls of {diameter}.")
    return " ".join(parts)


def looked_words(answer: MapAnswer) -> str:
    """Say the readings of the throw that is looked at in one sentence, for those who hear it."""
    looked, hundred = answer.looked, answer.hundred
    if looked is None or hundred is None:
        return ""
    source = READINGS[answer.quantity.reading]
    parts = []
    for key, readout in READOUTS.items():
        value, reference = (float(getattr(one, key)) for one in (looked.readouts, looked.reference))
        parts.append(
            f"{readout.label} {value_words(value, Quantity(source.key, key).unit)}, "
            f"{share_words(value, reference, hundred.kind)}"
        )
    return f"{throw_words(looked.throw, answer.case.system)}, {source.label}: {'; '.join(parts)}."
