"""The form as it was typed: text and choices, nothing worked out. Everything the page shows follows from it.

It is what the browser keeps and sends, so it is read with distrust and changed only by the pure functions here.
"""

import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, fields, replace

from app.demo import Demo, DemoAthlete, RackBall
from app.show.form_fields import BALL_FIELDS, HOLD_FIELDS, LENGTHS, MARK, MEASURES

VERSION = 5
BEFORE_HOLDS = 1  # the version in which every throw was held at its release speed
BEFORE_VIEWS = 2  # and that in which the figure had one alignment and one scale
BEFORE_TWO = 3  # and that in which one athlete threw all
BEFORE_MARK = 4  # and that in which nobody could be marked as still growing
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
THROW_NAMES = (*(f.name for f in BALL_FIELDS), "hold", *(f.name for f in HOLD_FIELDS.values()), "by")

_KEY = re.compile(r"t[1-9][0-9]{0,5}")


class FormError(ValueError):
    """A stored form that cannot be used."""


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


def to_json(form: Form) -> dict[str, object]:
    """Write a form as plain data, for the browser to keep.

    Parameters
    ----------
    form : Form

    Returns
    -------
    dict
    """
    return {"version": VERSION} | asdict(form) | {"throws": [asdict(throw) for throw in form.throws]}


def from_json(kept: object) -> Form:
    """Read a form that the browser kept.

    Parameters
    ----------
    kept : object
        Whatever the browser sent.

    Returns
    -------
    Form

    Raises
    ------
    FormError
        If it is anything but what `to_json` writes.
    """
    version = kept.get("version") if isinstance(kept, dict) else None
    before_two = (BEFORE_HOLDS, BEFORE_VIEWS, BEFORE_TWO)
    people = ATHLETE_NAMES if version == VERSION else BEFORE_MARK_NAMES
    if isinstance(kept, dict) and version in before_two:
        other = dict.fromkeys(people, "")
        kept = {"align": Form().align, "scale": Form().scale, "other": other} | kept
    data = _record(kept, {"version", *(f.name for f in fields(Form))})
    if version not in (*before_two, BEFORE_MARK, VERSION):
        raise FormError("another version")
    rows = data["throws"]
    if not isinstance(rows, list) or len(rows) > MOST_THROWS:
        raise FormError("throws")
    names = {f.name for f in fields(ThrowForm)}
    if version in before_two:
        names -= {"by"} | ({"hold", "clock_percent", "share_percent"} if version == BEFORE_HOLDS else set())
    throws = tuple(ThrowForm(**_texts(_record(row, names))) for row in rows)
    keys = [throw.key for throw in throws]
    if len(set(keys)) < len(keys) or not all(is_key(key) for key in keys):
        raise FormError("keys")
    read = [_texts(_record(data[name], set(people))) for name in ("athlete", "other")]
    athlete, other = ({name: texts.get(name, "") for name in ATHLETE_NAMES} for texts in read)
    words = _texts({name: data[name] for name in CHOSEN_NAMES})
    return Form(athlete=athlete, throws=throws, other=other, **words)


def _record(given: object, names: set[str]) -> dict[str, object]:
    if not isinstance(given, dict) or set(given) != names:
        raise FormError("unknown shape")
    return given


def _texts(data: Mapping[str, object]) -> dict[str, str]:
    texts = {}
    for name, text in data.items():
        if not isinstance(text, str) or len(text) > LONGEST_KEPT:
            raise FormError(name)
        texts[name] = text
    return texts


def empty_form() -> Form:
    """Return the form of a first visit: two throws to fill in, the first of them the reference.

    Returns
    -------
    Form
    """
    return Form(throws=(ThrowForm("t1"), ThrowForm("t2")), reference="t1")


