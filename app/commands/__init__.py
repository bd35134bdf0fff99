"""The commands of `levelpeak`: each module has ``add_parser(subparsers)`` and ``run(args) -> int``."""
