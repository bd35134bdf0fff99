"""The command ``levelpeak``: the dashboard, or one of the commands that need no screen."""

import argparse
import sys
from collections.abc import Sequence
from importlib import import_module
from types import ModuleType

from app.commands.place_options import add_place
from app.version import VERSION

COMMANDS = {
    "readouts": "app.commands.readouts",
    "compare": "app.commands.compare",
    "curve": "app.commands.curve",
    "check": "app.commands.check",
    "solve-motion": "app.commands.solve_motion",
    "export": "app.commands.export",
    "import": "app.commands.import_records",
    "restore": "app.commands.restore",
    "solve-grid": "app.commands.solve_grid",
}
"""Each command's module has ``add_parser(subparsers)`` and ``run(args) -> int``."""

FIRST_PORT = 8050


INTERRUPTED = 130  # what shells expect after Ctrl-C


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line.

    Parameters
    ----------
    argv : sequence of str, optional
        The words after ``levelpeak``; those the program was started with if left out.

    Returns
    -------
    int
        The exit status: 0 when all went well.
    """
    words = sys.argv[1:] if argv is None else list(argv)
    modules = command_modules(words)
    args = make_parser(modules).parse_args(words)
    if args.command:
        try:
            status: int = modules[args.command].run(args)
        except KeyboardInterrupt:
            print(f"\nlevelpeak {args.command}: stopped", file=sys.stderr)
            return INTERRUPTED
        return status
    from app.web.serve import serve  # only a screen needs dash, and it takes half a second

    return serve(
        host=args.host,
        port=args.port,
        demo=args.demo,
        browser=args.browser,
        data_dir=args.data_dir,
        database=args.database,
    )


def command_modules(words: Sequence[str]) -> dict[str, ModuleType]:
    """Import the command that is named first, or all of them where none is, so that the help can list them.

    Parameters
    ----------
    words : sequence of str
        The words after ``levelpeak``.

    Returns
    -------
    dict of str to module
        The imported modules by command name.
    """
    named = [name for name in words[:1] if name in COMMANDS]
    return {name: import_module(COMMANDS[name]) for name in named or COMMANDS}


def make_parser(modules: dict[str, ModuleType]) -> argparse.ArgumentParser:
    """Make the parser of the command line.

    Parameters
    ----------
    modules : dict of str to module
        The commands it shall know.

    Returns
    -------
    argparse.ArgumentParser
        The parser; without a command it gives the options of the dashboard.
    """
    parser = argparse.ArgumentParser(
        prog="levelpeak",
        description="Joint torque of a throw over time. Without a command: open the dashboard in the browser.",
    )
    parser.add_argument("--version", action="version", version=f"levelpeak {VERSION}")
    parser.add_argument("--demo", action="store_true", help="open on the invented demo data")
    parser.add_argument(
        "--port",
        type=port_number,
        default=FIRST_PORT,
        help="port; a busy one takes the next (%(default)s)",
    )
    parser.add_argument("--no-browser", dest="browser", action="store_false", help="open no browser window")
    parser.add_argument(
        "--host",
        default="127.0.0.1",
        help="address to answer at, for others in the room; there is no login (%(default)s: this machine only)",
    )
    add_place(parser, default=None)
    subparsers = parser.add_subparsers(dest="command", metavar="command", title="commands")
    for module in modules.values():
        module.add_parser(subparsers)
    return parser


def port_number(text: str) -> int:
    """Read a port number.

    Parameters
    ----------
    text : str
        What was typed.

    Returns
    -------
    int
        The port.

    Raises
    ------
    argparse.ArgumentTypeError
        If it is no whole number from 1 to 65535.
    """
    if not (text.isascii() and text.isdigit() and 1 <= int(text[:6]) <= 65535):
        raise argparse.ArgumentTypeError(f"{text!r} given; accepted: a whole number from 1 to 65535")
    return int(text)


if __name__ == "__main__":
    sys.exit(main())
