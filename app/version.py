"""The version of the installed program."""

from importlib.metadata import version

VERSION = version("levelpeak")
