"""Vectors in space as plain 3-tuples: scalar work is quicker without arrays."""

import math

Vec = tuple[float, float, float]

ORIGIN: Vec = (0.0, 0.0, 0.0)


def plus(a: Vec, b: Vec) -> Vec:
    """a + b."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def minus(a: Vec, b: Vec) -> Vec:
    """a - b."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def times(a: Vec, k: float) -> Vec:
    """k a."""
    return (a[0] * k, a[1] * k, a[2] * k)


def mixed(a: Vec, p: float, b: Vec, q: float) -> Vec:
    """p a + q b."""
    return (p * a[0] + q * b[0], p * a[1] + q * b[1], p * a[2] + q * b[2])


def dot(a: Vec, b: Vec) -> float:
    """Scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vec, b: Vec) -> Vec:
    """Vector product."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def norm(a: Vec) -> float:
    """Length of a vector."""
    return math.sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2])


def distance(a: Vec, b: Vec) -> float:
    """Distance between two points."""
    return math.dist(a, b)


def unit(a: Vec) -> Vec:
    """The vector at length 1; a vector of no length stays as it is."""
    long = norm(a)
    return times(a, 1 / long) if long > 0 else a


def between(a: Vec, b: Vec, share: float) -> Vec:
    """The point a `share` (0..1) of the way from a to b."""
    return mixed(a, 1 - share, b, share)


def turned(v: Vec, axis: Vec, angle: float) -> Vec:
    """`v` turned by `angle` [rad] about the unit vector `axis`, by the right-hand rule (Rodrigues' formula)."""
    c, s = math.cos(angle), math.sin(angle)
    k = dot(axis, v) * (1 - c)
    w = cross(axis, v)
    return (v[0] * c + w[0] * s + axis[0] * k, v[1] * c + w[1] * s + axis[1] * k, v[2] * c + w[2] * s + axis[2] * k)
