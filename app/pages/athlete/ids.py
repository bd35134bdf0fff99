"""Every id of the Athlete page, in one place: a callback and a layout that name the same thing name it once."""

ATHLETE_INVENTED = "athlete-invented"

# The Athlete page. Stores.
ATHLETE_SAVED = "athlete-saved"  # the profile forms as typed, by the athlete's code; kept as long as the browser's tab
ATHLETE_WRITTEN = "athlete-written"  # what the fields were last made from, and the units they show
ATHLETE_READ = "athlete-read"  # the Compare form as the page found it
ATHLETE_COMPARE = "athlete-compare"  # the Compare form with the athlete's part as it is now
ATHLETE_CODE = "athlete-code"  # the code that the readings on the page are kept under
ATHLETE_BEFORE = "athlete-before"  # the form before the last change that replaced or removed something
ATHLETE_NARROW = "athlete-narrow"
ATHLETE_DROPPED = "athlete-dropped"  # a table pasted into a cell
ATHLETE_REMOVED = "athlete-removed"  # a ball that was removed

# Who throws, and the readings.
ATHLETE_MEASURES = "athlete-measures"
ATHLETE_MEASURE = "athlete-measure"  # {"type": this, "name": field}
ATHLETE_ARM = "athlete-arm"
ATHLETE_GRID = "athlete-grid"
ATHLETE_CELLS = "athlete-cells"  # store: what stands in every cell, by its place; written by the browser
ATHLETE_PROBLEMS = "athlete-problems"  # store: what is wrong in a cell, by its place; shown by the browser
ATHLETE_ROWS = "athlete-rows"  # store: the grid as HTML; put in its place by the browser
ATHLETE_HINT = "athlete-hint"  # what a cell takes
ATHLETE_ADD = "athlete-add"
ATHLETE_CLEAR = "athlete-clear"
ATHLETE_PASTE = "athlete-paste"
ATHLETE_PASTE_BALL = "athlete-paste-ball"
ATHLETE_PASTE_IN = "athlete-paste-in"
ATHLETE_FILE = "athlete-file"
ATHLETE_DETAILS = "athlete-details"
ATHLETE_DETAILED = "athlete-detailed"  # store: day, effort and diameter fields as HTML, and of which readings
ATHLETE_DETAILS_OPEN = "athlete-details-open"
ATHLETE_CHOICE = "athlete-choice"  # {"type": this, "name": what is chosen of the profile form}
ATHLETE_TYPED = "athlete-typed"  # {"type": this, "name": what is typed of it}
ATHLETE_SWITCH = "athlete-switch"  # of the radar correction
ATHLETE_NOTICE = "athlete-notice"
ATHLETE_PUT_BACK = "athlete-put-back"
ATHLETE_DISMISS = "athlete-dismiss"

# What follows from them.
ATHLETE_DRAWN = "athlete-drawn"  # store: what stands beside plot and strip, as HTML by its place
ATHLETE_TOLD = "athlete-told"  # store: what stands below them
ATHLETE_USED = "athlete-used"
ATHLETE_FIGURE = "athlete-figure"
ATHLETE_FIGURE_NOTE = "athlete-figure-note"
ATHLETE_SPEEDS = "athlete-speeds"
ATHLETE_WILD = "athlete-wild"
ATHLETE_STRIP = "athlete-strip"
ATHLETE_CAPS = "athlete-caps"
ATHLETE_CARD_PRINT = "athlete-card-print"
ATHLETE_NEXT = "athlete-next"
ATHLETE_EFFORT = "athlete-effort"
ATHLETE_FLIGHT = "athlete-flight"
ATHLETE_RADAR = "athlete-radar"
ATHLETE_BASIS = "athlete-basis"
