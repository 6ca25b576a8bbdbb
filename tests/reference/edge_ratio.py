#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Reference values of tests/core/dose/evenness_test.cpp and tests/core/beam/profile_test.cpp.

Edge ratio of a sine oscillation of width W by a spot of 1/e2 radius w: exposure density 1/(pi sqrt((W/2)^2 - x^2)) blurred by the spot,
mean over the outer tenths of [-W/2, W/2] over the mean of its central half. The substitution x = W/2 sin(phi) takes the poles away.
Profile peaks: 1 / integral of 2 pi r exp(-2 r^m) dr, by quadrature. Run with python3, scipy.
"""
from math import asin, exp, pi, sin, sqrt

from scipy.integrate import quad
from scipy.special import erf


def share_between(low, high, width, w):
    """Share of the energy that lands between two places across the travel."""
    def caught(phi):
        x = width / 2 * sin(phi)
        return (erf(sqrt(2) * (high - x) / w) - erf(sqrt(2) * (low - x) / w)) / 2
    breaks = sorted({asin(max(-1, min(1, 2 * edge / width))) for edge in (low, high)})
    return quad(caught, -pi / 2, pi / 2, points=breaks, limit=500, epsabs=1e-13)[0] / pi


def edge_ratio(width, w):
    outer = share_between(0.4 * width, 0.5 * width, width, w) / (0.1 * width)
    centre = share_between(-0.25 * width, 0.25 * width, width, w) / (0.5 * width)
    return outer / centre


for spots in (6, 20, 100):
    print(f"edge ratio, W = {spots} spot diameters: {edge_ratio(2.0 * spots, 1.0):.8f}")
print(f"edge ratio, spot vanishing: {(0.5 - asin(0.8) / pi) / 0.1 / (2 * asin(0.5) / pi / 0.5):.8f}")
for m in (2, 4, 20):
    print(f"peak per watt at w = 1, m = {m}: {1 / quad(lambda r: 2 * pi * r * exp(-2 * r**m), 0, 5, epsabs=1e-14)[0]:.10f}")
