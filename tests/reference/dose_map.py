#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Reference of tests/core/dose/reference_map_test.cpp: writes dose_map.csv beside itself.

The dose of two frames of a small raster by a moving hand, made another way than the program makes it: the pulses by the rules of the
project file's format, worked out from time alone; each pulse's energy shared among the four nodes of a fine grid around it; the grid then
convolved with the Gaussian spot by fast Fourier transforms (scipy.signal.fftconvolve). Sharing among nodes h apart widens the spot's
variance by x (h - x) per axis, x the distance to a node, h^2/6 on the average; the kernel is narrowed by that average. With h = w/60 what
is left is below 3e-4 of the mean dose. Written: points of a coarser map, their middles on the nodes. Run with python3, numpy, scipy.
"""
from pathlib import Path

import numpy as np
import scipy
from scipy.signal import fftconvolve

# Settings, metres and seconds. Travel angle measured from +x; across = x sin - y cos, along = x cos + y sin + travel t.
WIDTH, SPACING, LINES, SCAN, TURN = 1.5e-3, 0.11e-3, 7, 5.0, 120e-6
TRAVEL, ANGLE = 0.15, np.radians(70)
RATE, POWER, RADIUS, FRAMES = 123.4e3, 200.0, 60e-6, 2
CELL, COLUMNS, ROWS, ORIGIN = 20e-6, 110, 90, (-1.1e-3, -0.5e-3)  # of the map looked at; it cuts the pattern off on two sides
FINE = 20  # nodes of the fine grid to a cell


def head(t):
    """Head position at time t of a frame: serpentine lines, each followed by a turn at constant acceleration that burns on."""
    line_time = WIDTH / SCAN
    line = np.floor(t / (line_time + TURN))
    u = t - line * (line_time + TURN)
    forth = np.where(line % 2 == 0, 1.0, -1.0)
    turn = np.clip(u - line_time, 0, None)
    along = np.where(u < line_time, -WIDTH / 2 + SCAN * u, WIDTH / 2 + SCAN * (turn - turn**2 / TURN))
    return forth * along, -(LINES - 1) * SPACING / 2 + (line + turn / TURN) * SPACING


def pulses():
    period = LINES * (WIDTH / SCAN + TURN)
    k = np.arange(int(np.ceil(period * RATE - 1e-9)))
    x, y = head(k / RATE)
    for n in range(FRAMES):
        along = x * np.cos(ANGLE) + y * np.sin(ANGLE) + TRAVEL * (k / RATE + n * period)
        yield x * np.sin(ANGLE) - y * np.cos(ANGLE), along


def deposit(margin):
    """Energy shared among the nodes, `margin` nodes more on every side; node (0, 0) of the map is the middle of its first cell."""
    h = CELL / FINE
    grid = np.zeros((ROWS * FINE + 2 * margin, COLUMNS * FINE + 2 * margin))
    for across, along in pulses():
        i = (across - ORIGIN[0] - CELL / 2) / h + margin
        j = (along - ORIGIN[1] - CELL / 2) / h + margin
        for dj in (0, 1):
            for di in (0, 1):
                column, row = np.floor(i).astype(int) + di, np.floor(j).astype(int) + dj
                share = (1 - np.abs(i - column)) * (1 - np.abs(j - row)) * POWER / RATE
                on = (column >= 0) & (row >= 0) & (column < grid.shape[1]) & (row < grid.shape[0])
                np.add.at(grid, (row[on], column[on]), share[on])
    return grid


def dose_map():
    h = CELL / FINE
    margin = int(np.ceil(4 * RADIUS / h))
    variance = RADIUS**2 / 4 - h**2 / 6
    offset = np.arange(-margin, margin + 1) * h
    profile = np.exp(-(offset**2) / (2 * variance)) / np.sqrt(2 * np.pi * variance)
    dose = fftconvolve(deposit(margin), np.outer(profile, profile), mode="valid")
    return dose[::FINE, ::FINE][:ROWS, :COLUMNS]


if __name__ == "__main__":
    dose = dose_map()
    mean = dose.mean()
    picked = np.random.default_rng(4).permutation(ROWS * COLUMNS)[:400]
    with open(Path(__file__).with_suffix(".csv"), "w", encoding="utf-8") as out:
        out.write(f"# dose_map.py, numpy {np.__version__}, scipy {scipy.__version__}; settings stand in the script and in the test\n")
        out.write(f"# mean of the whole map, J/m2: {mean:.8g}\n")
        out.write("column,row,dose_J_m2\n")
        for n in sorted(picked):
            out.write(f"{n % COLUMNS},{n // COLUMNS},{dose[n // COLUMNS, n % COLUMNS]:.8g}\n")
