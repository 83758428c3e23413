#!/usr/bin/python3
"""Judge of the saw templates: read and painted by poppler, and traced by mupdf.
Usage: pdf.py FOLDER [EVERY]

EVERY n judges every n-th file (default 1).

Rulers and square are found on the painted sheet, at 600 dots per inch, and
measured. Where the part fits on one sheet its lines are taken from poppler's own
translation to SVG and measured too: the template itself, not only its ruler. The
same is done once more from mupdf's list of what it draws, also where the part
lies on several sheets: there the marks by which they are joined must lie at one
place of the part on both. Both have to find the same text, set in fonts that the
file carries. A folder written with fretcut make -copies N may be judged as well.
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
PAPERS = {"A4": (210, 297), "letter": (215.9, 279.4), "A3": (297, 420), "legal": (215.9, 355.6), "tabloid": (279.4, 431.8)}
SQUARE = (24, 10, 20)        # x, y, side, mm from the lower left corner
RULER = (49, 18, 50)         # x, y, length
UPRIGHT = (18, 10, 50)       # the same, of the upright one: its marks on its left
EDGE, OUTLINE, FINE = 0.15, 0.20, 0.10  # widths of lines, mm
RING = 1.8                   # radius of a joining mark
ARCS = 2e-4                  # mean distance, mm, of the file's cubics, and of chords to them here, from true arcs
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
    """The lower left corner of a page, 105 x 65 mm, dark where there is ink; row 0
    at the bottom."""
    w, h = round(105 * MM), round(65 * MM)
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

    for what, (x, y, n), ticks in (
        ("ruler", RULER, across(RULER[1] + 1, RULER[0] - 3, RULER[0] + RULER[2] + 3)),
        ("upright ruler", UPRIGHT, upright(UPRIGHT[0] - 1, UPRIGHT[1] - 3, UPRIGHT[1] + UPRIGHT[2] + 3)),
    ):
        if v.check(len(ticks) == n + 1, name, f"page {page}: the {what} has {len(ticks)} marks"):
            v.worst(what + " (mm)", abs(ticks[-1] - ticks[0] - n))
            v.check(abs(ticks[-1] - ticks[0] - n) <= 0.1, name, f"page {page}: the {what} is {ticks[-1] - ticks[0]:.3f} mm long")
            worst = max(abs(t - ticks[0] - i) for i, t in enumerate(ticks))
            v.check(worst <= 0.1, name, f"page {page}: a mark of the {what} is {worst:.3f} mm off")
    x, y, n = SQUARE
    for what, lines in (("wide", across(y + 4, x - 3, x + n + 3)), ("high", upright(x + 1.5, y - 3, y + n + 3))):
        if v.check(len(lines) == 2, name, f"page {page}: the square has {len(lines)} lines"):
            v.worst("square (mm)", abs(lines[1] - lines[0] - n))
            v.check(abs(lines[1] - lines[0] - n) <= 0.1, name, f"page {page}: the square is {lines[1] - lines[0]:.3f} mm {what}")


def stroked(path, page, scratch):
    """The closed lines of a page with their width, mm: points of each, mm.
    (Without the two options poppler shrinks the page by a thousandth, to whole
    points.)"""
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
        for sub in re.findall(r"M[^M]*Z", p.get("d")):
            pts = [((m[0] * x + m[2] * y + m[4]) / PT, (m[1] * x + m[3] * y + m[5]) / PT) for x, y in flatten(sub, PT / scale)]
            found.append((width * scale / PT, pts))
    return found, wrong


def cubic(p0, p1, p2, p3, unit):
    """Places on a cubic, as many as keep their chords within 2e-5 mm of an arc of an
    eighth of a turn: by its length L, L * pi/4 / 8 n^2 off. unit is how many of the
    places' units are a millimetre."""
    n = max(16, math.ceil(70 * math.sqrt(math.dist(p0, p3) / unit)))
    for i in range(1, n + 1):
        t = i / n
        u = 1 - t
        k = (u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t)
        yield tuple(sum(c * p[a] for c, p in zip(k, (p0, p1, p2, p3))) for a in (0, 1))


