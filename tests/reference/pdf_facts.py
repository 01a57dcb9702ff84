#!/usr/bin/python3
"""What stands in a pack's PDF, read by pikepdf (Debian python3-pikepdf) and pdftotext (poppler-utils): a line each, words parted by
tabs.

  version, title, subject, created, scaling, layer <name>, bookmark <depth> <page> <title>
  page <n> <label> <width mm> <height mm>
  window <n> <scale> <left pt> <bottom pt> <width pt> <height pt>
  grid <n> <scale> <lines with a figure> <worst mm> <crossings> <worst of the ground's unit>
  stretched <n> <factor>
  link <from page> <to page>

"grid" speaks of a viewport with figures at its grid lines. Worst mm: over all pairs of lines one way, the distance on paper
against the difference of their figures over the viewport's scale. Worst of the ground: between ten crossings of such lines, the
distance on paper times the viewport's own factor (ISO 32000-1, 12.9) against that of the figures. Stretched: the level lines stand farther apart than
their figures say, as elevations do on an inclined plane; the rest is measured as if their figures were that much larger."""
import itertools
import math
import re
import subprocess
import sys

import pikepdf

MM = 25.4 / 72.0


def number(value):
    return float(value)


def lines_of_layer(page, wanted):
    """Straight strokes parallel to the edges, as (x0, y0, x1, y1) in points, that stand in the layer of this name."""
    names = {key: str(group.get("/Name")) for key, group in page.Resources.Properties.items()}
    depth, inside, at, found = [], 0, None, []
    for operands, operator in pikepdf.parse_content_stream(page):
        op = str(operator)
        if op in ("BDC", "BMC"):
            depth.append(op == "BDC" and str(operands[0]) == "/OC" and names.get(str(operands[1])) == wanted)
            inside += depth[-1]
        elif op == "EMC":
            inside -= depth.pop()
        elif op == "cm":
            raise SystemExit("a page that turns its axes cannot be measured")
        elif op == "m":
            at = [number(v) for v in operands]
        elif op == "l":
            to = [number(v) for v in operands]
            if inside and (abs(at[0] - to[0]) < 1e-6 or abs(at[1] - to[1]) < 1e-6):
                found.append((*at, *to))
            at = to
    return found


