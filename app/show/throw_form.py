"""The form as it was typed: text and choices, nothing worked out. Everything the page shows follows from it.

It is what the browser keeps and sends, so it is read with distrust and changed only by the pure functions here.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from app.demo import DemoAthlete
from app.show.form_fields import HOLD_FIELDS, LENGTHS, MARK, MEASURES

OTHER = "other"  # who throws, where it is the second thrower; the first is ""
MOST_THROWS = 8
LONGEST_KEPT = 200  # characters of a field that a stored form may hold
DEFAULT_DIAMETER = "73"

KINDS = {"measured": "measured", "before": "from before an injury", "estimated": "estimated"}
"""How the reference is known: key, and the words of the page."""

ALIGNED = {"release": "release", "rotation": "maximum external rotation", "contact": "foot contact"}
"""The instant that is 0 on the time axis for every throw, in words."""

SCALES = {"plain": "plain units", "reference": "% of reference peak", "bwh": "%BW·H"}
"""What the curves are measured in; %BW·H is per cent of body weight times height."""

CHOSEN_NAMES = ("reference", "kind", "date", "quantity", "headline", "above", "align", "scale")
"""What is chosen or typed once for all throws."""

ATHLETE_NAMES = ("code", "sex", "handedness", *(f.name for f in MEASURES), *(f.name for f in LENGTHS), MARK)
BEFORE_MARK_NAMES = ATHLETE_NAMES[:-1]


@dataclass(frozen=True)
class ThrowForm:
    """One line of the list of throws, as typed: a ball, how the throw is held, the one number that goes with that, and
    who throws it.
    """

    key: str
    ball_mass_g: str = ""
    ball_diameter_mm: str = DEFAULT_DIAMETER
    speed_m_s: str = ""
    hold: str = "speed"
    clock_percent: str = ""
    share_percent: str = ""
    by: str = ""

    @property
    def thrower(self) -> str:
        """Who throws it: "" or `OTHER`."""
        return OTHER if self.by == OTHER else ""

    @property
    def held(self) -> str:
        """How the throw is held: a key of `HOLD_FIELDS`."""
        return self.hold if self.hold in HOLD_FIELDS else "speed"

    @property
    def typed(self) -> str:
        """The number that goes with the hold, as typed."""
        return str(getattr(self, HOLD_FIELDS[self.held].name))

    @property
    def blank(self) -> bool:
        """Whether nothing was typed yet."""
        return not self.ball_mass_g.strip() and (self.held == "profile" or not self.typed.strip())

    def holding(self, hold: str, text: str) -> "ThrowForm":
        """The same ball, held otherwise."""
        others = {field.name: "" for field in HOLD_FIELDS.values()}
        return replace(self, hold=hold, **(others | {HOLD_FIELDS[hold].name: text}))


@dataclass(frozen=True)
class Form:
    """All that a person has put in.

    Attributes
    ----------
    athlete : mapping of str to str
        For each of `ATHLETE_NAMES`, the typed text or the chosen word.
    throws : tuple of ThrowForm
        At most `MOST_THROWS`, in the order shown.
    reference : str
        Key of the reference throw.
    kind, date : str
        How the reference is known (a key of `KINDS`), and the typed date.
    quantity, headline, above : str
        The chosen quantity, the throw of the first sentence, and the typed level of "time above".
    align, scale : str
        Where the curves are laid over one another, and what they are measured in: keys of `ALIGNED` and `SCALES`.
    other : mapping of str to str
        The second thrower, as `athlete`; mostly there is none.
    """

    athlete: Mapping[str, str] = field(default_factory=lambda: dict.fromkeys(ATHLETE_NAMES, ""))
    throws: tuple[ThrowForm, ...] = ()
    reference: str = ""
    kind: str = "measured"
    date: str = ""
    quantity: str = "varus"
    headline: str = ""
    above: str = ""
    align: str = "release"
    scale: str = "plain"
    other: Mapping[str, str] = field(default_factory=lambda: dict.fromkeys(ATHLETE_NAMES, ""))

    @property
    def two(self) -> bool:
        """Whether there is a second thrower: something was typed or chosen, or a throw is theirs."""
        return any(text.strip() for text in self.other.values()) or any(throw.thrower for throw in self.throws)

    def measures(self, thrower: str) -> Mapping[str, str]:
        """The measures of the first thrower ("") or of the second (`OTHER`)."""
        return self.other if thrower == OTHER else self.athlete

    @property
    def untouched(self) -> bool:
        """Whether nobody has typed anything yet."""
        typed = (*self.athlete.values(), *self.other.values())
        return not any(text.strip() for text in typed) and all(t.blank for t in self.throws)

    def place(self, key: str) -> int:
        """Find a throw's place in the list; -1 if it is not there."""
        return next((i for i, throw in enumerate(self.throws) if throw.key == key), -1)


def measures_of(athlete: DemoAthlete) -> dict[str, str]:
    """Take the measures of an invented thrower, as they are typed; nobody invented is marked as still growing."""
    measures = {name: getattr(athlete, "athlete" if name == "code" else name) for name in BEFORE_MARK_NAMES}
    return measures | {MARK: ""}


def measure_name(thrower: str, name: str) -> str:
    """Call a measure of the first thrower ("") or of the second (`OTHER`) by one word, for its field's id."""
    return f"{thrower}_{name}" if thrower else name
