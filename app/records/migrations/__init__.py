"""How the tables became what they are, step by step; the steps are found by their place, also in an installed wheel."""

from pathlib import Path

SCRIPTS = Path(__file__).parent
HEAD = "0001"
"""The last step. A new one is a file in `versions/`, made with the tables in mind as they were before it."""

VERSION_TABLE = "levelpeak_version"
