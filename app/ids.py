"""Every id on the screen, in one place: a callback and a layout that name the same thing name it once."""

# The shell: what stands around every page.
SHELL_PROVIDER = "shell-provider"
SHELL_URL = "shell-url"
SHELL_ATHLETE = "shell-athlete"
SHELL_NEW = "shell-new"
SHELL_NEW_SAID = "shell-new-said"
SHELL_NAV = "shell-nav"
SHELL_MAIN = "shell-main"
SHELL_TITLE = "shell-title"  # store: the shown page's title
SHELL_THEME = "shell-theme"  # store: "light", "dark" or "projector", kept in the browser
SHELL_THEME_SWITCH = "shell-theme-switch"
SHELL_UNITS = "shell-units"  # store: "metric" or "customary", kept in the browser
SHELL_DECIMAL = "shell-decimal"
SHELL_DECIMAL_SWITCH = "shell-decimal-switch"
SHELL_UNITS_SWITCH = "shell-units-switch"
SHELL_KEYS = "shell-keys"  # store: whether single keys do anything, kept in the browser
SHELL_KEYS_SWITCH = "shell-keys-switch"
SHELL_HELP = "shell-help"
SHELL_HELP_OPEN = "shell-help-open"
SHELL_HELP_LIST = "shell-help-list"
SHELL_NOTICE = "shell-notice"
GLOSSARY_TERMS = "glossary-terms"  # what the browser reads the meanings of words from

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
COMPARE_MEASURE = "compare-measure"  # {"type": this, "name": field}
COMPARE_SECOND = "compare-second"
COMPARE_CHOOSE_OTHER = "compare-choose-other"
COMPARE_OTHER = "compare-other"
COMPARE_EXCHANGE = "compare-exchange"
COMPARE_ALONE = "compare-alone"
COMPARE_JOIN = "compare-join"
COMPARE_LENGTHS_OTHER = "compare-lengths-other"
COMPARE_LENGTHS = "compare-lengths"

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
ATHLETE_INVENTED = "athlete-invented"
MAP_INVENTED = "map-invented"
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

# The Map page. Stores.
MAP_SAVED = "map-saved"  # the map's form as typed; kept for as long as the browser's tab is
MAP_WRITTEN = "map-written"  # what the fields were last made from, and the units they show
MAP_READ = "map-read"  # {"compare", "athlete"}: the other pages' forms as this page found them
MAP_COMPARE = "map-compare"  # the Compare form as it is now, with the throws added here
MAP_WRITE = "map-write"  # the same, once it was changed here
MAP_CLICKED = "map-clicked"  # where the map was clicked: {"mass_g", "speed_m_s"}
MAP_BEFORE = "map-before"  # the Compare form before a throw was added from here
MAP_WIDTH = "map-width"  # of the figure, px
MAP_PAPER = "map-paper"  # the figure as it is printed

# What is asked.
MAP_READING = "map-reading"
MAP_READOUT = "map-readout"
MAP_OF = "map-of"
MAP_AXIS = "map-axis"
MAP_RANGE = "map-range"  # {"type": this, "name": field}
MAP_MASS = "map-mass"
MAP_SPEED = "map-speed"
MAP_ADD = "map-add"
MAP_TAKE_BACK = "map-take-back"

# What is shown.
MAP_WHO = "map-who"
MAP_EMPTY = "map-empty"
MAP_BODY = "map-body"
MAP_NOTES = "map-notes"
MAP_FIGURE = "map-figure"
MAP_FIGURE_TITLE = "map-figure-title"
MAP_FIGURE_NOTE = "map-figure-note"
MAP_POINT = "map-point"
MAP_POINT_SAID = "map-point-said"
MAP_NOTICE = "map-notice"
MAP_TABLE = "map-table"
MAP_BASIS = "map-basis"

# The Claim page. Stores.
CLAIM_SAVED = "claim-saved"  # the claim's form as typed; kept for as long as the browser's tab is
CLAIM_WRITTEN = "claim-written"  # what the fields were last made from, and the units they show
CLAIM_READ = "claim-read"  # {"compare", "athlete"}: the other pages' forms as this page found them