def words_of_page(file, n, height):
    """(left, bottom, right, top, word) in points, y up."""
    command = ["pdftotext", "-bbox", "-f", str(n), "-l", str(n), file, "-"]
    text = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    found = re.findall(r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</word>', text)
    return [(float(a), height - float(d), float(c), height - float(b), w) for a, b, c, d, w in found]


FIGURE = re.compile(r"[+-]?[\d.]+$")


def grid_lines(strokes, across, along):
    """Where lines (position, from, to) run through a window. They are broken at words: the pieces of one count together."""
    total = {}
    for at, start, end in strokes:
        inside = min(max(start, end), along[1] + 0.05) - max(min(start, end), along[0] - 0.05)
        if across[0] - 0.05 <= at <= across[1] + 0.05 and inside > 0:
            total[at] = total.get(at, 0.0) + inside
    return {at for at, length in total.items() if length > 0.2 * (along[1] - along[0])}


def figures_in(words, box, upright):
    """Figures (middle, value) of a strip: words that follow each other with less than a blank's width between are one figure."""
    left, bottom, right, top = box
    words = [w for w in words if left <= (w[0] + w[2]) / 2 <= right and bottom <= (w[1] + w[3]) / 2 <= top]
    low, high = (1, 3) if upright else (0, 2)
    words.sort(key=lambda w: w[low])
    groups = []
    for word in words:
        if groups and word[low] - groups[-1][-1][high] < 3.0:
            groups[-1].append(word)
        else:
            groups.append([word])
    for group in groups:
        text = "".join(w[4] for w in group)
        if FIGURE.match(text):
            yield (group[0][low] + group[-1][high]) / 2, float(text)


def labelled(positions, figures, reach):
    """(position, value) of each line with a figure whose middle is within reach of it."""
    found = {}
    for middle, value in figures:
        near = [p for p in positions if abs(p - middle) < reach]
        if len(near) == 1:
            found[near[0]] = value
    return sorted(found.items())


def measure_grid(file, n, page, viewport, strokes, words):
    left, bottom, right, top = (number(v) for v in viewport.BBox)
    measure = viewport.Measure
    scale = float(str(measure.R).split(":")[1])
    per_point = number(measure.X[0].C)
    metres = {"m": 1.0, "ft": 0.3048, "us-ft": 1200.0 / 3937.0}[str(measure.D[0].U)]
    print("window", n, f"{scale:g}", *(f"{v:.3f}" for v in (left, bottom, right - left, top - bottom)), sep="\t")
    upright = grid_lines([(s[0], s[1], s[3]) for s in strokes if abs(s[0] - s[2]) < 1e-6], (left, right), (bottom, top))
    level = grid_lines([(s[1], s[0], s[2]) for s in strokes if abs(s[1] - s[3]) < 1e-6], (bottom, top), (left, right))
    across = labelled(upright, figures_in(words, (left - 20, bottom - 18, right + 20, bottom), False), 1.0)
    # Figures beside the window: level ones stand on their line's middle, upright ones along the edge.
    beside = (left - 26, bottom - 10, left, top + 10)
    up = labelled(level, [((w[1] + w[3]) / 2, float(w[4])) for w in words if FIGURE.match(w[4]) and len(w[4]) > 1
                          and beside[0] <= w[0] and w[2] <= beside[2] and beside[1] <= w[1] and w[3] <= beside[3]
                          and w[2] - w[0] > w[3] - w[1]], 2.5)
    if not up:
        up = labelled(level, figures_in(words, beside, True), 1.0)
    if len(across) + len(up) < 2:
        return
    stretch = 1.0
    if len(up) > 1:
        stretch = (up[-1][0] - up[0][0]) * per_point / (up[-1][1] - up[0][1])
        if abs(stretch - 1.0) > 0.002:
            print("stretched", n, f"{stretch:.5f}", sep="\t")
            up = [(at, value * stretch) for at, value in up]
    worst = max((abs(abs(a[0] - b[0]) * MM - abs(a[1] - b[1]) * metres * 1000.0 / scale)
                 for one_way in (across, up) for a, b in itertools.combinations(one_way, 2)), default=0.0)
    crossings = [(x, y) for x in across for y in up]
    crossings = crossings[:: max(1, len(crossings) // 10)][:10]
    apart = [abs(math.hypot(a[0][0] - b[0][0], a[1][0] - b[1][0]) * per_point - math.hypot(a[0][1] - b[0][1], a[1][1] - b[1][1]))
             for a, b in itertools.combinations(crossings, 2)]
    figures = (f"{worst:.5f}", len(crossings), f"{max(apart, default=0.0):.5f}")
    print("grid", n, f"{scale:g}", len(across) + len(up), *figures, sep="\t")


def labels_of_pages(pdf):
    nums = list(pdf.Root.PageLabels.Nums)
    return {int(nums[i]): str(nums[i + 1].get("/P", "")) for i in range(0, len(nums), 2)}


def main(file):
    pdf = pikepdf.open(file)
    number_of = {page.obj.objgen: n for n, page in enumerate(pdf.pages, 1)}
    print("version", pdf.pdf_version, sep="\t")
    for key, name in (("title", "/Title"), ("subject", "/Subject"), ("created", "/CreationDate")):
        print(key, str(pdf.docinfo.get(name, "")), sep="\t")
    print("scaling", str(pdf.Root.ViewerPreferences.PrintScaling)[1:], sep="\t")
    for group in pdf.Root.OCProperties.OCGs:
        print("layer", str(group.Name), sep="\t")

    def bookmarks(items, depth):
        for item in items:
            page = number_of[item.destination[0].objgen] if item.destination is not None else 0
            print("bookmark", depth, page, item.title, sep="\t")
            bookmarks(item.children, depth + 1)

    with pdf.open_outline() as outline:
        bookmarks(outline.root, 0)
    labels = labels_of_pages(pdf)
    for n, page in enumerate(pdf.pages, 1):
        box = [number(v) for v in page.MediaBox]
        print("page", n, labels.get(n - 1, ""), f"{(box[2] - box[0]) * MM:.4f}", f"{(box[3] - box[1]) * MM:.4f}", sep="\t")
        for link in page.get("/Annots", []):
            print("link", n, number_of[link.Dest[0].objgen], sep="\t")
        viewports = list(page.get("/VP", []))
        if viewports:
            strokes, words = lines_of_layer(page, "grid"), words_of_page(file, n, box[3])
            for viewport in viewports:
                measure_grid(file, n, page, viewport, strokes, words)


main(sys.argv[1])
