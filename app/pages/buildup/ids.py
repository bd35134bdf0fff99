"""Every id of the Build up page, in one place: a callback and a layout that name the same thing name it once."""

# Stores of what is worked out, and a file.
BUILDUP_WIDTH = "buildup-stairs-width"  # of the staircase, px
BUILDUP_STAIRS_PAPER = "buildup-stairs-paper"  # the figures as they are printed
BUILDUP_OVERLAY_PAPER = "buildup-overlay-paper"
BUILDUP_TOLD = "buildup-told"  # tables and words as HTML, by place
BUILDUP_FILE = "buildup-file"  # a file for the browser to save

# What is asked.
BUILDUP_AIM_SAID = "buildup-aim-said"
BUILDUP_GROWS = "buildup-grows"  # the caution about growing throwers, before anything is planned
BUILDUP_CLEARED = "buildup-cleared"  # who cleared the athlete, where there was an injury
BUILDUP_GIVEN = "buildup-given"  # what came over from Start
BUILDUP_ORDER = "buildup-order"
BUILDUP_BETWEEN = "buildup-between"
BUILDUP_COUNT = "buildup-hold-count"
BUILDUP_ORDER_CHOICES = "buildup-order-choices"
BUILDUP_COMPARE = "buildup-compare"
BUILDUP_ORDERS = "buildup-orders"  # the orders compared
BUILDUP_MAKE = "buildup-make"
BUILDUP_ASKED = "buildup-asked"
BUILDUP_MISSING = "buildup-missing"

# What is said of it and done to it.
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
BUILDUP_BASIS = "buildup-basis"

# Changes by hand.
BUILDUP_BY_HAND = "buildup-by-hand"
BUILDUP_STEP = "buildup-step"
BUILDUP_STEP_BALL = "buildup-step-ball"
BUILDUP_SESSION = "buildup-session"
BUILDUP_HAND = "buildup-hand"  # {"type": this, "name": field}
BUILDUP_DO = "buildup-do"  # {"type": this, "name": what the button does to the plan}

# After a session.
BUILDUP_LOG_SESSION = "buildup-log-session"
BUILDUP_SUGGESTED = "buildup-suggested"
BUILDUP_LOG = "buildup-log"
BUILDUP_LOG_FIELDS = "buildup-log-fields"
BUILDUP_LOG_TITLE = "buildup-log-title"

# What is taken along.
BUILDUP_TAKE = "buildup-take"  # {"type": this, "name": "print", "log", "file", "table" or "calendar"}
BUILDUP_WITH_CODE = "buildup-with-code"
BUILDUP_UPLOAD = "buildup-upload"
