"""What the judges share: the folder they are given, the loops of a DXF file,
and how a verdict is told.

The folder holds, for each NAME: NAME.svg, NAME.dxf, NAME-template.pdf as written
by fretcut make, NAME.report.json as printed by fretcut report -json, and
NAME.design.json, the design.

Geometry is worked out here from the files alone, by published libraries (ezdxf,
Shapely with GEOS, librsvg, poppler) and closed forms; nothing of Fretband's own
code is asked.
"""
import json
import math
import os
import sys

import ezdxf
import numpy as np
from ezdxf.math import bulge_to_arc


MARKS = {"ENGRAVE_NOT_CUT", "ENGRAVE_INSIDE_NOT_CUT"}  # the layers of what is engraved, outside and inside
SVG = "{http://www.w3.org/2000/svg}"


def names(folder):
    """All parts in the folder, in order."""
    end = ".report.json"
    found = sorted(f[: -len(end)] for f in os.listdir(folder) if f.endswith(end))
    if not found:
        sys.exit(f"{folder}: no *.report.json: nothing to judge")
    return found


def seamless(folder, name):
    """Whether both ends of the blank are one place that is not cut."""
    band = load(folder, name, "design")["band"]
    return band["kind"] != "cuff" and band.get("joint") == "seamless"


def comes_round(folder, name):
    """Whether the blank's two ends meet by moving one along by its length. Those
    of a closed flared band, a sector of a ring, meet by turning: it is judged as
    if it were open, joint and all."""
    band = load(folder, name, "design")["band"]
    flared = band.get("flare_deg", 0) != 0 or band["inside"]["by"] == "edges"
    return band["kind"] != "cuff" and not flared


def load(folder, name, kind):
    with open(os.path.join(folder, f"{name}.{kind}.json"), encoding="utf-8") as f:
        return json.load(f)


class Verdict:
    """Counts what holds and what does not; a failure is told at once."""

    def __init__(self, judge):
        self.judge, self.good, self.bad = judge, 0, 0
        self.numbers = {}

    def check(self, ok, name, text):
        if ok:
            self.good += 1
        else:
            self.bad += 1
            print(f"{self.judge}: FAILED: {name}: {text}")
        return bool(ok)

    def near(self, got, want, relative, name, what):
        scale = max(abs(want), 1e-12)
        self.worst(what, abs(got - want) / scale)
        return self.check(abs(got - want) <= relative * scale, name,
                          f"{what}: {got!r}, expected {want!r} to {relative:g}")

    def worst(self, what, value):
        self.numbers[what] = max(self.numbers.get(what, 0), value)

    def end(self, files, extra=""):
        worst = "; ".join(f"{k} within {v:.2g}" for k, v in self.numbers.items())
        told = [f"{self.judge}: {files} files, {self.good} checks held, {self.bad} failed", worst, extra.rstrip(".")]
        print(". ".join(t for t in told if t) + ".")
        sys.exit(1 if self.bad or not self.good else 0)


def vertices(polyline):
    """The vertices (x, y, bulge) of an LWPOLYLINE."""
    return [(p[0], p[1], p[2]) for p in polyline.get_points("xyb")]


def edges(loop):
    return zip(loop, loop[1:] + loop[:1])


def area(loop):
    """Signed area: shoelace about the first vertex, and the segment
    r^2/2 (a - sin a) of each arc by ezdxf's own reading of the bulge."""
    ox, oy, _ = loop[0]
    total = 0.0
    for (x0, y0, b), (x1, y1, _) in edges(loop):
        total += ((x0 - ox) * (y1 - oy) - (x1 - ox) * (y0 - oy)) / 2
        if b:
            _, start, end, r = bulge_to_arc((x0, y0), (x1, y1), b)
            a = (end - start) % (2 * math.pi)
            if a < 1e-3:  # the difference below has lost its digits: its series
                seg = r * r * a ** 3 / 12
            else:
                seg = r * r / 2 * (a - math.sin(a))
            total += math.copysign(seg, b)
    return total


def length(loop, but_at=None):
    """The length of a loop; without its upright edges at x = +-but_at, if given."""
    total = 0.0
    for (x0, y0, b), (x1, y1, _) in edges(loop):
        if but_at and abs(abs(x0) - but_at) < 1e-6 and abs(x0 - x1) < 1e-6 and not b:
            continue
        if b:
            _, start, end, r = bulge_to_arc((x0, y0), (x1, y1), b)
            total += r * ((end - start) % (2 * math.pi))
        else:
            total += math.hypot(x1 - x0, y1 - y0)
    return total


def flatten(loop, error):
    """The loop as a polygon whose vertices lie on it and whose chords are at
    most `error` mm from their arcs."""
    points = []
    for (x0, y0, b), (x1, y1, _) in edges(loop):
        points.append((x0, y0))
        if not b or (x0, y0) == (x1, y1):
            continue
        (cx, cy), start, end, r = bulge_to_arc((x0, y0), (x1, y1), b)
        a = (end - start) % (2 * math.pi)
        n = 1
        if r > error:
            n = max(1, math.ceil(a / (2 * math.acos(1 - error / r))))
        elif a > math.pi:
            n = 4
        # ezdxf gives arcs counter-clockwise.
        from_, step = (start, a / n) if b > 0 else (end, -a / n)
        t = from_ + step * np.arange(1, n)
        points.extend(zip((cx + r * np.cos(t)).tolist(), (cy + r * np.sin(t)).tolist()))
    return points


def read_dxf(path):
    """The document, its openings and its outline as lists of vertices."""
    doc = ezdxf.readfile(path)
    openings, outline = [], []
    for p in doc.modelspace().query("LWPOLYLINE"):
        if p.dxf.layer not in MARKS:
            (outline if p.dxf.layer == "OUTLINE" else openings).append(vertices(p))
    return doc, openings, outline


def comments(path):
    """The words of a DXF file: its comments, group 999, which draw nothing, as one line."""
    with open(path, encoding="ascii") as f:
        rows = f.read().split("\n")
    return " ".join(" ".join(v.strip() for c, v in zip(rows[::2], rows[1::2]) if c.strip() == "999").split())


def read_marks(doc):
    """The engraved lines: vertices, and whether the last is joined to the first."""
    lines = []
    for e in doc.modelspace():
        if e.dxf.layer not in MARKS:
            continue
        if e.dxftype() == "LINE":
            lines.append(([(e.dxf.start.x, e.dxf.start.y, 0), (e.dxf.end.x, e.dxf.end.y, 0)], False))
        else:
            lines.append((vertices(e), bool(e.closed)))
    return lines


def line_length(line):
    vs, closed = line
    if closed:
        return length(vs)
    back = vs[:-1] + [(vs[-1][0], vs[-1][1], 0)]
    return length(back) - math.hypot(vs[-1][0] - vs[0][0], vs[-1][1] - vs[0][1])


def line_points(line, error):
    """The points of an engraved line, as flatten gives those of a loop."""
    vs, closed = line
    if closed:
        ps = flatten(vs, error)
        return ps + ps[:1]
    return flatten(vs[:-1] + [(vs[-1][0], vs[-1][1], 0)], error)
