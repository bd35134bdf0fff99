"""Every id of the Teach page, in one place: a callback and a layout that name the same thing name it once."""

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
