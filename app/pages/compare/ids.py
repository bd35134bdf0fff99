"""Every id of the Compare page, in one place: a callback and a layout that name the same thing name it once."""

PATH = "/compare"

# What its buttons and choices do.
NEW = "compare/new"
OPEN = "compare/open"
COPY_ALL = "compare/copy-all"
REMOVE_ALL = "compare/remove-all"
ADD = "compare/add"
BALL = "compare/ball"
MOVES = {move: f"compare/{move}" for move in ("copy", "up", "down", "remove")}
HOLD = "compare/hold"
THROWER = "compare/thrower"
ALONE = "compare/alone"
READY = "compare/ready"

# Stores.
COMPARE_DRAWN = "compare-drawn"  # the version that stands on the screen as curves: words follow it
COMPARE_WIDTH = "compare-width"  # of the figure, px
COMPARE_PAPER = "compare-paper"  # the figure as it is printed
COMPARE_IDENTITY = "compare-identity"  # the identity's curves of the chosen quantity, for sliders
COMPARE_EVERY_OPEN = "compare-every-open"  # when every quantity was asked for last; empty while its fold is shut
COMPARE_TOLD = "compare-told"  # the four sizes of every throw, as HTML by place

# The throws.
COMPARE_HELD = "compare-held"  # {"type": this, "throw": key}: what follows from how the throw is held, or is missing
COMPARE_SIZES = "compare-sizes"  # {"type": this, "throw": key}: the throw's four sizes, filled in as text
COMPARE_SAMPLE = "compare-sample"  # {"type": this, "throw": key}: a piece of the throw's line
COMPARE_DAY_SAID = "compare-day-said"
COMPARE_HOLDS = "compare-holds"  # the fold with how a throw is held

# What is shown.
COMPARE_EVERY = "compare-every"  # the fold with a panel for every quantity
COMPARE_MULTIPLES = "compare-multiples"
COMPARE_INSTANT = "compare-instant"  # the arm and the values at the instant under the cursor; the browser fills it
COMPARE_SUMMARY = "compare-summary"
COMPARE_SENTENCE = "compare-sentence"
COMPARE_OTHERS = "compare-others"
COMPARE_FIGURE_TITLE = "compare-figure-title"
COMPARE_FIGURE = "compare-figure"
COMPARE_FIGURE_NOTE = "compare-figure-note"
COMPARE_WARNINGS = "compare-warnings"
COMPARE_TABLE = "compare-table"

# What is taken along from it.
COMPARE_ALONG = "compare-along"  # the fold
COMPARE_PRINT = "compare-print"
COMPARE_PNG = "compare-png"
COMPARE_SVG = "compare-svg"
COMPARE_CURVES = "compare-curves"
COMPARE_READINGS = "compare-readings"
COMPARE_ALL_CURVES = "compare-all-curves"  # whether the table of curves holds all quantities
COMPARE_COPY = "compare-copy"
COMPARE_WITH_MEASURES = "compare-with-measures"
COMPARE_LINK = "compare-link"
COMPARE_ALONG_SAID = "compare-along-said"
COMPARE_ASKED = "compare-asked"  # store: the button that was pressed, once what was typed before it is kept
COMPARE_TABLE_FILE = "compare-table-file"
COMPARE_IMAGE_FILE = "compare-image-file"  # store: a figure for the browser to save, with its format and name
COMPARE_LINK_MADE = "compare-link-made"  # store: what a link holds, for the browser to copy
COMPARE_LINK_OPENED = "compare-link-opened"  # store: what the link holds that was opened
COMPARE_OFFER = "compare-offer"  # where it is said what a link holds
COMPARE_OFFER_SAID = "compare-offer-said"
COMPARE_TAKE = "compare-take"
COMPARE_LEAVE = "compare-leave"
