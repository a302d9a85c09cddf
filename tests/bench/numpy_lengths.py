"""The unit that the bench counts in: the lengths of all the curves of a pattern at once, as arrays."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from drafting.errors import NotAPattern
from drafting.geometry.curve import Cubic, Curve, length
from drafting.geometry.tolerance import LENGTH

__all__ = ["control_points", "lengths"]

_NODES: Final = 16
_MOST_RHO: Final = 64.0


def control_points(curves: Sequence[Curve]) -> NDArray[np.float64]:
    """The control points of curves in mm, shape (curves, 4, 2); a line has its inner two at thirds, which draw it."""
    rows = []
    for curve in curves:
        a, d = curve.start, curve.end
        if isinstance(curve, Cubic):
            b, c = curve.c1, curve.c2
            rows.append((a.x, a.y, b.x, b.y, c.x, c.y, d.x, d.y))
        else:
            x, y = (d.x - a.x) / 3.0, (d.y - a.y) / 3.0
            rows.append((a.x, a.y, a.x + x, a.y + y, d.x - x, d.y - y, d.x, d.y))
    return np.array(rows, dtype=np.float64).reshape(-1, 4, 2)


def lengths(curves: Sequence[Curve], tol: float = LENGTH) -> NDArray[np.float64]:
    """The length of every curve in mm, each within `tol` of the truth.

    Sixteen-point Gauss quadrature for all at once where the bound of arclength.py proves it good enough, and the
    plain function, which halves, for the few where it does not: near cusps and in tight loops.
    Raises NotAPattern for a `tol` that is not above zero.
    """
    if not tol > 0.0:
        raise NotAPattern("lengths", reason=f"they cannot be had within {tol} mm")
    if not curves:
        return np.empty(0)
    p = control_points(curves)
    legs = (3.0 * np.diff(p[..., 0] + 1j * p[..., 1], axis=1)).astype(np.complex128)
    nodes, weights = np.polynomial.legendre.leggauss(_NODES)
    ts = 0.5 * (nodes + 1.0)
    basis = np.stack([(1.0 - ts) ** 2, 2.0 * ts * (1.0 - ts), ts * ts])
    out = np.asarray(np.abs(legs @ basis) @ (0.5 * weights))
    for k in np.flatnonzero(_gauss_bound(legs) > tol).tolist():
        out[k] = length(curves[k], tol)
    return out


def _gauss_bound(legs: NDArray[np.complex128]) -> NDArray[np.float64]:
    """The bound of arclength.py on the error of the whole quadrature, for each curve; infinite where there is none.

    The velocity over [-1, 1] is a s^2 + b s + c.
    """
    d0, d1, d2 = legs.T
    a = 0.125 * (d0 - 2.0 * d1 + d2)
    b = 0.25 * (d2 - d0)
    c = 0.125 * (d0 + 2.0 * d1 + d2)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        root = np.sqrt(b * b - 4.0 * a * c)
        q = -0.5 * (b + np.where((b.conjugate() * root).real < 0.0, -root, root))
        rho = np.full(len(a), _MOST_RHO)
        for zero in (q / a, c / q):
            # no such root: the velocity is of lower degree, and nothing limits the ellipse
            place = np.where(np.isfinite(zero), zero, _MOST_RHO)
            size = np.abs(place + np.sqrt(place * place - 1.0))
            rho = np.minimum(rho, np.maximum(size, 1.0 / size))
        reach = 0.5 * (rho + 1.0 / rho)
        most = (np.abs(a) * reach + np.abs(b)) * reach + np.abs(c)
        bound = (64.0 / 15.0) * most / (1.0 - rho**-2) * rho ** (-2.0 * (_NODES - 1))
    return np.where(np.isfinite(bound), bound, np.inf)
