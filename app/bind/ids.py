"""Ids that the bound parts of every page share."""

HERE = "bind-here"
"""A store with whose page this is and which tab: ``{"athlete": uid, "code": ..., "tab": ...}``, made by `layout`."""
VERSION = "bind-version"
"""A store with the versions of the records that the page shows, by owner: it rises with every act that was kept, and
what is drawn from the records is an answer to it."""
CALM = "bind-calm"
"""A store with the version, a moment after it rose: for what can wait until the page is drawn."""
CLOCK = "bind-clock"
"""A store with when something was last typed or pressed, by the tab's own clock (ms)."""
REFRESH = "bind-refresh"
"""A store in the shell: raised to have the whole page made anew, with the id of the control that gets the focus."""
TYPED = "bind-typed"
"""A store with what was typed into plain cells and is not yet known to be kept."""
TOLD = "bind-told"
"""A store with what became of it."""

FIELD, FLAG, ACT, PICK, NEWER = "field", "flag", "act", "pick", "newer"
"""Types of the ids of fields, ticks, buttons and choices that change the records, and *Take the newer*."""

MINE = {FIELD: "mine", FLAG: "mine-flag"}
"""Types of the ids of *Keep mine*, by that of the field it stands under."""

STEPS, UNDO, REDO, STEP_NOTICE = "bind-steps", "bind-undo", "bind-redo", "bind-step-notice"


def field_id(of: str, path: str, row: str, units: str, kind: str = FIELD) -> dict[str, str]:
    """The id of a field: whose it is, its path, its row, and the units it is shown in.

    All of it is the field's own: an answer that comes late cannot land in the field of another athlete.
    """
    return {"type": kind, "of": of, "path": path, "row": row, "units": units}


def act_id(of: str, do: str, row: str = "", kind: str = ACT) -> dict[str, str]:
    """The id of a button that changes the records."""
    return {"type": kind, "of": of, "do": do, "row": row}