# What is claimed.
CLAIM_ATHLETE = "claim-athlete"
CLAIM_READING = "claim-reading"
CLAIM_THROWN = "claim-thrown"
CLAIM_WAY = "claim-way"
CLAIM_SWAP = "claim-swap"
CLAIM_FIELD = "claim-field"  # {"type": this, "name": field}
CLAIM_RACK = "claim-rack"  # {"type": this, "ball": "first" or "second"}
CLAIM_TYPED = "claim-typed"  # {"type": this, "ball": "first" or "second"}: where its speed is typed
CLAIM_SAME = "claim-same"  # where the speed of both is typed

# What becomes of it.
CLAIM_INVENTED = "claim-invented"
CLAIM_WHO = "claim-who"
CLAIM_EMPTY = "claim-empty"
CLAIM_BODY = "claim-body"
CLAIM_SENTENCE = "claim-sentence"
CLAIM_READOUTS = "claim-readouts"
CLAIM_NOTES = "claim-notes"
CLAIM_BASIS = "claim-basis"

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

# The build-up page. Stores.
BUILDUP_SAVED = "buildup-saved"  # the form as typed; kept for as long as the browser's tab is
BUILDUP_WRITTEN = "buildup-written"  # what the fields were last made from, and the units they show
BUILDUP_READ = "buildup-read"  # {"compare", "athlete"}: the other pages' forms as this page found them
BUILDUP_PLAN = "buildup-plan"  # the plan with all it was made from and its log; kept in the browser until put away
BUILDUP_BEFORE = "buildup-before"  # what was before each of the last changes, the newest last
BUILDUP_WIDTH = "buildup-stairs-width"  # of the staircase, px
BUILDUP_STAIRS_PAPER = "buildup-stairs-paper"  # the figures as they are printed
BUILDUP_OVERLAY_PAPER = "buildup-overlay-paper"
BUILDUP_TOLD = "buildup-told"  # tables and words as HTML, by place
BUILDUP_FILE = "buildup-file"  # a file for the browser to save
BUILDUP_CHANGES = "buildup-changes"  # fields of the form that a button sets
BUILDUP_FROM_START = "buildup-from-start"  # a first throw with its limits, as Start wrote it there; session
BUILDUP_KNOWN = "buildup-known"  # stop signs by athlete, whatever plan they came with; kept in the browser

# What is asked.
BUILDUP_ATHLETE = "buildup-athlete"
BUILDUP_AIM = "buildup-aim"
BUILDUP_AIM_SAID = "buildup-aim-said"
BUILDUP_GROWS = "buildup-grows"  # the caution about growing throwers, before anything is planned
BUILDUP_CLEARED = "buildup-cleared"  # who cleared the athlete, where there was an injury
BUILDUP_GIVEN = "buildup-given"  # what came over from Start
BUILDUP_HOLDS = "buildup-holds"
BUILDUP_DROP = "buildup-drop"
BUILDUP_ORDER = "buildup-order"
BUILDUP_BETWEEN = "buildup-between"
BUILDUP_COMPARE = "buildup-compare"
BUILDUP_ORDERS = "buildup-orders"  # the orders compared
BUILDUP_COMPARED = "buildup-compared"  # the form that they were compared for
BUILDUP_GOAL_BALL = "buildup-goal-ball"
BUILDUP_BALLS = "buildup-balls"
BUILDUP_LEAD = "buildup-lead"
BUILDUP_DAYS = "buildup-days"
BUILDUP_FIELD = "buildup-field"  # {"type": this, "name": field}
BUILDUP_MAKE = "buildup-make"
BUILDUP_ASKED = "buildup-asked"
BUILDUP_MISSING = "buildup-missing"

