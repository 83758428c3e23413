#!/usr/bin/python3
"""Judge of the saw templates: read and painted by poppler. Usage: pdf.py FOLDER [EVERY]

EVERY n judges every n-th file (default 1).

Ruler and square are found on the painted sheet, at 600 dots per inch, and
measured. Where the part fits on one sheet its lines are taken from poppler's own
translation to SVG and measured too: the template itself, not only its ruler.
"""
import math
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET

import numpy as np
from PIL import Image

import files

DPI = 600
MM = DPI / 25.4              # pixels a millimetre
PT = 72 / 25.4               # points a millimetre
PAPERS = {"A4": (210, 297), "letter": (215.9, 279.4)}
SQUARE = (10, 10, 20)        # x, y, side, mm from the lower left corner
RULER = (40, 18, 50)         # x, y, length
EDGE, OUTLINE = 0.15, 0.20   # widths of lines, mm
SVG = "{http://www.w3.org/2000/svg}"


def poppler(*args):
    done = subprocess.run(args, capture_output=True, text=True, errors="replace")
    return done.stdout, done.stderr.strip() + ("" if done.returncode == 0 else f" exit {done.returncode}")


def groups(dark, positions):
    """The middles of the runs of dark places."""
    runs, start = [], None
    for i, d in zip(positions, dark):
        if d and start is None:
            start = i
        if not d and start is not None:
            runs.append((start + last) / 2)
            start = None
        last = i
    return runs


def foot(path, page, height, scratch):
    """The lower left corner of a page, 105 x 40 mm, dark where there is ink; row 0
    at the bottom."""
    w, h = round(105 * MM), round(40 * MM)
    top = round(height * MM) - h
    out = os.path.join(scratch, "foot")
    _, wrong = poppler("pdftoppm", "-r", str(DPI), "-gray", "-f", str(page), "-l", str(page), "-singlefile",
                       "-x", "0", "-y", str(top), "-W", str(w), "-H", str(h), path, out)
    with Image.open(out + ".pgm") as im:
        return np.asarray(im)[::-1] < 128, wrong


def measure(v, name, page, ink):
    def across(y, x0, x1):
        row = ink[round(y * MM), round(x0 * MM):round(x1 * MM)]
        return [x / MM + x0 for x in groups(list(row) + [False], range(len(row) + 1))]

    def upright(x, y0, y1):
        col = ink[round(y0 * MM):round(y1 * MM), round(x * MM)]
        return [y / MM + y0 for y in groups(list(col) + [False], range(len(col) + 1))]

    x, y, n = RULER
    ticks = across(y + 1, x - 3, x + n + 3)
    if v.check(len(ticks) == n + 1, name, f"page {page}: the ruler has {len(ticks)} marks"):
        v.worst("ruler (mm)", abs(ticks[-1] - ticks[0] - n))
        v.check(abs(ticks[-1] - ticks[0] - n) <= 0.1, name, f"page {page}: the ruler is {ticks[-1] - ticks[0]:.3f} mm long")
        worst = max(abs(t - ticks[0] - i) for i, t in enumerate(ticks))
        v.check(worst <= 0.1, name, f"page {page}: a mark of the ruler is {worst:.3f} mm off")
    x, y, n = SQUARE
    for what, lines in (("wide", across(y + 4, x - 3, x + n + 3)), ("high", upright(x + 1.5, y - 3, y + n + 3))):
        if v.check(len(lines) == 2, name, f"page {page}: the square has {len(lines)} lines"):
            v.worst("square (mm)", abs(lines[1] - lines[0] - n))
            v.check(abs(lines[1] - lines[0] - n) <= 0.1, name, f"page {page}: the square is {lines[1] - lines[0]:.3f} mm {what}")


def stroked(path, page, scratch):
    """The closed lines of a page by their width, mm: points of each, mm, cubics
    taken at 32 places each. (Without the two options poppler shrinks the page by
    a thousandth, to whole points.)"""
    out = os.path.join(scratch, "page.svg")
    _, wrong = poppler("pdftocairo", "-svg", "-noshrink", "-nocenter", "-f", str(page), "-l", str(page), path, out)
    found = []
    for p in ET.parse(out).getroot().iter(SVG + "path"):
        width = p.get("stroke-width")
        style = dict(s.split(":", 1) for s in p.get("style", "").split(";") if ":" in s)
        width = float(width or style.get("stroke-width", 0))
        if not width or (p.get("stroke") or style.get("stroke", "none")) == "none" or "Z" not in p.get("d", ""):
            continue
        m = [1.0, 0, 0, 1.0, 0, 0]
        t = re.match(r"matrix\((.*)\)", p.get("transform", ""))
        if t:
            m = [float(n) for n in re.split(r"[ ,]+", t.group(1))]
        scale = math.sqrt(abs(m[0] * m[3] - m[1] * m[2]))
        pts = [((m[0] * x + m[2] * y + m[4]) / PT, (m[1] * x + m[3] * y + m[5]) / PT) for x, y in flatten(p.get("d"))]
        found.append((width * scale / PT, pts))
    return found, wrong


def flatten(d):
    pts, at = [], None
    for cmd, args in re.findall(r"([MLCZ])([^MLCZ]*)", d):
        n = [float(a) for a in args.split()]
        if cmd in "ML":
            at = (n[0], n[1])
            pts.append(at)
        elif cmd == "C":
            p0, p1, p2, p3 = at, (n[0], n[1]), (n[2], n[3]), (n[4], n[5])
            for i in range(1, 33):
                t = i / 32
                u = 1 - t
                k = (u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t)
                pts.append(tuple(sum(c * p[a] for c, p in zip(k, (p0, p1, p2, p3))) for a in (0, 1)))
            at = p3
    return pts