def demo_form(demo: Demo, athlete: DemoAthlete) -> Form:
    """Fill the form with an invented thrower: the reference throw, then what they threw on the block's last day.

    Parameters
    ----------
    demo : Demo
    athlete : DemoAthlete

    Returns
    -------
    Form
    """
    own = (athlete.own_ball_mass_g, athlete.own_ball_diameter_mm, athlete.own_speed_m_s)
    thrown = [(mass, demo.diameter_of(mass), speed) for mass, speed in demo.last_day(athlete.athlete)]
    throws = tuple(ThrowForm(f"t{i}", *typed) for i, typed in enumerate([own, *thrown][:MOST_THROWS], start=1))
    kind = next((key for key, words in KINDS.items() if words == athlete.reference_kind), "estimated")
    return Form(measures_of(athlete), throws, "t1", kind, athlete.reference_date)


def measures_of(athlete: DemoAthlete) -> dict[str, str]:
    """Take the measures of an invented thrower, as they are typed; nobody invented is marked as still growing."""
    measures = {name: getattr(athlete, "athlete" if name == "code" else name) for name in BEFORE_MARK_NAMES}
    return measures | {MARK: ""}


def measure_name(thrower: str, name: str) -> str:
    """Call a measure of the first thrower ("") or of the second (`OTHER`) by one word, for its field's id."""
    return f"{thrower}_{name}" if thrower else name


def swapped(form: Form) -> Form:
    """Exchange the two throwers: the second becomes the first, and each keeps their throws.

    Parameters
    ----------
    form : Form

    Returns
    -------
    Form
    """
    throws = tuple(replace(throw, by="" if throw.thrower else OTHER) for throw in form.throws)
    return replace(form, athlete=form.other, other=form.athlete, throws=throws)


def add_throw(form: Form, ball: RackBall | None = None) -> Form:
    """Put a throw at the end of the list: blank, or with a ball of the rack.

    Parameters
    ----------
    form : Form
    ball : RackBall, optional

    Returns
    -------
    Form
        The same form if the list is full.
    """
    if len(form.throws) >= MOST_THROWS:
        return form
    key = _new_key(form)
    throw = ThrowForm(key, ball.mass_g, ball.diameter_mm) if ball else ThrowForm(key)
    return replace(form, throws=(*form.throws, throw), reference=form.reference or key)


def copy_throw(form: Form, key: str) -> Form:
    """Put a copy of a throw right after it.

    Parameters
    ----------
    form : Form
    key : str

    Returns
    -------
    Form
        The same form if the list is full or has no such throw.
    """
    place = form.place(key)
    if place < 0 or len(form.throws) >= MOST_THROWS:
        return form
    copied = replace(form.throws[place], key=_new_key(form))
    return replace(form, throws=(*form.throws[: place + 1], copied, *form.throws[place + 1 :]))


def remove_throw(form: Form, key: str) -> Form:
    """Take a throw out. If it was the reference, the first of those left becomes the reference.

    Parameters
    ----------
    form : Form
    key : str

    Returns
    -------
    Form
    """
    left = tuple(throw for throw in form.throws if throw.key != key)
    reference = form.reference
    if reference == key:
        reference = left[0].key if left else ""
    return replace(form, throws=left, reference=reference, headline="" if form.headline == key else form.headline)


def move_throw(form: Form, key: str, by: int) -> Form:
    """Move a throw up (-1) or down (+1) in the list; at the end of the list it stays.

    Parameters
    ----------
    form : Form
    key : str
    by : int

    Returns
    -------
    Form
    """
    place = form.place(key)
    if place < 0 or not 0 <= place + by < len(form.throws):
        return form
    throws = list(form.throws)
    throws.insert(place + by, throws.pop(place))
    return replace(form, throws=tuple(throws))


def is_key(key: object) -> bool:
    """Whether this can be the key of a throw."""
    return isinstance(key, str) and _KEY.fullmatch(key) is not None


def _new_key(form: Form) -> str:
    return f"t{1 + max((int(throw.key[1:]) for throw in form.throws), default=0)}"
