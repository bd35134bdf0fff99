"""Where the files that are no code lie: beside the packages in a checkout, inside ``app`` in an installed wheel."""

from pathlib import Path

HERE = Path(__file__).resolve().parent


def find_folder(name: str, here: Path = HERE) -> Path:
    """Find a folder of files that belong to the program.

    Parameters
    ----------
    name : str
        The folder's name, ``assets`` or ``demo_data``.
    here : Path
        The folder of the ``app`` package.

    Returns
    -------
    Path
        ``app/<name>`` as a wheel lays it, else ``<name>`` beside ``app`` as a checkout has it.

    Raises
    ------
    FileNotFoundError
        If it lies in neither place.
    """
    for folder in (here / name, here.parent / name):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"The folder {name!r} is neither in {here} nor beside it: install levelpeak again.")


def assets() -> Path:
    """Return the folder of styles and browser code."""
    return find_folder("assets")


def demo_data() -> Path:
    """Return the folder of the invented demo data."""
    return find_folder("demo_data")
