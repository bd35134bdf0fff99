"""Every id on the screen, in one place: a callback and a layout that name the same thing name it once."""

# The shell: what stands around every page.
SHELL_PROVIDER = "shell-provider"
SHELL_URL = "shell-url"
SHELL_NAV = "shell-nav"
SHELL_MAIN = "shell-main"
SHELL_TITLE = "shell-title"  # store: the shown page's title
SHELL_THEME = "shell-theme"  # store: "light", "dark" or "projector", kept in the browser
SHELL_THEME_SWITCH = "shell-theme-switch"
SHELL_KEYS = "shell-keys"  # store: whether single keys do anything, kept in the browser
SHELL_KEYS_SWITCH = "shell-keys-switch"
SHELL_HELP = "shell-help"
SHELL_HELP_OPEN = "shell-help-open"
SHELL_HELP_LIST = "shell-help-list"
SHELL_NOTICE = "shell-notice"

# The Compare page. Stores.
COMPARE_SAVED = "compare-saved"  # the form as it was typed; kept for as long as the browser's tab is
COMPARE_BEFORE = "compare-before"  # the form before the last change that replaced or removed something
COMPARE_NARROW = "compare-narrow"  # whether the window is too narrow for labels beside the curves
COMPARE_PAPER = "compare-paper"  # the figure as it is printed
COMPARE_FOCUS = "compare-focus"  # the id of the control to go to after the list of throws was changed

# Who throws.
COMPARE_CHOOSE = "compare-choose"
COMPARE_ATHLETE = "compare-athlete"  # where the fields of the athlete are put
COMPARE_MEASURE = "compare-measure"  # {"type": this, "name": field}
COMPARE_LENGTHS = "compare-lengths"

# The throws.
COMPARE_ROWS = "compare-rows"
COMPARE_THROW = "compare-throw"  # {"type": this, "throw": key, "name": field}
COMPARE_SAMPLE = "compare-sample"  # {"type": this, "throw": key}: a piece of the throw's line
COMPARE_MOVE = "compare-move"  # {"type": this, "throw": key, "move": "copy", "remove", "up" or "down"}
COMPARE_ADD = "compare-add"
COMPARE_RACK = "compare-rack"
COMPARE_EXAMPLE = "compare-example"
COMPARE_CLEAR = "compare-clear"
COMPARE_NOTICE = "compare-notice"
COMPARE_DISMISS = "compare-dismiss"
COMPARE_PUT_BACK = "compare-put-back"
COMPARE_REFERENCE = "compare-reference"
COMPARE_KIND = "compare-kind"
COMPARE_DATE = "compare-date"

# What is shown.
COMPARE_QUANTITY = "compare-quantity"
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