def flatten(d, unit):
    pts, at = [], None
    for cmd, args in re.findall(r"([MLCZ])([^MLCZ]*)", d):
        n = [float(a) for a in args.split()]
        if cmd in "ML":
            at = (n[0], n[1])
            pts.append(at)
        elif cmd == "C":
            pts.extend(cubic(at, (n[0], n[1]), (n[2], n[3]), (n[4], n[5]), unit))
            at = pts[-1]
    return pts


def traced(path):
    """What mupdf draws: for each page its height, mm, and its lines as (width, closed,
    points), mm from the lower left corner, and the shades that it uses."""
    out, _ = poppler("mutool", "draw", "-F", "trace", "-o", "-", path)
    pages = []
    for p in ET.fromstring(out).iter("page"):
        high = float(p.get("mediabox").split()[3])
        lines, shades = [], set()
        for s in p.iter():
            if s.get("color"):
                shades.add(s.get("color"))
            if s.tag != "stroke_path":
                continue
            m = [float(n) for n in s.get("transform").split()]
            to = lambda x, y: ((m[0] * x + m[2] * y + m[4]) / PT, (high - m[1] * x - m[3] * y - m[5]) / PT)
            scale = math.sqrt(abs(m[0] * m[3] - m[1] * m[2]))
            width = float(s.get("linewidth")) * scale / PT
            for e in s:
                g = {k: float(n) for k, n in e.attrib.items()}
                if e.tag == "moveto":
                    at, pts = (g["x"], g["y"]), [to(g["x"], g["y"])]
                    lines.append([width, False, pts])
                elif e.tag == "lineto":
                    at = (g["x"], g["y"])
                    pts.append(to(*at))
                elif e.tag == "curveto":
                    ends = (g["x1"], g["y1"]), (g["x2"], g["y2"]), (g["x3"], g["y3"])
                    pts.extend(to(*q) for q in cubic(at, *ends, PT / scale))
                    at = ends[2]
                elif e.tag == "closepath":
                    lines[-1][1] = True
        pages.append((lines, shades))
    return pages


def box(pts):
    return tuple(f(p[a] for p in pts) for f in (min, max) for a in (0, 1))


def is_square(pts):
    x, y, n = SQUARE
    return max(abs(a - b) for a, b in zip(box(pts), (x, y, x + n, y + n))) < 0.1


