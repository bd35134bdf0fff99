"""The ids that more than one page, or a page and what stands around it, name."""

SHELL_URL = "shell-url"
SHELL_THEME = "shell-theme"  # store: "light", "dark" or "projector", kept in the browser
SHELL_UNITS = "shell-units"  # store: "metric" or "customary", kept in the browser
GLOSSARY_TERMS = "glossary-terms"  # what the browser reads the meanings of words from
