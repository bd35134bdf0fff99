"""Published landmarks -> a reference motion.

Joint angles at a few events are not a motion: splines drawn through them by hand give torques ten times too large,
because torque is the small difference of large coupled terms. So the motion is solved for: spline coefficients of all
angles that pass through the landmarks within their spread, release the ball at the published speed, and among all such
motions need the least torque, torque rate and jerk. A least-squares problem with an exact Jacobian: a complex step
through the recursion at each phase, chained through the spline matrices.
"""

from collections.abc import Callable
from dataclasses import asdict, dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import least_squares, minimize_scalar

from model.ball import beyond_the_hand_m
from model.chain import COORDINATES, X, Y, Z, dot, frames_of, points_of
from model.channels import CHANNELS, INDEX
from model.dynamics import grip_fraction, inverse_dynamics, resolve
from model.motion import DEGREE, Motion, design_matrix, moving
from model.segments import arm_of
from model.solve_recipe import REFERENCE_THROWING, Landmark, Recipe, Throwing, landmarks
from model.solve_rows import Rows, joined

Array = NDArray[Any]

_STEP = 1e-30  # a complex step has no rounding, so it may be as small as we like
_TO_RADIANS = np.pi / 180.0
_GAIN, _SPEED, _DROP, _SIDE = (len(CHANNELS) + k for k in range(4))  # pointwise outputs beside the channels
_STANDARD = Recipe()