def by_mupdf(v, folder, name, path, report, copies):
    """Rulers, square and part as mupdf draws them, and how its sheets are joined."""
    pages = traced(path)
    outlines, openings, rings = [], [], []
    for number, (lines, shades) in enumerate(pages, 1):
        v.check(shades <= {"0", "1"}, name, f"page {number}: mupdf draws in the greys {sorted(shades)}")
        mine = [p for w, closed, p in lines if closed and abs(w - OUTLINE) < 0.01]
        if not mine:  # notes, or numbers on a larger drawing: nothing at true size
            continue
        square = [box(p) for w, closed, p in lines if closed and abs(w - EDGE) < 0.01 and is_square(p)]
        if v.check(len(square) == 1, name, f"page {number}: mupdf draws {len(square)} squares"):
            x0, y0, x1, y1 = square[0]
            v.worst("square by mupdf (mm)", max(abs(x1 - x0 - SQUARE[2]), abs(y1 - y0 - SQUARE[2])))
        for what, (x, y, n), axis in (("ruler", RULER, 0), ("upright ruler", UPRIGHT, 1)):
            def along(p, a=axis):
                return p[a] - (x, y)[a]
            base = [p for w, closed, p in lines if not closed and abs(w - EDGE) < 0.01 and len(p) == 2
                    and math.dist(p[0], (x, y)) < 0.1]
            if v.check(len(base) == 1, name, f"page {number}: mupdf draws {len(base)} lines of the {what}"):
                v.worst(what + " by mupdf (mm)", abs(along(base[0][1]) - n))
                v.check(abs(along(base[0][1]) - n) <= 0.1, name, f"page {number}: the {what} is {along(base[0][1]):.4f} mm long by mupdf")
            marks = sorted(along(p[0]) for w, closed, p in lines if not closed and abs(w - FINE) < 0.01 and len(p) == 2
                           and abs(p[0][1 - axis] - (x, y)[1 - axis]) < 0.05 and -0.1 < along(p[0]) < n + 0.1)
            v.check(len(marks) == n + 1 and all(abs(m - i) <= 0.1 for i, m in enumerate(marks)), name,
                    f"page {number}: mupdf draws the marks of the {what} at {marks[:3]}... ({len(marks)})")
        outlines += mine
        openings += [p for w, closed, p in lines if closed and abs(w - EDGE) < 0.01 and not is_square(p)]
        for w, closed, p in lines:
            b = box(p)
            if mine and closed and abs(w - FINE) < 0.005 and abs(b[2] - b[0] - 2 * RING) < 0.01 and abs(b[3] - b[1] - 2 * RING) < 0.01 \
                    and abs(area(p) - math.pi * RING ** 2) < 0.05:
                part = box(mine[0])
                rings.append((number, b[0] - part[0], b[1] - part[1]))
    tiled = any("joins" in t for t in text_of(path))
    if not tiled:
        v.check(len(outlines) == copies, name, f"mupdf draws {len(outlines)} outlines for {copies} copies")
        v.check(len(openings) == copies * report["openings"], name, f"mupdf draws {len(openings)} openings in {copies} copies, the report has {report['openings']}")
        if openings:
            got, want = sum(map(area, openings)) / copies, report["removed_area_mm2"]
            v.worst("openings by mupdf, by share", abs(got - want) / want)
            v.check(abs(got - want) <= ARCS * report["openings_length_mm"], name, f"the openings have {got:.5f} mm2 by mupdf, {want:.5f} in the report")
    for p in outlines:
        got, want = area(p), report["blank_area_mm2"]
        v.check(abs(got - want) <= ARCS * report["outline_length_mm"], name, f"a blank has {got:.5f} mm2 by mupdf, {want:.5f} in the report")
    if tiled:
        # Each ring is on two sheets of a copy, at the same place of the part.
        v.check(rings, name, "no joining marks though the part lies on several sheets")
        for number, x, y in rings:
            same = [r for r in rings if r[0] != number and math.hypot(r[1] - x, r[2] - y) < 0.02]
            v.check(len(same) == 2 * copies - 1, name,
                    f"page {number}: a joining mark at {x:.2f}, {y:.2f} of the part is on {len(same)} other sheets")


def text_of(path):
    """The text as poppler and as mupdf read it, in one line each."""
    texts = []
    for args in (("pdftotext", "-layout", path, "-"), ("mutool", "draw", "-F", "txt", "-o", "-", path)):
        texts.append(" ".join(poppler(*args)[0].split()))
    return texts


def area(pts):
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(pts, pts[1:] + pts[:1]))) / 2


def same_area(v, name, what, got, want, length):
    """Poppler's drawing library (cairo) keeps places in 1/256 point, so a line may
    lie half of that aside everywhere."""
    allowed = length / PT / 256 / 2
    v.worst(f"area of {what} on paper, by share", abs(got - want) / want)
    v.check(abs(got - want) <= allowed, name, f"area of {what} on paper {got:.4f} mm2, the report says {want:.4f}, allowed {allowed:.4f}")


def the_part(v, folder, name, path, pages, report, copies, scratch):
    outline, openings = [], []
    for page in range(1, pages + 1):
        lines, wrong = stroked(path, page, scratch)
        v.check(not wrong, name, f"pdftocairo: {wrong}")
        outline += [p for w, p in lines if abs(w - OUTLINE) < 0.01]
        # The square has the width of the openings' lines, and stands in the corner.
        high = page_high(path, page)
        openings += [p for w, p in lines if abs(w - EDGE) < 0.01 and not is_square([(x, high - y) for x, y in p])]
    if v.check(len(outline) == copies, name, f"{len(outline)} outlines on the sheets for {copies} copies"):
        # Width by the cut file: the report's is the widest the band would be with
        # square corners.
        dxf = files.flatten(files.read_dxf(os.path.join(folder, name + ".dxf"))[2][0], 1e-4)
        for o in outline:
            for what, axis in (("length", 0), ("width", 1)):
                got, want = (max(p[axis] for p in pts) - min(p[axis] for p in pts) for pts in (o, dxf))
                v.worst("blank on paper (mm)", abs(got - want))
                v.check(abs(got - want) <= 0.01, name, f"the blank on paper is {got:.3f} mm in {what}, in the cut file {want:.3f}")
            same_area(v, name, "blank", area(o), report["blank_area_mm2"], report["outline_length_mm"])
    if v.check(len(openings) == copies * report["openings"], name, f"{len(openings)} openings in {copies} copies, the report has {report['openings']}") and openings:
        same_area(v, name, "openings", sum(map(area, openings)) / copies, report["removed_area_mm2"], report["openings_length_mm"])


