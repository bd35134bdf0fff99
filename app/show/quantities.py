"""The quantities a person can choose: every torque and force of the model, torques first, the braking ones marked."""

from model.channels import CHANNELS, Reading
from model.readouts import QUANTITIES

DEFAULT = "varus"
BRAKING_MARK = "braking after release"


def reading_named(key: object) -> Reading:
    """Find a reading by what the browser sent; anything unknown is the varus torque.

    Parameters
    ----------
    key : object
        A key of `QUANTITIES`, as sent by the browser.

    Returns
    -------
    Reading
    """
    return QUANTITIES[key] if isinstance(key, str) and key in QUANTITIES else QUANTITIES[DEFAULT]


def title(reading: Reading) -> str:
    """Name a quantity with its joint.

    Parameters
    ----------
    reading : Reading

    Returns
    -------
    str
        For example "Varus torque at the elbow".
    """
    joint = CHANNELS[reading.channel].joint
    place = "" if joint in reading.label else f" at the {joint}"
    return reading.label[0].upper() + reading.label[1:] + place


def choices() -> list[dict[str, object]]:
    """Return all quantities for a choice: torques, braking torques, forces, braking forces.

    Returns
    -------
    list of dict
        Groups of ``value`` and ``label``.
    """
    groups: dict[str, list[dict[str, str]]] = {}
    for unit, name in (("N·m", "Torques"), ("N", "Forces")):
        for braking in (False, True):
            head = f"{name}, {BRAKING_MARK}" if braking else name
            for reading in QUANTITIES.values():
                if reading.unit == unit and reading.braking is braking:
                    groups.setdefault(head, []).append({"value": reading.key, "label": title(reading)})
    return [{"group": head, "items": items} for head, items in groups.items()]