def area(pts):
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(pts, pts[1:] + pts[:1]))) / 2


def same_area(v, name, what, got, want, length):
    """Poppler's drawing library (cairo) keeps places in 1/256 point, so a line may
    lie half of that aside everywhere."""
    allowed = length / PT / 256 / 2
    v.worst(f"area of {what} on paper, by share", abs(got - want) / want)
    v.check(abs(got - want) <= allowed, name, f"area of {what} on paper {got:.4f} mm2, the report says {want:.4f}, allowed {allowed:.4f}")


def the_part(v, folder, name, path, report, scratch):
    lines, wrong = stroked(path, 1, scratch)
    v.check(not wrong, name, f"pdftocairo: {wrong}")
    outline = [p for w, p in lines if abs(w - OUTLINE) < 0.01]
    # The square has the width of the openings' lines, and stands in the corner.
    openings = [p for w, p in lines if abs(w - EDGE) < 0.01 and not all(x < 31 for x, _ in p)]
    openings += [p for w, p in lines if abs(w - EDGE) < 0.01 and all(x < 31 for x, _ in p) and abs(area(p) - 400) > 0.5]
    if v.check(len(outline) == 1, name, f"{len(outline)} outlines on the sheet"):
        # Width by the cut file: the report's is the widest the band would be with
        # square corners.
        dxf = files.flatten(files.read_dxf(os.path.join(folder, name + ".dxf"))[2][0], 1e-4)
        for what, axis in (("length", 0), ("width", 1)):
            got, want = (max(p[axis] for p in pts) - min(p[axis] for p in pts) for pts in (outline[0], dxf))
            v.worst("blank on paper (mm)", abs(got - want))
            v.check(abs(got - want) <= 0.01, name, f"the blank on paper is {got:.3f} mm in {what}, in the cut file {want:.3f}")
        same_area(v, name, "blank", area(outline[0]), report["blank_area_mm2"], report["outline_length_mm"])
    if v.check(len(openings) == report["openings"], name, f"{len(openings)} openings on the sheet") and openings:
        same_area(v, name, "openings", sum(map(area, openings)), report["removed_area_mm2"], report["openings_length_mm"])


def judge(v, folder, name, scratch):
    report = files.load(folder, name, "report")
    path = os.path.join(folder, name + "-template.pdf")
    with open(path, "rb") as f:
        data = f.read()
    # The catalogue that the trailer names, by hand (ISO 32000-1, 7.5.5 and 12.2).
    trailer = data[data.rindex(b"trailer"):]
    root = int(re.search(rb"/Root (\d+) 0 R", trailer).group(1))
    catalogue = re.search(rb"(?:^|\n)%d 0 obj\n(.*?)\nendobj" % root, data, re.S).group(1)
    v.check(re.search(rb"/ViewerPreferences\s*<<[^>]*/PrintScaling\s*/None", catalogue), name, "PrintScaling is not None")
    v.check(b"/CreationDate" not in data, name, "the file carries a date")

    info, wrong = poppler("pdfinfo", "-f", "1", "-l", "999", path)
    v.check(not wrong, name, f"pdfinfo: {wrong}")
    pages = int(re.search(r"Pages:\s+(\d+)", info).group(1))
    sizes = [(float(a) / PT, float(b) / PT) for a, b in re.findall(r"size:\s+([\d.]+) x ([\d.]+) pts", info)]
    v.check(len(sizes) == pages and len(set(sizes)) == 1, name, f"{pages} pages of sizes {set(sizes)}")
    w, h = sizes[0]
    v.check(any(abs(min(w, h) - a) < 0.01 and abs(max(w, h) - b) < 0.01 for a, b in PAPERS.values()), name, f"paper {w:.2f} x {h:.2f} mm")

    text, wrong = poppler("pdftotext", "-layout", path, "-")
    v.check(not wrong, name, f"pdftotext: {wrong}")
    v.check(text.count("Print at 100 % (actual size)") == pages, name, "not every page says 100 %")
    flat = " ".join(text.split())
    for word in ("Kerf:", "Units: millimetres", "waste side", "cadmium", "estimates", "Saw and drill"):
        v.check(word in flat, name, f"the notes say nothing of {word!r}")

    v.check(("engraved, not sawn" in flat) == (report["marks"] > 0), name, "the key does not say what is engraved, or says it without a mark")

    for page in range(1, min(pages, 6) + 1):
        ink, wrong = foot(path, page, h, scratch)
        v.check(not wrong, name, f"pdftoppm: {wrong}")
        measure(v, name, page, ink)
    if "joins" not in text:
        the_part(v, folder, name, path, report, scratch)
    return pages


def main():
    folder = sys.argv[1]
    every = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    _, version = poppler("pdfinfo", "-v")
    v = files.Verdict("pdf (poppler " + version.split()[2] + ")")
    chosen = files.names(folder)[::every]
    pages = 0
    with tempfile.TemporaryDirectory() as scratch:
        for name in chosen:
            pages += judge(v, folder, name, scratch)
    v.end(len(chosen), f"{pages} pages at {DPI} dots per inch.")


main()