# What is said of it and done to it.
BUILDUP_INVENTED = "buildup-invented"
BUILDUP_WHO = "buildup-who"
BUILDUP_NOTICE = "buildup-notice"
BUILDUP_NOTICE_HAND = "buildup-notice-hand"  # beside the buttons that change a plan by hand
BUILDUP_NOTICE_LOG = "buildup-notice-log"  # and those of the log
BUILDUP_OFFER = "buildup-offer"  # {"type": this, "name": what is offered}
BUILDUP_OFFERS = "buildup-offers"
BUILDUP_GROWING = "buildup-growing"  # what is read before a plan for one who is growing is shown
BUILDUP_BODY = "buildup-body"
BUILDUP_SENTENCE = "buildup-sentence"
BUILDUP_FLAG = "buildup-flag"
BUILDUP_NEXT = "buildup-next"
BUILDUP_SIGNS = "buildup-signs"  # what clears and withdraws stop signs
BUILDUP_ABOUT = "buildup-about"
BUILDUP_LOG_TABLE = "buildup-log-table"
BUILDUP_STAIRS = "buildup-stairs-figure"
BUILDUP_OVERLAY = "buildup-overlay-figure"
BUILDUP_STEPS = "buildup-steps"
BUILDUP_SESSIONS = "buildup-sessions"
BUILDUP_NUMBERS = "buildup-numbers"  # the numbers then and now
BUILDUP_NUMBERS_SAID = "buildup-numbers-said"
BUILDUP_LOGGED = "buildup-logged"
BUILDUP_BASIS = "buildup-basis"

# Changes by hand.
BUILDUP_STEP = "buildup-step"
BUILDUP_STEP_BALL = "buildup-step-ball"
BUILDUP_SESSION = "buildup-session"
BUILDUP_HAND = "buildup-hand"  # {"type": this, "name": field}
BUILDUP_DO = "buildup-do"  # {"type": this, "name": what the button does to the plan}

# After a session.
BUILDUP_LOG_FIELD = "buildup-log-field"  # {"type": this, "name": field}
BUILDUP_LOG_SESSION = "buildup-log-session"
BUILDUP_SUGGESTED = "buildup-suggested"
BUILDUP_LOG = "buildup-log"
BUILDUP_LOG_TYPED = "buildup-log-typed"  # what is typed after a session and not in the log yet, by plan and session
BUILDUP_LOG_OF = "buildup-log-of"  # {"key": which session the fields are of, "units": those they show}
BUILDUP_LOG_TITLE = "buildup-log-title"

# What is taken along.
BUILDUP_TAKE = "buildup-take"  # {"type": this, "name": "print", "log", "file", "table" or "calendar"}
BUILDUP_WITH_CODE = "buildup-with-code"
BUILDUP_UPLOAD = "buildup-upload"

# The Teach page. Stores. What stands on the stage is the browser's own: assets/teach_story.js names these ids too.
TEACH_SAVED = "teach-saved"  # the session, and the athlete of an opened file; kept for as long as the browser's tab is
TEACH_READ = "teach-read"  # {"compare", "athlete"}: the other pages' forms as this page found them
TEACH_STORY = "teach-story"  # all that the browser needs to tell the story

# What is set up.
TEACH_SETUP = "teach-setup"
TEACH_WHO = "teach-who"
TEACH_BALL = "teach-ball"  # {"type": this, "which": "second" or "third"}
TEACH_NAMED = "teach-named"
TEACH_STEPS = "teach-steps"
TEACH_MOVE = "teach-move"  # {"type": this, "step": key, "move": "up", "down" or "switch"}
TEACH_SAVE = "teach-save"
TEACH_FILE = "teach-file"  # the session to be saved
TEACH_OPEN = "teach-open"
TEACH_SAID = "teach-said"  # what was done, or why not
TEACH_EMPTY = "teach-empty"
TEACH_INVENTED = "teach-invented"
TEACH_FOCUS = "teach-focus"  # store: the control to go to after the list of steps was changed

# The stage.
TEACH_BODY = "teach-body"
TEACH_STAGE = "teach-stage"
TEACH_TITLE = "teach-title"
TEACH_COUNT = "teach-count"
TEACH_SHOWN_WHO = "teach-shown-who"
TEACH_CAUTION = "teach-caution"
TEACH_GROWING = "teach-growing"  # the caution for a thrower who is still growing, beside the words
TEACH_WORDS = "teach-words"
TEACH_PICTURE = "teach-picture"
TEACH_CONTROLS = "teach-controls"
TEACH_BACK = "teach-back"
TEACH_ON = "teach-on"
TEACH_PLAY = "teach-play"
TEACH_WHEN = "teach-when"
TEACH_PRESENT = "teach-present"
TEACH_LEAVE = "teach-leave"
TEACH_WINDOW = "teach-window"
TEACH_PRINT = "teach-print"
TEACH_NOTES = "teach-notes"
TEACH_HANDOUT = "teach-handout"
