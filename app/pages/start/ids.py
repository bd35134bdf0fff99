"""Every id of the Start page, in one place: a callback and a layout that name the same thing name it once."""

# The Start page. Stores.
START_SAVED = "start-saved"  # the form of limits as typed; kept for as long as the browser's tab is
START_WRITTEN = "start-written"  # what the fields were last made from, their units, and the balls of the boxes
START_READ = "start-read"  # {"compare", "athlete"}: the other pages' forms as this page found them
START_WRITE = "start-write"  # the Compare form, once a throw was added from here
START_WIDTH = "start-width"  # of the figure, px
START_PAPER = "start-paper"  # the figure as it is printed
START_TO_PLAN = "start-to-plan"  # what goes over to Build up, once it was pressed
START_ADDRESS = "start-address"  # the query part of the address, once another athlete was chosen on the page

# What is asked.
START_ATHLETE = "start-athlete"
START_BASE = "start-base"
START_REFERENCE = "start-reference"
START_FIELD = "start-field"  # {"type": this, "name": field}
START_IN = "start-in"  # {"type": this, "name": field}: how it is counted
START_MEANS = "start-means"  # {"type": this, "name": field}: the same, counted the other way
START_AIM = "start-aim"
START_WANTED = "start-wanted"  # where the wanted peak is typed
START_BALLS = "start-balls"
START_AXIS = "start-axis"
START_EXAMPLE = "start-example"
START_CLEAR = "start-clear"
START_EXAMPLE_NOTE = "start-example-note"

# What is shown.
START_INVENTED = "start-invented"
START_WHO = "start-who"
START_EMPTY = "start-empty"
START_BODY = "start-body"
START_BUSY = "start-busy"
START_GROWING = "start-growing"
START_SENTENCE = "start-sentence"
START_PLAN = "start-plan"  # {"type": this, "ball": its mass in g, or `FIRST` for that of the headline}
START_FIGURE = "start-figure"
START_FIGURE_TITLE = "start-figure-title"
START_FIGURE_NOTE = "start-figure-note"
START_ORDER = "start-order"
START_TABLE = "start-table"
START_LIMITS = "start-limits"
START_NOTES = "start-notes"
START_CAUTIONS = "start-cautions"
START_ADD = "start-add"
START_ADD_PART = "start-add-part"
START_NOTICE = "start-notice"
START_PRINT = "start-print"
