#!/usr/bin/python3
"""Draws the marks of a sheet, given as JSON, with matplotlib (Debian python3-matplotlib) to a PDF: the same lines, areas and words
in the same places and sizes. Prints the seconds that the best of three took, libraries loaded and marks read before.

  draw_with_matplotlib.py MARKS.json OUT.pdf"""
import json
import sys
import time

import matplotlib

matplotlib.use("pdf")
import matplotlib.pyplot as plt
from matplotlib.patches import PathPatch
from matplotlib.path import Path

POINTS_PER_MM = 72.0 / 25.4


def path_of(shape):
    points, codes = [], []
    for ring in shape["rings"]:
        if len(ring) < 2:
            continue
        points += ring
        codes += [Path.MOVETO] + [Path.LINETO] * (len(ring) - 1)
        if shape["closed"]:
            points.append(ring[0])
            codes.append(Path.CLOSEPOLY)
    return Path(points, codes) if points else None


def draw(sheet, out):
    figure = plt.figure(figsize=(sheet["width"] / 25.4, sheet["height"] / 25.4))
    axes = figure.add_axes([0, 0, 1, 1])
    axes.set_xlim(0, sheet["width"])
    axes.set_ylim(0, sheet["height"])
    axes.axis("off")
    for order, mark in enumerate(sheet["marks"]):
        if "text" in mark:
            axes.text(mark["x"], mark["y"], mark["text"], fontsize=mark["size"], color=mark["colour"], ha=mark["anchor"],
                      va="baseline", rotation=90 if mark["upright"] else 0, zorder=order, parse_math=False)
            continue
        path = path_of(mark)
        if path is None:
            continue
        line = mark.get("line")
        axes.add_patch(PathPatch(path, facecolor=mark.get("fill", "none"), edgecolor=line["colour"] if line else "none",
                                 linewidth=line["width"] * POINTS_PER_MM if line else 0, zorder=order))
    figure.savefig(out)
    plt.close(figure)


sheet = json.load(open(sys.argv[1]))
best = 1e9
for _ in range(3):
    start = time.perf_counter()
    draw(sheet, sys.argv[2])
    best = min(best, time.perf_counter() - start)
print(best)
