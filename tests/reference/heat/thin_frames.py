#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Thins plate_frames.edp's table: every 0.1 s while the beam is on, and 0.4 s (one frame) in full about each probe's hottest moment.

    thin_frames.py FULL.csv plate_frames.csv
"""
import csv
import sys

with open(sys.argv[1]) as stream:
    header, *rows = csv.reader(stream)
times = [float(row[0]) for row in rows]
kept = [abs(t * 10 - round(t * 10)) < 1e-6 for t in times]
for column in range(1, len(header)):
    hottest = times[max(range(len(rows)), key=lambda i: float(rows[i][column]))]
    kept = [k or abs(t - hottest) < 0.2 + 1e-6 for k, t in zip(kept, times)]
with open(sys.argv[2], "w", newline="") as stream:
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(header)
    writer.writerows(row for row, k in zip(rows, kept) if k)
