"""The claim as it was typed and chosen, as texts: two balls, a joint, how both are thrown, more or less."""

from dataclasses import dataclass, replace

from app.records.reads import AthleteData
from app.show.from_records import setting_text
from app.show.rack import texts_of
from app.show.subject import Case, shown_ball
from app.units.typed import read_typed
from model.speed_readings import SAME_BALL_KG

JOINTS = {
    "varus": "the elbow",
    "internal_rotation": "the shoulder",
    "horizontal_abduction": "the shoulder, in braking,",
}
"""What is loaded, as a claim calls it, by the reading it is read from."""

WAYS = {"more": "more", "less": "less"}
"""Which way the claim goes: key, and the words of the page."""

THROWN = {
    "profile": "each at full speed",
    "same": "both at the same speed",
    "typed": "each at a typed speed",
}
"""How the two throws are held: key, and the words of the page."""


@dataclass(frozen=True)
class ClaimForm:
    """All that a person has put in on this page.

    Attributes
    ----------
    reading, way, thrown : str
        Keys of `JOINTS`, `WAYS` and `THROWN`.
    first_mass_g, first_diameter_mm, first_speed_m_s : str
        The first ball and its typed speed: of it, more or less is claimed.
    second_mass_g, second_diameter_mm, second_speed_m_s : str
        The one it is compared with.
    same_speed_m_s : str
        Speed of both; empty for full speed with the own ball.
    """

    reading: str = "varus"
    way: str = "more"
    thrown: str = "profile"
    first_mass_g: str = ""
    first_diameter_mm: str = ""
    first_speed_m_s: str = ""
    second_mass_g: str = ""
    second_diameter_mm: str = ""
    second_speed_m_s: str = ""
    same_speed_m_s: str = ""

    @property
    def no_balls(self) -> bool:
        """Whether neither ball was given."""
        return not self.first_mass_g.strip() and not self.second_mass_g.strip()

    @property
    def more(self) -> bool:
        """Whether more is claimed of the first ball."""
        return self.way != "less"

    @property
    def held(self) -> str:
        """How the throws are held: a key of `THROWN`."""
        return self.thrown if self.thrown in THROWN else "profile"


PATHS = {
    "reading": "claim.reading",
    "way": "claim.way",
    "thrown": "claim.thrown",
    **{
        f"{which}_{part}": f"claim.{which}_{path}"
        for which in ("first", "second")
        for part, path in (("mass_g", "mass_kg"), ("diameter_mm", "diameter_m"), ("speed_m_s", "speed_m_s"))
    },
    "same_speed_m_s": "claim.same_speed_m_s",
}
"""The athlete's setting of each part."""


def form_of(data: AthleteData) -> ClaimForm:
    """What an athlete's settings say."""
    return ClaimForm(**{name: setting_text(data, path) for name, path in PATHS.items()})


def usual_texts(form: ClaimForm, case: Case) -> dict[str, str]:
    """What counts where a ball's fields were left empty.

    Parameters
    ----------
    form : ClaimForm
    case : Case

    Returns
    -------
    dict of str to str
        Mass (g) and diameter (mm) of both balls, by their names in the form: the rack's nearest to twice the own
        ball's mass, and the own ball. A mass that was typed has the diameter of the rack's ball of that mass, else
        the own ball's.
    """
    made: dict[str, str] = {}
    for which, usual in (("first", shown_ball(case)), ("second", case.own_ball)):
        mass, diameter = texts_of(usual)
        typed = read_typed(getattr(form, f"{which}_mass_g"), "g")
        if typed is not None:
            same = [ball for ball in case.rack if abs(ball.mass_kg - typed.si) < SAME_BALL_KG]
            _, diameter = texts_of(same[0] if same else case.own_ball)
        made |= {f"{which}_mass_g": mass, f"{which}_diameter_mm": diameter}
    return made


def with_usual(form: ClaimForm, case: Case) -> ClaimForm:
    """The form with the usual balls where their fields were left empty."""
    usual = usual_texts(form, case)
    return replace(form, **{name: text for name, text in usual.items() if not getattr(form, name).strip()})


def swapped(form: ClaimForm) -> ClaimForm:
    """Let the two balls change places, each with its typed speed.

    Parameters
    ----------
    form : ClaimForm

    Returns
    -------
    ClaimForm
    """
    return replace(
        form,
        first_mass_g=form.second_mass_g,
        first_diameter_mm=form.second_diameter_mm,
        first_speed_m_s=form.second_speed_m_s,
        second_mass_g=form.first_mass_g,
        second_diameter_mm=form.first_diameter_mm,
        second_speed_m_s=form.first_speed_m_s,
    )
