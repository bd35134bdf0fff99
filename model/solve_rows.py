"""Residuals of a least-squares problem with their exact derivatives, and what is done to both at once."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[Any]


@dataclass(frozen=True)
class Rows:
    """Some residuals (n,) and their derivatives (n, K * 8) by the spline coefficients."""

    value: Array
    slope: Array

    def over(self, scale: Any) -> "Rows":
        """Divide by a scale.

        Parameters
        ----------
        scale : float or ndarray (n,)

        Returns
        -------
        Rows
        """
        scale = np.broadcast_to(np.asarray(scale, dtype=float), self.value.shape)
        return Rows(self.value / scale, self.slope / scale[:, None])

    def beyond(self, limit: float, sense: int = 1) -> "Rows":
        """What passes a limit; zero where nothing does.

        Parameters
        ----------
        limit : float
        sense : int
            +1 for a ceiling, -1 for a floor.

        Returns
        -------
        Rows
        """
        excess = sense * (self.value - limit)
        passed = excess > 0
        return Rows(np.where(passed, excess, 0.0), sense * self.slope * passed[:, None])

    def __getitem__(self, which: Any) -> "Rows":
        return Rows(self.value[which], self.slope[which])

    def through(self, matrix: Array) -> "Rows":
        """Combine rows linearly.

        Parameters
        ----------
        matrix : ndarray (k, n)

        Returns
        -------
        Rows
        """
        return Rows(matrix @ self.value, matrix @ self.slope)


def joined(rows: list[Rows]) -> Rows:
    """Rows one below the other.

    Parameters
    ----------
    rows : list of Rows

    Returns
    -------
    Rows
    """
    return Rows(np.concatenate([row.value for row in rows]), np.concatenate([row.slope for row in rows]))
