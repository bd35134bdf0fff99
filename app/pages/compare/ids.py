"""Every id of the Compare page, in one place: a callback and a layout that name the same thing name it once."""

# The Compare page. Stores.
COMPARE_SAVED = "compare-saved"  # the form as it was typed; kept for as long as the browser's tab is
COMPARE_WRITTEN = "compare-written"  # what the fields were last made from, and the units they show
COMPARE_BEFORE = "compare-before"  # the form before the last change that replaced or removed something
COMPARE_WIDTH = "compare-width"  # of the figure, px
COMPARE_PAPER = "compare-paper"  # the figure as it is printed
COMPARE_PROFILES = "compare-profiles"  # the readings that the Athlete page keeps in the browser
COMPARE_FOCUS = "compare-focus"  # the id of the control to go to after the list of throws was changed

# Who throws.
COMPARE_CHOOSE = "compare-choose"
COMPARE_ATHLETE = "compare-athlete"  # where the fields of the athlete are put
COMPARE_SECOND = "compare-second"
COMPARE_CHOOSE_OTHER = "compare-choose-other"
COMPARE_OTHER = "compare-other"
COMPARE_EXCHANGE = "compare-exchange"
COMPARE_ALONE = "compare-alone"
COMPARE_JOIN = "compare-join"

# The throws.
COMPARE_ROWS = "compare-rows"
COMPARE_THROW = "compare-throw"  # {"type": this, "throw": key, "name": field}
COMPARE_HELD = "compare-held"  # {"type": this, "throw": key}: what follows from how the throw is held
COMPARE_SIZES = "compare-sizes"  # {"type": this, "throw": key}: the throw's four sizes, filled in as text
COMPARE_TOLD = "compare-told"  # the four sizes of every throw, as HTML by place
COMPARE_SAMPLE = "compare-sample"  # {"type": this, "throw": key}: a piece of the throw's line
COMPARE_MOVE = "compare-move"  # {"type": this, "throw": key, "move": "copy", "remove", "up" or "down"}
COMPARE_ADD = "compare-add"
COMPARE_RACK = "compare-rack"
COMPARE_READY = "compare-ready"
COMPARE_UNDO = "compare-undo"
COMPARE_REDO = "compare-redo"
COMPARE_RESTORE = "compare-restore"  # a form to go back or forward to
COMPARE_EXAMPLE = "compare-example"
COMPARE_CLEAR = "compare-clear"
COMPARE_INVENTED = "compare-invented"  # what says that the shown athlete is an invented one
COMPARE_NOTICE = "compare-notice"
COMPARE_DISMISS = "compare-dismiss"
COMPARE_PUT_BACK = "compare-put-back"
COMPARE_KEEP_SPEEDS = "compare-keep-speeds"
COMPARE_REFERENCE = "compare-reference"
COMPARE_KIND = "compare-kind"
COMPARE_DATE = "compare-date"

# What is shown.
COMPARE_QUANTITY = "compare-quantity"
COMPARE_ALIGN = "compare-align"
COMPARE_SCALE = "compare-scale"
COMPARE_EVERY = "compare-every"  # the fold with a panel for every quantity
COMPARE_EVERY_OPEN = "compare-every-open"  # whether it is unfolded
COMPARE_MULTIPLES = "compare-multiples"
COMPARE_INSTANT = "compare-instant"  # the arm and the values at the instant under the cursor; the browser fills it
COMPARE_CHAIN = "compare-chain"  # the thrower's joint centres over a throw, for the line figure
COMPARE_IDENTITY = "compare-identity"  # the identity's curves of the chosen quantity, for sliders
COMPARE_HEADLINE = "compare-headline"
COMPARE_ABOVE = "compare-above"
COMPARE_SUMMARY = "compare-summary"
COMPARE_SENTENCE = "compare-sentence"
COMPARE_OTHERS = "compare-others"
COMPARE_FIGURE_TITLE = "compare-figure-title"
COMPARE_FIGURE = "compare-figure"
COMPARE_FIGURE_NOTE = "compare-figure-note"
COMPARE_WARNINGS = "compare-warnings"
COMPARE_TABLE = "compare-table"
COMPARE_BASIS = "compare-basis"

# What is taken along from it.
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
COMPARE_TABLE_FILE = "compare-table-file"
COMPARE_IMAGE_FILE = "compare-image-file"  # store: a figure for the browser to save, with its format and name
COMPARE_LINK_MADE = "compare-link-made"  # store: what a link holds, for the browser to copy
COMPARE_LINK_OPENED = "compare-link-opened"  # store: what the link holds that was opened
