"""The athlete in the page's address, `/start?athlete=CODE`: whose arm it asks for, and the address of an arm."""

from urllib.parse import parse_qs, quote

from app.demo import Demo
from app.show.kept import UNNAMED, form_for
from app.show.throw_form import LONGEST_KEPT, empty_form
from app.show.whose import OF_COMPARE, Whose, kept_athlete, whose

PATH = "/start"
ASKED = "athlete"
UNKNOWN = "unknown "
"""Before the code that an address asked for and nobody has, in the place of `StartForm.who`."""


def code_in(query: object) -> str:
    """Read the athlete's code in an address.

    Parameters
    ----------
    query : object
        The address from its question mark on, as the browser sent it.

    Returns
    -------
    str
        Empty where none is asked for.
    """
    if not isinstance(query, str):
        return ""
    found = parse_qs(query.removeprefix("?"), max_num_fields=None).get(ASKED, [""])
    return found[0].strip()[:LONGEST_KEPT]


def query_of(code: str) -> str:
    """Write the address of an athlete, from its question mark on; empty for one without a code."""
    return f"?{ASKED}={quote(code, safe='')}" if code else ""


def who_of(code: str, read: object, demo: Demo, on_demo: bool) -> str:
    """Find whose arm a code is.

    Parameters
    ----------
    code : str
    read : object
        As for `app.show.whose.kept_athlete`.
    demo : Demo
    on_demo : bool

    Returns
    -------
    str
        As `app.show.whose.whose` takes it: the athlete of Compare goes before an invented thrower. `UNKNOWN` and
        the code where nobody has it.
    """
    if code == compare_code(read, demo, on_demo):
        return OF_COMPARE
    return code if demo.athlete(code) is not None else f"{UNKNOWN}{code}"


def compare_code(read: object, demo: Demo, on_demo: bool) -> str:
    """The code of Compare's athlete; empty for one without."""
    return kept_athlete(read, demo, on_demo).compared.athlete["code"].strip()


def unknown_code(who: str) -> str:
    """The code that nobody has; empty where there is no such question."""
    return who.removeprefix(UNKNOWN) if who.startswith(UNKNOWN) else ""


def arm_of(who: str, read: object, demo: Demo, on_demo: bool) -> Whose:
    """The forms of whose arm it is, as `app.show.whose.whose`; empty ones for a code that nobody has."""
    if unknown_code(who):
        return Whose(empty_form(), form_for({}, UNNAMED, demo, False))
    return whose(who, read, demo, on_demo)
