"""The ids of the page of all athletes."""

ATHLETES_PLACE = "athletes-place"  # where the browser puts the table
ATHLETES_TABLE = "athletes-table"  # store: the table, as HTML
ATHLETES_ASKED = "athletes-asked"  # store: who is to be archived or brought back
ATHLETES_FILTER = "athletes-filter"
ATHLETES_NEW_CODE = "athletes-new-code"
ATHLETES_NEW = "athletes-new"
ATHLETES_OLD = "athletes-old"  # what the tab of an older version holds, and the offer to take it in
ATHLETES_OLD_HELD = "athletes-old-held"  # store: that, as the browser found it
ATHLETES_OLD_TAKE = "athletes-old-take"
ATHLETES_OLD_LEAVE = "athletes-old-leave"
