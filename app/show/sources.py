"""Where what is said of effort and flight comes from."""

from model.effort import EffortCurve

FLIGHT_NOTE = (
    "Flight with drag in still air, without lift from spin: a long throw with backspin carries farther than said here, "
    "so it was slower than said."
)


def effort_source(curve: EffortCurve) -> str:
    """Say what a relation of speed to asked effort rests on.

    Parameters
    ----------
    curve : EffortCurve

    Returns
    -------
    str
    """
    published = "Fiegen 2023, ten high-school pitchers"
    if not curve.is_own:
        return f"From {published}; readings with an asked effort take its place."
    own = [point for point in curve.points if point.source == "own"]
    points = ", ".join(f"{100 * point.asked_effort:.0f} % ({point.readings})" for point in own)
    carried = any(point.source == "published" for point in curve.points)
    below = f"; below them the shape of {published}" if carried else ""
    return f"From this athlete’s own readings, asked effort (number): {points}{below}."
