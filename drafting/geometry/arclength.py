"""Arc length of a cubic with a proven error bound.

The velocity of a plane cubic, read as a complex number, is a quadratic p(t); its speed is |p(t)|, which
continues analytically off the real line as sqrt(p(z) * conj(p)(z)) up to the roots of p and their mirror
images. On an interval mapped to [-1, 1] let rho be the size of the largest ellipse with foci at -1 and 1
that has no root inside, and M a bound of |p| on it. Gauss quadrature with n + 1 nodes then errs by at most

    (64 / 15) * M * rho**(-2 n) / (1 - rho**-2)

(L. N. Trefethen, Approximation Theory and Approximation Practice, theorem 19.3). An interval whose bound is
too large is halved; one too short to matter is bounded by its chord below and its control polygon above.
So the tolerance is a true bound of the error, at cusps and loops as well.
"""

from __future__ import annotations

import cmath
import math

__all__ = ["Hodograph", "before", "length_of", "speed_at"]

Hodograph = tuple[complex, complex, complex]
"""The velocity of a cubic as the three control points of a quadratic Bezier curve, x + iy, mm for each unit of t."""

# Nodes and weights of 8-, 16- and 24-point Gauss-Legendre quadrature, positive half (the rule is even).
# Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4; the tests compare them with numpy.
_GAUSS_8 = (
    (0.1834346424956498, 0.3626837833783620),
    (0.5255324099163290, 0.3137066458778873),
    (0.7966664774136267, 0.2223810344533745),
    (0.9602898564975363, 0.1012285362903763),
)
_GAUSS_16 = (
    (0.0950125098376374, 0.1894506104550685),
    (0.2816035507792589, 0.1826034150449236),
    (0.4580167776572274, 0.1691565193950025),
    (0.6178762444026438, 0.1495959888165767),
    (0.7554044083550030, 0.1246289712555339),
    (0.8656312023878318, 0.0951585116824928),
    (0.9445750230732326, 0.0622535239386479),
    (0.9894009349916499, 0.0271524594117541),
)
_GAUSS_24 = (
    (0.0640568928626056, 0.1279381953467520),
    (0.1911188674736163, 0.1258374563468282),
    (0.3150426796961634, 0.1216704729278033),
    (0.4337935076260451, 0.1155056680537255),
    (0.5454214713888396, 0.1074442701159656),
    (0.6480936519369755, 0.0976186521041139),
    (0.7401241915785544, 0.0861901615319532),
    (0.8200019859739029, 0.0733464814110802),
    (0.8864155270044011, 0.0592985849154364),
    (0.9382745520027328, 0.0442774388174194),
    (0.9747285559713095, 0.0285313886289336),
    (0.9951872199970213, 0.0123412297999887),
)
_MOST_REACH = 32.0
"""Half the largest rho that is told apart: beyond, 8 nodes are exact to the last digit of a float."""


def speed_at(v: Hodograph, t: float) -> float:
    """The speed at t, mm for each unit of t."""
    u = 1.0 - t
    return abs(u * u * v[0] + 2.0 * u * t * v[1] + t * t * v[2])


def before(v: Hodograph, t: float) -> Hodograph:
    """The velocity of the part from the start to t, travelled in one unit of its own parameter."""
    first = v[0] + (v[1] - v[0]) * t
    second = v[1] + (v[2] - v[1]) * t
    return v[0] * t, first * t, (first + (second - first) * t) * t


def length_of(v: Hodograph, tol: float) -> float:
    """The length travelled in the unit of parameter, mm, within `tol` of the truth; not a number for what is none."""
    start, middle, end = v
    # p(x) = a x^2 + b x + c on [-1, 1], half the velocity because x runs twice as far as t
    sides, twice = 0.125 * (start + end), 0.25 * middle
    a, b, c = sides - twice, 0.25 * (end - start), sides + twice
    reach = _reach(a, b, c)
    if reach > 1.0:
        shrunk = (reach + math.sqrt(reach * reach - 1.0)) ** -2
        most = (abs(a) * reach + abs(b)) * reach + abs(c)
        error = (64.0 / 15.0) * most / (1.0 - shrunk) * shrunk**7
        if error <= tol:
            return _gauss(_GAUSS_8, a, b, c)
        if error * shrunk**8 <= tol:
            return _gauss(_GAUSS_16, a, b, c)
        if error * shrunk**16 <= tol:
            return _gauss(_GAUSS_24, a, b, c)
    polygon = (abs(start) + abs(middle) + abs(end)) / 3.0
    chord = abs(start + middle + end) / 3.0
    if not polygon - chord > 2.0 * tol:  # so said that what is not a number ends here too
        return 0.5 * (polygon + chord)
    left = before(v, 0.5)
    right = (left[2], 0.25 * (middle + end), 0.5 * end)
    return length_of(left, 0.5 * tol) + length_of(right, 0.5 * tol)


def _gauss(rule: tuple[tuple[float, float], ...], a: complex, b: complex, c: complex) -> float:
    total = 0.0
    for x, w in rule:
        even, odd = a * (x * x) + c, b * x
        total += w * (abs(even + odd) + abs(even - odd))
    return total


def _reach(a: complex, b: complex, c: complex) -> float:
    """The longer half axis of the largest ellipse with foci at -1 and 1 that has no root of a x^2 + b x + c inside.

    It is half the sum of the distances of a place on it from the foci; rho is the sum of both half axes.
    """
    if abs(a) <= 1e-15 * (abs(b) + abs(c)):
        if abs(b) <= 1e-15 * abs(c):
            return _MOST_REACH
        z = c / b  # the root is -z, which lies as far from both foci together
        return min(_MOST_REACH, 0.5 * (abs(z - 1.0) + abs(z + 1.0)))
    s = cmath.sqrt(b * b - 4.0 * a * c)
    if b.real * s.real + b.imag * s.imag < 0.0:
        s = -s
    q = -0.5 * (b + s)
    if q == 0.0:
        return 1.0
    one, other = q / a, c / q
    return min(_MOST_REACH, 0.5 * (abs(one - 1.0) + abs(one + 1.0)), 0.5 * (abs(other - 1.0) + abs(other + 1.0)))
