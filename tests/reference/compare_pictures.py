#!/usr/bin/python3
"""Renders sheets small and grey (pdftoppm of poppler-utils) and holds them against the pictures kept beside this file.

  compare_pictures.py SHEETS [--keep]

SHEETS is the folder sheets/ of the example's pack; pictures/kinds.txt says which. Prints, a line a sheet, its name, the mean
difference and the largest mean difference of a field of 10 x 10 mm, of 255 levels; or what is missing. --keep writes the
pictures anew: only where a change is meant, and after looking at it. Needs Debian's python3-pil and python3-numpy."""
import io
import os
import re
import subprocess
import sys

import numpy
from PIL import Image

RESOLUTION = 22  # dots an inch
FIELD = 9  # dots: about 10 mm
PICTURES = os.path.join(os.path.dirname(os.path.abspath(__file__)), "pictures")


def wanted():
    with open(os.path.join(PICTURES, "kinds.txt"), encoding="utf-8") as file:
        return [line.strip() for line in file if line.strip() and not line.startswith("#")]


def rendered(file):
    out = subprocess.run(["pdftoppm", "-gray", "-r", str(RESOLUTION), "-singlefile", file], capture_output=True, check=True).stdout
    return Image.open(io.BytesIO(out)).convert("L")


def differences(a, b):
    off = numpy.abs(numpy.asarray(a, dtype=float) - numpy.asarray(b, dtype=float))
    high, wide = (side - side % FIELD for side in off.shape)
    # Fields over the whole, and the same shifted by half a field, so that nothing hides on an edge.
    worst = 0.0
    for shift in (0, FIELD // 2):
        part = off[shift : shift + high - FIELD, shift : shift + wide - FIELD]
        fields = part.reshape(part.shape[0] // FIELD, FIELD, part.shape[1] // FIELD, FIELD).mean(axis=(1, 3))
        worst = max(worst, float(fields.max()))
    return float(off.mean()), worst


def main(sheets, keep):
    names = sorted(name for name in os.listdir(sheets) if name.endswith(".pdf"))
    files = {re.sub(r"^\d+-", "", name[:-4]): os.path.join(sheets, name) for name in names}
    for name in wanted():
        picture = os.path.join(PICTURES, name + ".png")
        if name not in files:
            print(name, "is no sheet of the pack")
        elif keep:
            rendered(files[name]).save(picture, optimize=True)
        elif not os.path.exists(picture):
            print(name, "has no picture kept: look at the sheet, then keep it with --keep")
        else:
            now, kept = rendered(files[name]), Image.open(picture).convert("L")
            print(name, *((f"{value:.3f}" for value in differences(now, kept)) if now.size == kept.size else ("has another size",)))


main(sys.argv[1], "--keep" in sys.argv[2:])
