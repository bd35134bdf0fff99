"""Whether a thrower is an invented one, and how a page says so."""

from app.demo import Demo
from app.show.throw_form import OTHER, Form, measures_of

INVENTED = "Invented demo data: nobody here exists and nothing was measured."


def is_invented(form: Form, demo: Demo) -> bool:
    """Whether the first thrower of a form is one of the demo data, as it stands there.

    Parameters
    ----------
    form : Form
    demo : Demo

    Returns
    -------
    bool
    """
    return "" in invented_throwers(form, demo)


def invented_throwers(form: Form, demo: Demo) -> frozenset[str]:
    """Which throwers of a form are of the demo data, as they stand there.

    Parameters
    ----------
    form : Form
    demo : Demo

    Returns
    -------
    frozenset of str
        Of "" and `OTHER`.
    """
    invented = [measures_of(athlete) for athlete in demo.athletes]
    return frozenset(thrower for thrower in ("", OTHER) if form.measures(thrower) in invented)
