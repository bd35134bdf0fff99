"""The names of the columns of a throw over time, in every table of one."""

from model.channels import CHANNELS


def channel_column(key: str) -> str:
    """What a channel is called in the table.

    Parameters
    ----------
    key : str
        A key of `CHANNELS`.

    Returns
    -------
    str
        With the kind and the unit: ``varus_torque_nm``, ``ball_force_on_hand_x_n``.
    """
    if CHANNELS[key].joint == "hand":
        return key.replace("ball", "ball_force_on_hand") + "_n"
    return f"{key}_torque_nm" if CHANNELS[key].unit == "N·m" else f"{key}_force_n"
