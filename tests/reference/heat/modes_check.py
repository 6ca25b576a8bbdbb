#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the finite elements' tables of constant properties to closed forms (numpy, scipy); prints the greatest differences.

The sheet in cosine modes, each exact in time but for the quadrature of its load; the plate as an integral of Green's function over the
beam's past: images of the rims in plane; through the depth images at first, then modes of both losing faces.

    modes_check.py [sheet_constant.csv [plate_frames.csv]]
"""
import csv
import os
import sys

import numpy as np
from scipy.integrate import trapezoid
from scipy.optimize import brentq
from scipy.special import erf

HERE = os.path.dirname(os.path.abspath(__file__))
AMBIENT, K, RHO_C, LOSS = 20.0, 50.0, 7850 * 480.0, 12.0
DIFFUSIVITY = K / RHO_C


def table(path):
    with open(path) as stream:
        header, *rows = csv.reader(stream)
    return header, np.array(rows, float)


def sheet(probes, end, modes=(800, 500), step=0.1):
    """Temperatures at the probes at every second."""
    width, height, thickness, power, blur = 1.0, 0.6, 0.8e-3, 150.0, 1.5e-3
    kx, ky = (np.arange(n) * np.pi / size for n, size in zip(modes, (width, height)))
    rate = DIFFUSIVITY * (kx[:, None] ** 2 + ky**2) + 2 * LOSS / (RHO_C * thickness)
    norm = np.outer(np.where(kx > 0, 2, 1) / width, np.where(ky > 0, 2, 1) / height)
    strength = power / (0.03 * 0.014) / (RHO_C * thickness)
    across = [0.03 * np.sinc(kx * 0.015 / np.pi) * np.cos(kx * x) * np.exp(-((kx * blur) ** 2) / 2) for x in (0.4855, 0.5145)]
    node, weight = np.polynomial.legendre.leggauss(800)
    y = (node + 1) * height / 2
    cosines = np.cos(np.outer(ky, y)) * weight * height / 2

    def along(t):
        d = y - (0.01 * t if t < 60 else 0.6 - 0.01 * (t - 60))
        return cosines @ (erf((d + 0.007) / (blur * 2**0.5)) - erf((d - 0.007) / (blur * 2**0.5))) / 2

    moment, share = np.polynomial.legendre.leggauss(6)
    moment, share = (moment + 1) / 2, share / 2
    fade = [np.exp(-rate * step * (1 - m)) * step * s for m, s in zip(moment, share)]
    whole, state, result = np.exp(-rate * step), np.zeros(modes), []
    for n in range(round(end / step) + 1):
        if n % round(1 / step) == 0:
            result.append([AMBIENT + np.cos(kx * px) @ (state * norm) @ np.cos(ky * py) for px, py in probes])
        state *= whole
        for m, f in zip(moment, fade):
            t = (n + m) * step
            state += strength * f * np.outer(across[int(t > 60)], along(t))
    return np.array(result)


class Plate:
    width, height, depth, power, radius = 0.12, 0.08, 1.5e-3, 120.0, 3e-3

    def __init__(self, modes=40):
        half = self.depth / 2
        even = lambda u: K * u * np.sin(u * half) - LOSS * np.cos(u * half)
        odd = lambda u: K * u * np.cos(u * half) + LOSS * np.sin(u * half)
        low = np.arange(modes) * np.pi / self.depth
        self.odd = np.arange(modes) % 2 == 1
        self.mu = np.array([brentq(odd if o else even, a * 0.999 + 1e-9, a + 0.9 * np.pi / self.depth) for a, o in zip(low, self.odd)])
        z = np.linspace(0, self.depth, 4001)
        self.norm = trapezoid(self.shape(z) ** 2, z, axis=0)

    def shape(self, z):
        u = self.mu * (np.asarray(z)[..., None] - self.depth / 2)
        return np.where(self.odd, np.sin(u), np.cos(u))

    @staticmethod
    def beam(t):
        second = t >= 15
        own = np.where(second, t - 15, t)
        phase = own % 0.4
        swing = np.where(phase < 0.2, 0.1 * phase - 0.01, 0.03 - 0.1 * phase)
        return np.where(second, 0.07, 0.05) + swing, np.where(second, 0.07 - 0.004 * own, 0.01 + 0.004 * own)

    @staticmethod
    def spread(x, source, size, variance):
        images = sum(np.exp(-((x - s * source - 2 * n * size) ** 2) / (2 * variance)) for n in range(-3, 4) for s in (1, -1))
        return images / np.sqrt(2 * np.pi * variance)

    def through(self, z, age):
        """Through the depth: images while the front hardly feels the losses (they take a 1e-4 part in 10 ms), then modes."""
        wide = 4 * DIFFUSIVITY * age
        images = 2 * sum(np.exp(-((z - 2 * n * self.depth) ** 2) / wide) for n in range(-3, 4)) / np.sqrt(np.pi * wide)
        modes = np.exp(-DIFFUSIVITY * np.outer(age, self.mu**2)) @ (self.shape(z) * self.shape(0.0) / self.norm)
        return np.where(age < 0.01, images, modes)

    def temperature(self, x, y, z, t):
        since = max(0.0, t - 30)
        edges = np.r_[since, np.arange(0, t, 0.01), np.geomspace(1e-9, 0.01, 60), t]
        edges = np.unique(edges[(edges >= since) & (edges <= t)])
        node, weight = np.polynomial.legendre.leggauss(8)
        gaps = np.diff(edges)[:, None]
        age, share = (edges[:-1, None] + gaps * (node + 1) / 2).ravel(), (gaps * weight / 2).ravel()
        bx, by = self.beam(t - age)
        variance = self.radius**2 / 4 + 2 * DIFFUSIVITY * age
        pieces = self.through(z, age) * self.spread(x, bx, self.width, variance) * self.spread(y, by, self.height, variance)
        return AMBIENT + self.power / RHO_C * np.sum(share * pieces)


def check_sheet(path):
    header, rows = table(path)
    probes = [[float(part[1:]) / 1e3 for part in name.split("_")] for name in header[1:]]
    off = np.abs(rows[:, 1:] - sheet(probes, rows[-1, 0]))
    print(f"{os.path.basename(path)}: off by at most {off.max():.3f} K, by probe {np.round(off.max(0), 3)}")


def check_plate(path):
    header, rows = table(path)
    plate = Plate()
    for column, name in enumerate(header[1:], 1):
        x, y, face = name.split("_")
        place = float(x[1:]) / 1e3, float(y[1:]) / 1e3, plate.depth if face == "back" else 0.0
        hot = rows[:, column].argmax()
        span = np.unique(np.clip(np.r_[hot - 10 : hot + 11, len(rows) - 1], 1, len(rows) - 1))
        off = [rows[i, column] - plate.temperature(*place, rows[i, 0]) for i in span]
        print(f"{os.path.basename(path)} {name}: hottest {rows[hot, column]:.1f} at {rows[hot, 0]:.2f} s, off by at most "
              f"{np.abs(off[:-1]).max():.2f} K about it, {off[-1]:+.3f} K at the end")


if __name__ == "__main__":
    check_sheet(sys.argv[1] if len(sys.argv) > 1 else os.path.join(HERE, "sheet_constant.csv"))
    check_plate(sys.argv[2] if len(sys.argv) > 2 else os.path.join(HERE, "plate_frames.csv"))
