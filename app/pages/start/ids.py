"""Every id of the Start page, in one place: a callback and a layout that name the same thing name it once."""

# Stores.
START_WIDTH = "start-width"  # of the figure, px
START_PAPER = "start-paper"  # the figure as it is printed

# What its buttons and switches do.
ADD, PLAN, COUNT, CLEAR, EXAMPLE = "start/add", "start/plan", "start/count", "start/clear", "start/example"

# What is asked.
START_REFERENCE = "start-reference"
START_MEANS = "start-means"  # {"type": this, "name": field}: the same, counted the other way
START_WANTED = "start-wanted"  # where the wanted peak is typed
START_BALLS = "start-balls"
START_EXAMPLE_NOTE = "start-example-note"

# What is shown.
START_EMPTY = "start-empty"
START_BODY = "start-body"
START_BUSY = "start-busy"
START_SENTENCE = "start-sentence"
START_FIGURE = "start-figure"
START_FIGURE_TITLE = "start-figure-title"
START_FIGURE_NOTE = "start-figure-note"
START_ORDER = "start-order"
START_TABLE = "start-table"
START_LIMITS = "start-limits"
START_NOTES = "start-notes"
START_ADD_PART = "start-add-part"
START_NOTICE = "start-notice"
START_PRINT = "start-print"
