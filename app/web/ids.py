"""The ids of what stands around every page."""

# The shell: what stands around every page.
SHELL_PROVIDER = "shell-provider"
SHELL_ATHLETE = "shell-athlete"
SHELL_NEW = "shell-new"
SHELL_NEW_SAID = "shell-new-said"
SHELL_NAV = "shell-nav"
SHELL_MAIN = "shell-main"
SHELL_TITLE = "shell-title"  # store: the shown page's title
SHELL_THEME_SWITCH = "shell-theme-switch"
SHELL_DECIMAL = "shell-decimal"
SHELL_DECIMAL_SWITCH = "shell-decimal-switch"
SHELL_UNITS_SWITCH = "shell-units-switch"
SHELL_KEYS = "shell-keys"  # store: whether single keys do anything, kept in the browser
SHELL_KEYS_SWITCH = "shell-keys-switch"
SHELL_HELP = "shell-help"
SHELL_HELP_OPEN = "shell-help-open"
SHELL_HELP_LIST = "shell-help-list"
SHELL_NOTICE = "shell-notice"