def page_high(path, page):
    info, _ = poppler("pdfinfo", "-f", str(page), "-l", str(page), path)
    return float(re.search(r"size:\s+[\d.]+ x ([\d.]+) pts", info).group(1)) / PT


def the_text(v, folder, name, path, pages, report):
    """Both readers find what a bench needs; the fonts are in the file. Returns the
    number of copies."""
    fonts, wrong = poppler("pdffonts", path)
    rows = [r.split() for r in fonts.splitlines()[2:]]
    v.check(not wrong and rows, name, f"pdffonts: {wrong or 'no fonts'}")
    for r in rows:  # name, type, encoding, embedded, subset, to Unicode
        v.check(r[-5:-2] == ["yes", "yes", "yes"], name, f"font {r[0]}: embedded, subset, to Unicode: {r[-5:-2]}")
    copies = 1
    with open(os.path.join(folder, name + ".svg"), encoding="utf-8") as f:
        told = re.search(r"content number ([0-9A-F]{8})", f.read())
    for reader, text in zip(("poppler", "mupdf"), text_of(path)):
        others = len(re.findall(r"sheet \d+ of \d+: (?:notes|numbers of)", text))
        v.check(text.count("Print at 100 % (actual size)") == pages - others, name, f"{reader}: not every page of the part says 100 %")
        for word in ("Kerf:", "Units: millimetres", "waste side", "estimates", "Saw and drill", "Content number", "Scale", "1:1", "Size", "Metal"):
            v.check(word in text, name, f"{reader}: the template says nothing of {word!r}")
        v.check(("Drill table" in text) == (report["openings"] > 0), name, f"{reader}: a drill table without openings, or none")
        v.check(("engraved, not sawn" in text) == (report["marks"] > 0), name, f"{reader}: the key does not say what is engraved, or says it without a mark")
        v.check(told and text.count(told.group(1)) > pages, name, f"{reader}: the content number is not that of the cut file on every page")
        marks = re.findall(r"copy (\d+) of (\d+)", text)
        if marks:
            copies = int(marks[0][1])
        # Every opening is in the drill table.
        if report["openings"] and " more" not in text:
            listed = set()
            for ranges in re.findall(r"\d+ openings?: ((?:\d+(?:-\d+)?(?:, )?)+)", text.split("Drill table", 1)[1]):
                for a, b in re.findall(r"(\d+)(?:-(\d+))?", ranges):
                    listed.update(range(int(a), int(b or a) + 1))
            if reader == "mupdf":  # poppler's layout mixes the columns
                v.check(len(listed) == report["openings"], name, f"the drill table lists {len(listed)} of {report['openings']} openings")
    return copies


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

    copies = the_text(v, folder, name, path, pages, report)
    text = text_of(path)[0]
    for page in range(1, min(pages, 6) + 1):
        if "Print at 100 %" not in poppler("pdftotext", "-f", str(page), "-l", str(page), path, "-")[0]:
            continue  # notes, or numbers on a larger drawing: nothing at true size
        ink, wrong = foot(path, page, h, scratch)
        v.check(not wrong, name, f"pdftoppm: {wrong}")
        measure(v, name, page, ink)
    if "joins" not in text:
        the_part(v, folder, name, path, pages, report, copies, scratch)
    by_mupdf(v, folder, name, path, report, copies)
    return pages


def main():
    folder = sys.argv[1]
    every = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    _, version = poppler("pdfinfo", "-v")
    _, mupdf = poppler("mutool", "-v")
    v = files.Verdict("pdf (poppler " + version.split()[2] + ", mupdf " + re.search(r"[\d.]+", mupdf).group(0) + ")")
    chosen = files.names(folder)[::every]
    pages = 0
    with tempfile.TemporaryDirectory() as scratch:
        for name in chosen:
            pages += judge(v, folder, name, scratch)
    v.end(len(chosen), f"{pages} pages at {DPI} dots per inch.")


main()