class MotionProblem:
    """The least-squares problem of one recipe: residuals and their exact Jacobian.

    Parameters
    ----------
    throwing : Throwing
        Who throws what at which time-scale factor; the reference throw unless another is asked for.
    marks : tuple of Landmark, optional
        Other landmarks than the published ones, at factor 1.
    """

    def __init__(
        self, recipe: Recipe, throwing: Throwing = REFERENCE_THROWING, marks: tuple[Landmark, ...] | None = None
    ) -> None:
        self.recipe = recipe
        self.throwing = throwing
        self.pace = throwing.clock / recipe.duration_s  # phases a second
        self.phase = np.linspace(0.0, 1.25, recipe.phases)
        self.coefficients = recipe.intervals + DEGREE
        self.splines = [design_matrix(recipe.intervals, self.phase, k) for k in range(4)]
        self.held = grip_fraction(self.phase)
        self.arm = arm_of(throwing.person)
        self.beyond_hand_m = beyond_the_hand_m(throwing.ball.diameter_m)
        self.landmarks = throwing.marks(landmarks() if marks is None else marks)
        step = self.phase[1] - self.phase[0]
        self.rate: Array = np.asarray(np.gradient(np.eye(recipe.phases), step, axis=0))  # central differences
        at = int(np.argmin(np.abs(self.phase - 1.0)))
        self.release = slice(at, at + 1)

    # -- quantities ---------------------------------------------------------------------------------------------

    def curve(self, x: Array, coordinate: str, phase: Array | None, derivative: int) -> Rows:
        """A joint angle (rad) or a derivative of it by phase, at given phases or at all of the problem's."""
        j = COORDINATES.index(coordinate)
        matrix = self.splines[derivative] if phase is None else design_matrix(self.recipe.intervals, phase, derivative)
        slope = np.zeros((len(matrix), self.coefficients, len(COORDINATES)))
        slope[:, :, j] = matrix
        return Rows(matrix @ x.reshape(self.coefficients, -1)[:, j], slope.reshape(len(matrix), -1))

    def _pointwise(self, q: Array, dq: Array, ddq: Array) -> Array:
        """Channels, slowing of the ball's centre (m/s a phase), release speed, drop and side angle (..., N, P)."""
        state = moving(self.phase, q, dq, ddq, self.recipe.duration_s, self.pace)
        frames = frames_of(state)
        points = points_of(frames, state, self.arm, self.beyond_hand_m)
        loads = resolve(frames, inverse_dynamics(frames, points, self.arm, self.throwing.ball.mass_kg, self.held))
        velocity, acceleration = points.ball.velocity, points.ball.acceleration
        speed = np.sqrt(dot(velocity, velocity))
        gain = dot(velocity, acceleration) / speed / self.pace
        drop = -velocity[..., Y] / velocity[..., X]  # tangents: angles of a few degrees
        side = velocity[..., Z] / velocity[..., X]
        return np.concatenate((loads, np.stack((gain, speed, drop, side), axis=-1)), axis=-1)

    def dynamics(self, x: Array) -> Callable[[int], Rows]:
        """Every pointwise output with its slopes: one complex step for each of 3 x 8 inputs, all phases at once."""
        q = np.stack([d @ x.reshape(self.coefficients, -1) for d in self.splines[:3]])  # (3, N, 8)
        n = q.shape[-1]
        stepped = np.broadcast_to(q.astype(complex), (3 * n, *q.shape)).copy()
        for k in range(3 * n):
            stepped[k, k // n, :, k % n] += 1j * _STEP
        out = self._pointwise(stepped[:, 0], stepped[:, 1], stepped[:, 2])  # (3 n, N, P)
        value = out[0].real
        partial = (out.imag / _STEP).reshape(3, n, *value.shape)  # (derivative, coordinate, N, P)
        slope = np.einsum("djtp,dtk->tpkj", partial, np.stack(self.splines[:3]))
        slope = slope.reshape(*value.shape, -1)
        return lambda p: Rows(value[:, p], slope[:, p])

    # -- residuals ----------------------------------------------------------------------------------------------

    def landmark_rows(self, x: Array, mark: Landmark) -> Rows:
        """Distance from a landmark in its standard deviations (z)."""
        row = self.curve(x, mark.coordinate, np.array([mark.phase]), mark.derivative)
        per_time = self.pace**mark.derivative
        return Rows(row.value * per_time - mark.value, row.slope * per_time).over(mark.spread)

    def landmark_block(self, x: Array) -> list[Rows]:
        """Every landmark over its spread, and a guard that holds event averages within 1.3 of theirs."""
        recipe, rows = self.recipe, []
        for mark in self.landmarks:
            z = self.landmark_rows(x, mark)
            if mark.phase > 1.0 and mark.derivative == 0:
                rows.append(z.over(recipe.after_release_spread))
            elif mark.phase > 1.0:
                rows.append(z.over(recipe.internal_rotation_speed_sd_deg_s * _TO_RADIANS / mark.spread))
            else:
                rows.append(z)
            if mark.event_average:
                guards = (z.beyond(sense * recipe.guard_sd, sense) for sense in (+1, -1))
                rows += [guard.over(1.0 / recipe.guard_weight) for guard in guards]
        return rows

    def release_block(self, output: Callable[[int], Rows]) -> list[Rows]:
        """Release speed and direction (tangents of the angles: they are a few degrees)."""
        recipe = self.recipe
        angle = recipe.release_angle_scale_deg * _TO_RADIANS
        aims = (
            (_SPEED, recipe.release_speed_m_s, recipe.release_speed_scale_m_s),
            (_DROP, np.tan(recipe.release_drop_deg * _TO_RADIANS), angle),
            (_SIDE, 0.0, angle),
        )
        found = [(output(p)[self.release], target, scale) for p, target, scale in aims]
        return [Rows(row.value - target, row.slope).over(scale) for row, target, scale in found]

    def torque_block(self, output: Callable[[int], Rows]) -> list[Rows]:
        """Size of the torques, and of their first and second derivatives by phase."""
        recipe, after = self.recipe, self.phase > 1.0
        rate, curvature = self.rate, self.rate @ self.rate
        rows = []
        for key, scale in recipe.torque_scale_nm.items():
            weight = np.where(after, recipe.after_release_torque, 1.0)
            if key == "varus":
                weight = np.where(self.phase > recipe.after_release_varus_from, recipe.after_release_varus, weight)
            rows.append(output(INDEX[key]).over(scale / weight))
        for matrix, scales, share in (
            (rate, recipe.torque_rate_scale_nm, recipe.after_release_rate),
            (curvature, recipe.torque_curvature_scale_nm, recipe.after_release_curvature),
        ):
            weight = np.where(after, share, 1.0)
            rows += [output(INDEX[key]).through(matrix).over(scale / weight) for key, scale in scales.items()]
        return rows

    def ceiling_block(self, output: Callable[[int], Rows]) -> list[Rows]:
        """What passes a ceiling on the other channels, and a ball that does not slow down once let go."""
        recipe, rows = self.recipe, []
        for key, sense, ceiling, start, end in recipe.ceilings:
            when = (self.phase >= start) & (self.phase <= end)
            rows.append(output(INDEX[key])[when].beyond(sense * ceiling, sense).over(recipe.ceiling_scale_nm))
        for key, ceiling in recipe.force_ceiling_n.items():
            for limit, sense in ((ceiling, +1), (0.0, -1)):  # neither too much pull nor any push
                rows.append(output(INDEX[key]).beyond(limit, sense).over(recipe.force_scale_n))
        slowing = output(_GAIN)[self.phase > recipe.slowing_from].beyond(-recipe.slowing_m_s_a_phase)
        return [*rows, slowing.over(recipe.slowing_scale_m_s_a_phase)]

    def path_block(self, x: Array) -> list[Rows]:
        """Jerk of every angle, and what passes the limits of angles and speeds."""
        recipe = self.recipe
        rows = [self.curve(x, name, None, 3).over(1.0 / weight) for name, weight in recipe.jerk_weight.items()]
        for name, sense, limit in recipe.angle_limits:
            beyond = self.curve(x, name, None, 0).beyond(limit * _TO_RADIANS, sense)
            rows.append(beyond.over(recipe.angle_scale_deg * _TO_RADIANS))
        for name, sense, limit, scale, start in recipe.rate_limits:
            speed_deg_s = self.curve(x, name, None, 1).over(_TO_RADIANS / self.pace)
            rows.append(speed_deg_s[self.phase >= start].beyond(limit, sense).over(scale))
        return rows

    def blocks(self, x: Array) -> dict[str, Rows]:
        """All residuals; those over phase divided by the root of the number of phases.

        Parameters
        ----------
        x : ndarray (K * 8,)
            Spline coefficients (rad), coordinate running fastest.

        Returns
        -------
        dict of str to Rows
            By block: landmarks, release, torques, ceilings, path.
        """
        output, root_n = self.dynamics(x), np.sqrt(self.recipe.phases)
        return {
            "landmarks": joined(self.landmark_block(x)),
            "release": joined(self.release_block(output)),
            "torques": joined(self.torque_block(output)).over(root_n),
            "ceilings": joined(self.ceiling_block(output)).over(root_n),
            "path": joined(self.path_block(x)).over(root_n),
        }

    def start(self) -> Array:
        """Linear least-squares fit to the landmarks and the jerk: where the solver begins (K * 8,)."""
        zero = np.zeros(self.coefficients * len(COORDINATES))
        root_n = np.sqrt(self.recipe.phases)
        rows = [self.landmark_rows(zero, mark) for mark in self.landmarks]
        rows += [self.curve(zero, c, None, 3).over(root_n / w) for c, w in self.recipe.jerk_weight.items()]
        linear = joined(rows)
        return np.linalg.lstsq(linear.slope, -linear.value, rcond=None)[0]


@dataclass(frozen=True)
class Solution:
    """A solved motion with what it cost.

    Attributes
    ----------
    cost : dict of str to float
        Half the sum of squares of each block of residuals.
    evaluations : int
        Evaluations of the residuals.
    landmark_z : tuple of (Landmark, float)
        Distance from each landmark in its standard deviations.
    """

    motion: Motion
    recipe: Recipe
    cost: dict[str, float]
    evaluations: int
    landmark_z: tuple[tuple[Landmark, float], ...]


def solve(
    recipe: Recipe = _STANDARD,
    progress: Callable[[int, float], None] | None = None,
    start: Array | None = None,
    throwing: Throwing = REFERENCE_THROWING,
    marks: tuple[Landmark, ...] | None = None,
) -> Solution:
    """Solve for a motion.

    Parameters
    ----------
    progress : callable
        Called with the number of the evaluation and half its sum of squares.
    start : ndarray (K * 8,), optional
        Where to begin; by default the linear fit of `MotionProblem.start`.
    throwing : Throwing
        Who throws what at which time-scale factor; `solve_recipe.recipe_for` sets a recipe's tolerances for it.
    marks : tuple of Landmark, optional
        Other landmarks than the published ones, at factor 1.

    Returns
    -------
    Solution
        Its motion's own duration is that at factor 1: the throw is the motion run at `throwing.clock`.

    Raises
    ------
    RuntimeError
        If the solver does not come to rest.
    """
    problem = MotionProblem(recipe, throwing, marks)
    latest: list[Any] = [None, None]  # the solver asks for residuals and Jacobian of the same point in turn
    count = 0

    def at(x: Array) -> Rows:
        nonlocal count
        if latest[0] is None or not np.array_equal(latest[0], x):
            count += 1
            latest[:] = [x.copy(), joined(list(problem.blocks(x).values()))]
            if progress:
                progress(count, 0.5 * float(latest[1].value @ latest[1].value))
        return latest[1]

    found = least_squares(
        lambda x: at(x).value,
        problem.start() if start is None else start,
        jac=lambda x: at(x).slope,
        method="trf",
        x_scale="jac",
        max_nfev=200,
    )
    if not found.success:
        raise RuntimeError(f"the motion did not settle: {found.message}")
    coefficients = found.x.reshape(problem.coefficients, len(COORDINATES))
    return Solution(
        Motion(coefficients, recipe.duration_s, _max_external_rotation_phase(coefficients, recipe)),
        recipe,
        {name: 0.5 * float(rows.value @ rows.value) for name, rows in problem.blocks(found.x).items()},
        count,
        tuple((mark, float(problem.landmark_rows(found.x, mark).value[0])) for mark in problem.landmarks),
    )


def _max_external_rotation_phase(coefficients: Array, recipe: Recipe) -> float:
    curve = coefficients[:, COORDINATES.index("external_rotation")]

    def less(phase: float) -> float:
        return -float(design_matrix(recipe.intervals, [phase])[0] @ curve)

    return float(minimize_scalar(less, bounds=(0.6, 1.0), method="bounded", options={"xatol": 1e-9}).x)


def record_of(solution: Solution, solved_on: str) -> dict[str, Any]:
    """The solved motion as data: what `reference_motion.json` holds.

    Parameters
    ----------
    solved_on : str
        Date, ISO 8601.

    Returns
    -------
    dict
        Plain numbers, lists and texts: coefficients (rad), duration (s), the recipe, the costs and the residuals.
    """
    return {
        "what": "Reference motion: quintic B-spline coefficients of each joint angle over phase 0 to 1.25.",
        "solved_on": solved_on,
        "rebuild": "levelpeak solve-motion",
        "thrower": asdict(REFERENCE_THROWING.person),
        "ball": asdict(REFERENCE_THROWING.ball),
        "duration_s": solution.motion.duration_s,
        "max_external_rotation_phase": solution.motion.max_external_rotation_phase,
        "coordinates": list(COORDINATES),
        "coefficients_rad": solution.motion.coefficients.tolist(),
        "evaluations": solution.evaluations,
        "cost": solution.cost,
        "landmark_residuals_sd": [
            {"coordinate": mark.coordinate, "phase": mark.phase, "derivative": mark.derivative, "z": round(z, 4)}
            for mark, z in solution.landmark_z
        ],
        "recipe": asdict(solution.recipe),
    }
