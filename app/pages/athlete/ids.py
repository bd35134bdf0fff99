"""Every id of the Athlete page, in one place: a callback and a layout that name the same thing name it once."""

# Stores.
ATHLETE_NARROW = "athlete-narrow"  # whether the window is narrow
ATHLETE_CELLS = "athlete-cells"  # the grid of readings as HTML, put in its place by the browser
ATHLETE_LISTED = "athlete-listed"  # the dated list as HTML
ATHLETE_DRAWN = "athlete-drawn"  # what stands beside plot and strip, as HTML by its place
ATHLETE_TOLD = "athlete-told"  # what stands below them

# Who throws, and the readings.
ATHLETE_ARM = "athlete-arm"
ATHLETE_DAY = "athlete-day"  # of new readings
ATHLETE_GRID = "athlete-grid"
ATHLETE_LIST = "athlete-list"
ATHLETE_MONTH = "athlete-month"
ATHLETE_PASTE = "athlete-paste"
ATHLETE_PASTE_BALL = "athlete-paste-ball"
ATHLETE_PASTE_IN = "athlete-paste-in"
ATHLETE_DROPPED = "athlete-dropped"  # a table pasted into a cell, as JSON
ATHLETE_FILE = "athlete-file"
ATHLETE_NOTICE = "athlete-notice"  # why something was not put in

# What follows from them.
ATHLETE_USED = "athlete-used"
ATHLETE_FIGURE = "athlete-figure"
ATHLETE_FIGURE_NOTE = "athlete-figure-note"
ATHLETE_SPEEDS = "athlete-speeds"
ATHLETE_WILD = "athlete-wild"
ATHLETE_OVER_TIME = "athlete-over-time"
ATHLETE_OVER_TIME_PLACE = "athlete-over-time-place"
ATHLETE_OVER_TIME_SAID = "athlete-over-time-said"
ATHLETE_STRIP = "athlete-strip"
ATHLETE_CAPS = "athlete-caps"
ATHLETE_CARD_PRINT = "athlete-card-print"
ATHLETE_NEXT = "athlete-next"
ATHLETE_EFFORT = "athlete-effort"
ATHLETE_FLIGHT = "athlete-flight"
ATHLETE_RADAR = "athlete-radar"
ATHLETE_BASIS = "athlete-basis"
