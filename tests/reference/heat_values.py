#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Values for tests/core/heat, all by sums without the shortcuts of the program: tours over a plate with insulated edges in cosine
modes, and a raster's whole heat in a wide plate with every age."""
import numpy as np

K, RHO_C, L, FILM = 52.0, 3.5e6, 1.2e-3, 12.0
ALPHA = K / RHO_C
LOSS = 2 * FILM / (RHO_C * L)
MIXING = 0.7 * L * L / ALPHA


def modes(place, centre, width, part, age):
    """Share per metre of a strip [centre +- width/2] that arrives at `place` in [0, part] with insulated ends, by cosine modes."""
    n = np.arange(1, int(2 + 6 * part / (np.pi * np.sqrt(2 * ALPHA * age))) + 1)
    b = n * np.pi / part
    shape = np.cos(b * place) * np.cos(b * centre) * np.sin(b * width / 2) / (b * width / 2)
    return (1 + 2 * np.sum(shape * np.exp(-b * b * ALPHA * age))) / part


def tour_rise(time, across, along, swaths, step, stroke, v, passes, pause, frame):
    """K per absorbed watt in the middle of the last swath from energy older than the mixing age: a rectangle `frame` moving along
    every stroke, all strokes in one direction, the swaths in the middle of the part."""
    first = (across - swaths * step) / 2
    place = (first + (swaths - 0.5) * step, along / 2)
    per_stroke, total = stroke / v, 0.0
    for p in range(passes):
        for s in range(swaths):
            start = p * (swaths * per_stroke + pause) + s * per_stroke
            end = min(start + per_stroke, time - MIXING)
            if end <= start:
                continue
            # finer towards the present: ages even in their logarithm, at most 40 ms apart
            cuts = [time - end]
            while cuts[-1] < time - start:
                cuts.append(min(cuts[-1] + min(0.04, 0.03 * cuts[-1]), time - start))
            for young, old in zip(cuts[:-1], cuts[1:]):
                age = 0.5 * (young + old)
                y = (along - stroke) / 2 + v * (time - age - start)
                total += (old - young) * np.exp(-LOSS * age) * modes(place[0], first + (s + 0.5) * step, frame[0], across, age) \
                    * modes(place[1], y, frame[1], along, age)
    return total / (RHO_C * L)


def raster_rise(time, width, height, spacing, speed, v, stroke, w, youngest, depth):
    """K per absorbed watt at (0, 0) of an endless plate, heat of a continuous beam on serpentine lines without turn time, moved along y
    from -stroke/2; every age in pieces of a twelfth of a spot radius."""
    lines = int(height / spacing + 1e-9) + 1
    frame = lines * width / speed
    dt = w / 12 / speed
    age = youngest + (np.arange(int((time + stroke / 2 / v - youngest) / dt)) + 0.5) * dt
    then = time - age
    inside = np.mod(then, frame)
    line = np.minimum((inside * speed / width).astype(int), lines - 1)
    along_line = inside * speed - line * width - width / 2
    x = np.where(line % 2 == 0, along_line, -along_line)
    y = (line - (lines - 1) / 2) * spacing + v * then
    s2 = w * w / 4 + 2 * ALPHA * age
    weight = 2 * (np.sqrt(age + dt / 2) - np.sqrt(age - dt / 2))
    sides = sum(np.exp(-(depth - 2 * m * L) ** 2 / (4 * ALPHA * age)) for m in range(-25, 26))
    total = weight * 2 / (RHO_C * np.sqrt(4 * np.pi * ALPHA)) * sides / (2 * np.pi * s2) * np.exp(-(x * x + y * y) / (2 * s2) - LOSS * age)
    return total.sum()


if __name__ == "__main__":
    tours = {"whole part": dict(across=0.09, along=0.4, swaths=3, step=0.03, stroke=0.4, v=0.02, passes=4, pause=5.0, frame=(0.03, 0.01)),
             "patch of a wide part": dict(across=0.4, along=0.4, swaths=3, step=0.03, stroke=0.12, v=0.02, passes=4, pause=5.0, frame=(0.03, 0.01)),
             "one swath": dict(across=0.3, along=0.6, swaths=1, step=0.03, stroke=0.6, v=0.02, passes=1, pause=0.0, frame=(0.03, 0.01))}
    for name, tour in tours.items():
        stroke_s = tour["stroke"] / tour["v"]
        pass_s = tour["swaths"] * stroke_s + tour["pause"]
        print(name, "(time s, K/W)")
        for p in range(tour["passes"]):
            crossing = p * pass_s + (tour["swaths"] - 0.5) * stroke_s
            for late in (-0.3, 0.0, 0.3, 1.0, 0.9 * stroke_s / 2):
                print(f"{{{crossing + late:.4g}, {tour_rise(crossing + late, **tour):.5g}}},", end=" ")
            print()
        end = tour["passes"] * pass_s
        for late in (20, 100, 600):
            print(f"{{{end + late:.4g}, {tour_rise(end + late, **tour):.5g}}},", end=" ")
        print()
    print("raster, every age: time s, front K/W, back K/W")
    for time in (0, .002, .02, .05, .0745, .076, .0774, .079, .085, .1, .13, .15, .2, .2324, .3, .5):
        case = dict(width=0.02, height=0.006, spacing=0.2e-3, speed=4.0, v=0.02, stroke=0.2, w=0.3e-3, youngest=0)
        print(f"{{{time}, {raster_rise(time, depth=0, **case):.5g}, {raster_rise(time, depth=L, **case):.5g}}},")
