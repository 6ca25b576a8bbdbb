#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Resolved column for the removal ledger to be held against: writes column_depths.csv.

1-D finite volumes through one coat layer and the steel beneath. Light is absorbed over the depth d from the present surface;
conduction is implicit; enthalpy between rho c (T_rem - T0) and H conducts nothing more; matter that has reached H leaves after the
pulse (pulses shorter than the ejection time). Needs numpy and scipy.
"""
import csv
import numpy as np
from scipy.linalg import solve_banded

K, RHO_C, RISE, H, A = 0.3, 1.95e6, 330.0, 1.5e9, 0.9  # coat: W/mK, J/m3K, K to removal, J/m3, absorptance
STEEL_K, STEEL_RHO_C = 50.0, 3.6e6
SPOT, STEP, SPACING = 60e-6, 40e-6, 80e-6  # raster: 1/e2 radius, pulse step, line spacing
LINE_S, FRAME_S = 3.0e-3, 0.4


class Column:
    def __init__(self, d, thickness):
        self.d, self.dz = d, d / 20
        coat = int(round(thickness / self.dz))
        metal = self.dz * 1.35 ** np.arange(1, 26)
        self.size = np.r_[np.full(coat, self.dz), metal]
        self.k = np.r_[np.full(coat, K), np.full(metal.size, STEEL_K)]
        self.c = np.r_[np.full(coat, RHO_C), np.full(metal.size, STEEL_RHO_C)]
        self.h = np.zeros(self.size.size)
        self.top, self.coat = 0, coat

    def depth(self):
        return self.top * self.dz

    def pulse(self, fluence):
        edges = np.arange(self.coat - self.top + 1) * self.dz
        self.h[self.top:self.coat] += A * fluence * -np.diff(np.exp(-edges / self.d)) / self.dz
        while self.top < self.coat and self.h[self.top] >= H:
            self.top += 1

    def rest(self, gap):
        dt, limit = 0.2 * self.dz ** 2 * RHO_C / K, 3 * self.dz ** 2 * RHO_C / K
        while gap > 1e-15:
            held = np.any(self.h[self.top:self.coat] > RHO_C * RISE)
            dt = min(dt, limit) if held else dt
            step = min(dt, gap)
            self.conduct(step)
            gap -= step
            dt *= 1.1

    def conduct(self, dt):
        part = slice(self.top, None)
        h, c, size, k = self.h[part], self.c[part], self.size[part], self.k[part]
        plateau = (h > c * RISE) & (k == K)
        g = 1 / (size[:-1] / (2 * k[:-1]) + size[1:] / (2 * k[1:]))
        left, right = np.r_[0, g], np.r_[g, 0]
        bands = np.zeros((3, h.size))
        bands[1] = np.where(plateau, 1, c * size / dt + left + right)
        bands[0, 1:] = np.where(plateau[:-1], 0, -g)
        bands[2, :-1] = np.where(plateau[1:], 0, -g)
        T = solve_banded((1, 1), bands, np.where(plateau, RISE, size * h / dt))
        flux = np.r_[0, g * (T[:-1] - T[1:]), 0]
        self.h[part] = h - dt * np.diff(flux) / size


def train(rate, fluence, pulses):
    return [(i / rate, fluence) for i in range(pulses)]


def raster(rate, peak, frames):
    """Pulses on the middle of a frame of parallel lines, frames laid on each other; pulses weaker than 1e-4 of the peak left out."""
    hits = []
    for frame in range(frames):
        for line in range(-2, 3):
            for i in range(-3, 4):
                r2 = (line * SPACING) ** 2 + (i * STEP) ** 2
                f = peak * np.exp(-2 * r2 / SPOT ** 2)
                if f > 1e-4 * peak:
                    hits.append((frame * FRAME_S + (line + 2) * LINE_S + (i + 3) / rate, f))
    return hits


# kind, d um, coat um, rate kHz, fluence over the threshold H d / A (raster: at the spot's middle), most pulses or frames
CASES = [("train", 5, 60, 10, 1.5, 40), ("train", 5, 60, 100, 0.6, 120), ("train", 5, 60, 1000, 0.2, 400),
         ("train", 10, 100, 20, 5, 12), ("train", 10, 100, 100, 0.5, 80), ("train", 10, 60, 300, 0.3, 150),
         ("train", 10, 100, 1000, 1, 60), ("train", 20, 150, 50, 0.8, 40), ("train", 20, 150, 500, 0.2, 150),
         ("train", 30, 200, 10, 0.5, 60), ("train", 30, 200, 240, 2, 20), ("train", 30, 200, 1000, 0.2, 200),
         ("train", 5, 60, 20, 0.15, 3000), ("train", 5, 60, 10, 0.3, 2000), ("train", 10, 30, 240, 0.2, 60), ("train", 20, 40, 100, 0.5, 25),
         ("raster", 5, 60, 240, 2, 12), ("raster", 5, 60, 800, 0.8, 25), ("raster", 10, 80, 100, 5, 8), ("raster", 10, 80, 240, 1, 20),
         ("raster", 10, 80, 1000, 0.7, 25), ("raster", 20, 100, 240, 1.5, 12), ("raster", 20, 60, 500, 0.6, 25),
         ("raster", 30, 150, 240, 0.8, 20), ("raster", 30, 150, 50, 3, 8)]


def run(kind, d, coat, rate, ratio, most):
    """Pulses, or frames, until 60 % of the coat is gone or the most are done: their number and the depth in um."""
    d, rate = d * 1e-6, rate * 1e3
    column = Column(d, coat * 1e-6)
    now, count = 0.0, 0
    for time, fluence in (train if kind == "train" else raster)(rate, ratio * H * d / A, most):
        turn = round(time * rate) if kind == "train" else round(time // FRAME_S)
        if turn > count and column.depth() > 0.6e-6 * coat:
            break
        count = turn
        column.rest(time - now)
        column.pulse(fluence)
        now = time
    return count + 1, column.depth() * 1e6


if __name__ == "__main__":
    import os
    out = os.path.join(os.path.dirname(os.path.abspath(__file__)), "column_depths.csv")
    with open(out, "w", newline="") as stream:
        rows = csv.writer(stream, lineterminator="\n")
        rows.writerow(["kind", "d_um", "coat_um", "rate_kHz", "ratio", "count", "depth_um"])
        for case in CASES:
            count, depth = run(*case)
            rows.writerow([*case[:5], count, f"{depth:.2f}"])
