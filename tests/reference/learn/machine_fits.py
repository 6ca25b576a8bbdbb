#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Reference of tests/core/learn/reference_fits_test.cpp: writes readings.csv and fits.csv beside itself.

What an operator measures on a machine, fitted by scipy.optimize.curve_fit in the coefficients that are wanted (spot, threshold, M2), so
that their covariance comes out directly, with Student's t or the normal distribution of scipy.stats. The program fits other coefficients
and works out these from them; it shares no code with this. Fieller's interval of the threshold is found as the places where the line
meets its own bounds. Sets: 1 spots by pulse energy, 2 the same with stated uncertainty, 3 lines by power over speed, 4 the measured caustic
of a helium-neon laser from the documentation of the Python package laserbeamsize (S. Prahl; radii in its module m2_fit.py, 632.8 nm),
5 a caustic with stated uncertainty, 6 power at the part against power dialled, 7 mean power against repetition rate. All but 4 are
made up. Run with python3, numpy, scipy.
"""
from pathlib import Path

import numpy as np
import scipy
from scipy.optimize import brentq, curve_fit
from scipy.stats import norm, t

HERE = Path(__file__).parent
WAVELENGTH = {4: 632.8e-9, 5: 1064e-9}
RATED = 300.0

energy = np.array([0.3, 0.45, 0.7, 1.0, 1.4, 2.0]) * 1e-3
dose = np.array([20, 28, 40, 60, 85, 120, 170.0])
z = np.array([-9, -7, -5, -3, -1, 0, 1, 2.5, 4, 6, 8, 10]) * 1e-3
SETS = {
    1: (energy, np.array([52.1, 78.4, 99.0, 113.9, 124.1, 137.2]) * 1e-6, None),
    2: (energy, np.array([52.1, 78.4, 99.0, 113.9, 124.1, 137.2]) * 1e-6, np.array([4, 3, 3, 3, 4, 5]) * 1e-6),
    3: (dose, np.array([61, 92, 118, 141, 160, 171, 189]) * 1e-6, None),
    4: (np.array([168, 210, 280, 348, 414, 480, 495, 510, 520, 580, 666, 770]) * 1e-3,
        2e-6 * np.array([597, 572, 547, 554, 479, 403, 415, 400, 377, 391, 326, 397.0]), None),
    5: (z, 1e-6 * np.array([338, 268, 214, 151, 121, 119, 124, 147, 187, 249, 309, 381.0]), np.full(12, 6e-6)),
    6: (np.array([60, 120, 180, 240, 300.0]), np.array([47.5, 99.8, 152.4, 203.0, 257.1]), None),
    7: (np.array([20, 40, 80, 120, 160, 240, 400, 800]) * 1e3, np.array([40.6, 79.1, 161.5, 238.8, 297, 301.5, 299, 303.0]), None),
}


def fitted(model, x, y, start, stated):
    """Coefficients, standard deviations, and how many of them hold nine in ten."""
    sigma = None if stated is None else stated / norm.ppf(0.95)
    found, cov = curve_fit(model, x, y, p0=start, sigma=sigma, absolute_sigma=stated is not None, xtol=1e-14, ftol=1e-14, gtol=1e-14)
    reach = t.ppf(0.95, len(x) - len(start)) if stated is None else norm.ppf(0.95)
    return found, cov, reach


def spot(x, y, stated, lines):
    """1/e2 diameter, threshold, peak fluence at the threshold."""
    u, mid = np.log(x) - np.log(x).mean(), np.log(x).mean()
    root = lambda f: np.sqrt(np.maximum(f, 1e-14))
    (b, u0), _, k = fitted(lambda u, b, u0: root(b * (u - u0)), u, y, [1e-8, u.min() - 0.3], stated)
    _, cov, _ = fitted(lambda u, a, b: root(a + b * u), u, y, [-b * u0, b], stated)
    a, half_b = -b * u0, k * np.sqrt(cov[1, 1])

    def gap(v):
        return (a + b * v) ** 2 - k * k * (cov[0, 0] + 2 * v * cov[0, 1] + v * v * cov[1, 1])

    ends = [brentq(gap, u0 - 20, u0, xtol=1e-13), brentq(gap, u0, u0 + 20, xtol=1e-13)]

    def by_fluence(u, log_d, log_f):
        w = np.exp(log_d) / 2
        threshold = np.exp(log_f) * (w * np.sqrt(np.pi / 2) if lines else np.pi * w * w / 2)
        return root(2 * w * w * (u + mid - np.log(threshold)))

    w, e = np.sqrt(b / 2), np.exp(mid + u0)
    fluence = e * np.sqrt(2 / np.pi) / w if lines else 2 * e / (np.pi * w * w)
    g, cov_g, _ = fitted(by_fluence, u, y, [np.log(2 * w), np.log(fluence)], stated)
    half_f = k * np.sqrt(cov_g[1, 1])
    return [np.sqrt(2 * np.array([b - half_b, b, b + half_b])), np.exp(mid + np.array([ends[0], u0, ends[1]])),
            np.exp(g[1] + half_f * np.array([-1, 0, 1]))]


def caustic(x, y, stated, wavelength):
    """Waist diameter, its position, M2, Rayleigh range, full angle."""
    def shape(parameters):
        """Diameter from the logarithms of waist and angle; every wanted number replaces one of them in turn."""
        return lambda x, p, z0, q: np.sqrt((s := parameters(p, q))[0] ** 2 + (s[1] * (x - z0)) ** 2)
    theta_of = lambda d0, m2: 4 * wavelength * m2 / (np.pi * d0)
    start = [np.log(y.min()), x[np.argmin(y)], np.log(2)]
    p, cov, k = fitted(shape(lambda p, q: (np.exp(p), theta_of(np.exp(p), np.exp(q)))), x, y, start, stated)
    d0, m2 = np.exp(p[0]), np.exp(p[2])
    theta = theta_of(d0, m2)
    r, cov_r, _ = fitted(shape(lambda p, q: (np.exp(p) * np.exp(q), np.exp(q))), x, y, [np.log(d0 / theta), p[1], np.log(theta)], stated)
    span = np.array([-1, 0, 1]) * k
    return [np.exp(p[0] + span * np.sqrt(cov[0, 0])), p[1] + span * np.sqrt(cov[1, 1]), np.exp(p[2] + span * np.sqrt(cov[2, 2])),
            np.exp(r[0] + span * np.sqrt(cov_r[0, 0])), np.exp(r[2] + span * np.sqrt(cov_r[2, 2]))]


def power(x, y):
    """Gain, offset, power at the rated setting."""
    p, cov, k = fitted(lambda x, gain, offset: offset + gain * x, x, y, [1, 0], None)
    r, cov_r, _ = fitted(lambda x, gain, full: full + gain * (x - RATED), x, y, [1, RATED], None)
    span = np.array([-1, 0, 1]) * k
    return [p[0] + span * np.sqrt(cov[0, 0]), p[1] + span * np.sqrt(cov[1, 1]), r[1] + span * np.sqrt(cov_r[1, 1])]


def ceiling(x, y):
    """Pulse energy, level power, rate of the corner."""
    x, y = np.log(x), np.log(y)
    p, cov, k = fitted(lambda x, e, level: np.minimum(e + x, level), x, y, [np.log(2e-3), np.log(300)], None)
    half = k * np.sqrt(np.array([cov[0, 0], cov[1, 1], cov[0, 0] + cov[1, 1] - 2 * cov[0, 1]]))
    return [np.exp(v + h * np.array([-1, 0, 1])) for v, h in zip([p[0], p[1], p[1] - p[0]], half)]


if __name__ == "__main__":
    found = {n: spot(*SETS[n], lines=n == 3) for n in (1, 2, 3)}
    found |= {n: caustic(*SETS[n], WAVELENGTH[n]) for n in (4, 5)}
    found |= {6: power(*SETS[6][:2]), 7: ceiling(*SETS[7][:2])}
    with open(HERE / "readings.csv", "w") as file:
        file.write("set,x,y,uncertainty (0: not stated)\n")
        for n, (x, y, u) in SETS.items():
            for i in range(len(x)):
                file.write(f"{n},{x[i]:.10g},{y[i]:.10g},{0 if u is None else u[i]:.10g}\n")
    with open(HERE / "fits.csv", "w") as file:
        file.write(f"set,low,likely,high (numpy {np.__version__} scipy {scipy.__version__})\n")
        for n, ranges in found.items():
            for low, likely, high in ranges:
                file.write(f"{n},{low:.10g},{likely:.10g},{high:.10g}\n")
