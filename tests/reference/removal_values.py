#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Values for tests/core/removal: erfcx, a numerical half-space heated through an absorption depth, melt depth under constant flux."""
import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq
from scipy.special import erfc, erfcx


def held_rise(s):
    """Surface of u_t = u_zz + exp(-z), insulated at z = 0, after time s: finite volumes, no closed form."""
    edges = np.r_[0, np.geomspace(0.002, 40 + 12 * np.sqrt(s), 900)]
    size, middle = np.diff(edges), 0.5 * (edges[1:] + edges[:-1])
    source = -np.diff(np.exp(-edges)) / size
    gap = np.diff(middle)

    def rate(_, u):
        flux = np.r_[0, (u[:-1] - u[1:]) / gap, 0]
        return source - np.diff(flux) / size

    from scipy.sparse import diags
    n = size.size
    shape = diags([1, 1, 1], [-1, 0, 1], shape=(n, n))
    u = solve_ivp(rate, (0, s), np.zeros(n), method="BDF", rtol=1e-8, atol=1e-11, jac_sparsity=shape).y[:, -1]
    return u[0]


def melt_depth_um(k, rho_c, melt_rise, absorbed_J_m2, tau):
    """Where T(x, tau) of a constant flux (Carslaw and Jaeger 2nd ed. section 2.9) meets melting, by root finding."""
    a, q = k / rho_c, absorbed_J_m2 / tau

    def over(x):
        return 2 * q / k * np.sqrt(a * tau / np.pi) * np.exp(-x * x / (4 * a * tau)) - q * x / k * erfc(x / (2 * np.sqrt(a * tau))) - melt_rise

    return 1e6 * brentq(over, 0, 20 * np.sqrt(a * tau)) if over(0) > 0 else 0.0


if __name__ == "__main__":
    print("x, erfcx")
    for x in (0, 1e-3, 0.3, 1, 2, 3.5, 4.9, 4.9999, 5, 5.0001, 6, 8, 12, 20, 26, 35, 50):
        print(f"{{{x}, {erfcx(x):.16g}}},")
    print("s, threshold over H d / A")
    for s in (0.01, 0.1, 1, 4, 25):
        print(f"{{{s}, {s / held_rise(s):.6g}}},")
    print("melt depth um: steel 53.3/7850/440 A 0.37, Al 237/2700/900 A 0.05; 30 and 200 ns; 1.05, 2 and 5 times the melt fluence")
    for k, c, rise in ((53.3, 7850 * 440, 1516), (237, 2700 * 900, 640)):
        for tau in (30e-9, 200e-9):
            need = rise * np.sqrt(np.pi * k * c * tau) / 2
            print([round(melt_depth_um(k, c, rise, x * need, tau), 4) for x in (1.05, 2, 5)])
