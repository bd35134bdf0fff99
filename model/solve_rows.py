"""Residuals of a least-squares problem with their exact derivatives, and what is done to both at once."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[Any]


@dataclass(frozen=True)
class Rows:
    """Some residuals: value (n,), and slope (n, K * 8), their derivatives by the spline coefficients."""

    value: Array
    slope: Array

    def over(self, scale: Any) -> "Rows":
        """Divide by a scale.

        Parameters
        ----------
        scale : float or ndarray (n,)
        """
        scale = np.broadcast_to(np.asarray(scale, dtype=float), self.value.shape)
        return Rows(self.value / scale, self.slope / scale[:, None])

    def beyond(self, limit: float, sense: int = 1) -> "Rows":
        """What passes a limit; zero where nothing does.

        Parameters
        ----------
        limit : float
            In the unit of the residuals.
        sense : int
            +1 for a ceiling, -1 for a floor.
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
        """
        return Rows(matrix @ self.value, matrix @ self.slope)


def joined(rows: list[Rows]) -> Rows:
    """Rows one below the other."""
    return Rows(np.concatenate([row.value for row in rows]), np.concatenate([row.slope for row in rows]))
