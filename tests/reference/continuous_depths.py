#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The resolved column of column_depths.py under a continuous beam: prints rows for tests/core/removal/column_test.cpp.

A Gaussian spot goes over the point again and again; matter leaves as soon as it has reached H, nothing else."""
import numpy as np
import column_depths as c


def passages(d, coat, peak_W_m2, width_s, gap_s, count):
    column = c.Column(d, coat)
    column.dz, dt = d / 20, width_s / 200
    for _ in range(count):
        for i in range(-250, 250):
            t = (i + 0.5) * dt
            f = peak_W_m2 * np.exp(-2 * (t / width_s) ** 2) * dt
            column.pulse(f)
            if column.top >= column.coat:
                return column.depth() * 1e6
            steps = max(1, int(np.ceil(dt / (3 * column.dz ** 2 * c.RHO_C / c.K))))
            for _ in range(steps):
                column.conduct(dt / steps)
        column.rest(gap_s)
    return column.depth() * 1e6


if __name__ == "__main__":
    # d um, coat um, peak irradiance MW/m2, time of the 1/e2 radius us, gap ms, passages
    for row in ((10, 80, 2000, 20, 4, 1), (10, 80, 2000, 20, 4, 2), (10, 80, 500, 50, 4, 2), (20, 100, 1000, 60, 8, 2), (20, 100, 300, 400, 8, 1), (10, 150, 300, 300, 8, 2)):
        d, coat, peak, width, gap, count = row
        print(f"{{{', '.join(map(str, row))}, {passages(d * 1e-6, coat * 1e-6, peak * 1e6, width * 1e-6, gap * 1e-3, count):.2f}}},")
