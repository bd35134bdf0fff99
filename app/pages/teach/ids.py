"""Every id of the Teach page, in one place: a callback and a layout that name the same thing name it once."""

TEACH_STORY = "teach-story"  # store: all that the browser needs to tell the story

# What is set up.
TEACH_SETUP = "teach-setup"
TEACH_STEPS = "teach-steps"
TEACH_SAVE = "teach-save"
TEACH_FILE = "teach-file"  # the session to be saved
TEACH_OPEN = "teach-open"
TEACH_SAID = "teach-said"  # why a file was not opened, or that a session cannot be read
TEACH_EMPTY = "teach-empty"

# The stage. What stands on it is the browser's own: assets/teach_story.js names these ids too.
TEACH_BODY = "teach-body"
TEACH_STAGE = "teach-stage"
TEACH_TITLE = "teach-title"
TEACH_COUNT = "teach-count"
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
