"""What goes over from Start to Build up: a first throw, and the limits it was found under. Read back with distrust."""

from dataclasses import dataclass
from datetime import date
from typing import Any

from app.show.throw_form import LONGEST_KEPT, FormError
from model.ball import Ball
from model.build_up import SHARE_LIMIT
from model.ceilings import BOUNDS, Amount, Ceilings, Reference
from model.checks import InputError, check_number
from model.start import CERTAINTY_LIMIT

VERSION = 1


@dataclass(frozen=True)
class FromStart:
    """A first throw as Start proposed it and a person chose it.

    Attributes
    ----------
    who : str
        Whose arm, as `app.show.whose.whose` takes it.
    code : str
        The athlete's.
    ball : Ball
    share : float
        Of full speed with the ball, rounded so as not to pass a limit.
    ceilings : Ceilings
    certainty : float
    reference : Reference
    dated : str
        Its kind and day, as they stand beside every per cent.
    """

    who: str
    code: str
    ball: Ball
    share: float
    ceilings: Ceilings
    certainty: float
    reference: Reference
    dated: str


def to_json(given: FromStart) -> dict[str, object]:
    """Write it as plain data, for the browser to keep."""
    reference = given.reference
    return {
        "version": VERSION,
        "who": given.who,
        "code": given.code,
        "ball": {"mass_kg": given.ball.mass_kg, "diameter_m": given.ball.diameter_m},
        "share": given.share,
        "limits": {
            bound.key: {"value": amount.value, "absolute": amount.absolute} for bound, amount in given.ceilings.given()
        },
        "certainty": given.certainty,
        "reference": {
            "kind": reference.kind,
            "speed_m_s": reference.speed_m_s,
            "measured_on": reference.measured_on.isoformat() if reference.measured_on else None,
            "relative_sd": reference.relative_sd,
        },
        "dated": given.dated,
    }


def from_json(kept: object) -> FromStart:
    """Read what the browser kept.

    Parameters
    ----------
    kept : object

    Returns
    -------
    FromStart

    Raises
    ------
    FormError
        If it is anything but what `to_json` writes, or a value in it is not accepted.
    """
    if not isinstance(kept, dict) or kept.get("version") != VERSION:
        raise FormError("unknown shape")
    try:
        return _read(kept)
    except (InputError, KeyError, TypeError, ValueError, AttributeError) as error:
        raise FormError(str(error)[:LONGEST_KEPT]) from None


def _read(kept: dict[str, Any]) -> FromStart:
    limits = {
        key: Amount(_number(one["value"]), one["absolute"] is True)
        for key, one in kept["limits"].items()
        if key in BOUNDS
    }
    reference = kept["reference"]
    day = reference["measured_on"]
    return FromStart(
        _text(kept["who"]),
        _text(kept["code"]),
        Ball(_number(kept["ball"]["mass_kg"]), _number(kept["ball"]["diameter_m"])),
        check_number("share", _number(kept["share"]), SHARE_LIMIT),
        Ceilings(**limits),
        check_number("certainty", _number(kept["certainty"]), CERTAINTY_LIMIT),
        Reference(
            _text(reference["kind"]),
            _maybe_number(reference["speed_m_s"]),
            None if day is None else date.fromisoformat(_text(day)),
            _maybe_number(reference["relative_sd"]),
        ),
        _text(kept["dated"]),
    )


def _number(given: object) -> float:
    if isinstance(given, bool) or not isinstance(given, int | float):
        raise TypeError("number")
    return float(given)


def _maybe_number(given: object) -> float | None:
    return None if given is None else _number(given)


def _text(given: object) -> str:
    if not isinstance(given, str) or len(given) > LONGEST_KEPT:
        raise TypeError("text")
    return given
