#!/usr/bin/python3
"""Judge of cut sheets: several copies of a part with lead-ins and tabs, DXF read by
ezdxf, SVG by its published grammar, geometry by Shapely. Usage:

    cutsheet.py FOLDER [flags as given to fretcut make]

The folder holds NAME.dxf, NAME.svg and NAME.report.json (fretcut report -json of the
design). Flags: -copies -curves -chord -lead -tabs -tab-width -sheet WxH -gap -margin
-kerf. At the end the judge spoils what it read in every way it looks for, and fails if
one passes.
"""
import argparse
import copy
import math
import os
import re
import sys
import xml.etree.ElementTree as tree

import numpy as np
import shapely
from shapely.geometry import LineString, Point, Polygon, box
from shapely.ops import polylabel, unary_union

import files

FINE = 1e-4  # mm, of arcs as chords here
SHORT = 1e-2  # mm, no edge may be shorter


class Line:
    """A line of a file: what it is for, its vertices (x, y, bulge), whether it is closed."""

    def __init__(self, layer, vs, closed):
        self.layer, self.vs, self.closed = layer, vs, closed

    def edges(self):
        es = list(files.edges(self.vs))
        return es if self.closed else es[:-1]

    def length(self):
        return files.line_length((self.vs, self.closed))

    def points(self):
        return files.line_points((self.vs, self.closed), FINE)

    def move(self, x, y):
        self.vs = [(a + x, b + y, c) for a, b, c in self.vs]


def read_dxf(path):
    lines = []
    for e in files.ezdxf.readfile(path).modelspace():
        if e.dxftype() == "LWPOLYLINE":
            vs, closed = files.vertices(e), bool(e.closed)
        elif e.dxftype() == "POLYLINE":
            vs = [(v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0)) for v in e.vertices]
            closed = bool(e.is_closed)
        elif e.dxftype() == "LINE":
            vs, closed = [(e.dxf.start.x, e.dxf.start.y, 0), (e.dxf.end.x, e.dxf.end.y, 0)], False
        else:
            continue
        if e.dxf.layer not in files.MARKS:
            lines.append(Line(e.dxf.layer, vs, closed))
    return lines


NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")


def read_path(d, height):
    """Vertices of path data of M, L, H, V, A, Z in absolute coordinates (SVG 1.1, 8.3). The bulge
    of an arc is tan of a quarter of its sweep, which its chord and radius give."""
    vs, closed = [], False
    for letter, rest in re.findall(r"([A-Za-z])([^A-Za-z]*)", d):
        n = [float(x) for x in NUMBER.findall(rest)]
        if letter in "ML":
            vs += [(n[i], height - n[i + 1], 0) for i in range(0, len(n), 2)]
        elif letter == "H":
            vs += [(x, vs[-1][1], 0) for x in n]
        elif letter == "V":
            vs += [(vs[-1][0], height - y, 0) for y in n]
        elif letter == "A":
            for i in range(0, len(n), 7):
                r, large, sweep, x, y = n[i], n[i + 3], n[i + 4], n[i + 5], height - n[i + 6]
                x0, y0, _ = vs[-1]
                half = math.asin(min(1, math.hypot(x - x0, y - y0) / 2 / r))
                if large:
                    half = math.pi - half
                # With y down the sweep flag 1 turns clockwise as seen with y up.
                vs[-1] = (x0, y0, math.copysign(math.tan(half / 2), -1 if sweep else 1))
                vs.append((x, y, 0))
        elif letter in "Zz":
            closed = True
        else:
            raise ValueError(f"path command {letter}")
    if closed and math.dist(vs[0][:2], vs[-1][:2]) < 1e-9:
        vs.pop()
    return vs, closed


def read_svg(path):
    root = tree.parse(path).getroot()
    height = float(root.get("viewBox").split()[3])
    lines = []
    for group in root:
        name = group.get("id") or ""
        layer = "OPENINGS" if name.endswith("openings") else "OUTLINE" if name.endswith("outline") or "outline" in name else None
        if layer is None or not group.tag.endswith("}g"):
            continue
        for p in group:
            vs, closed = read_path(p.get("d"), height)
            lines.append(Line(layer, vs, closed))
    return lines


class Cut:
    """One opening or outline: its runs, one if nothing holds it, and the lead-in of each."""

    def __init__(self, layer, leads, runs):
        self.layer, self.leads, self.runs = layer, leads, runs

    def whole(self):
        """The line, straight over tabs."""
        if len(self.runs) == 1:
            return self.runs[0]
        vs = []
        for r in self.runs:
            vs += r.vs[:-1] + [(*r.vs[-1][:2], 0)]
        vs.pop()  # the last run ends where the first begins
        return Line(self.layer, vs, True)


def cuts_of(v, name, lines, o):
    """The lines as cuts. Where lead-ins were asked for, every line is open and begins with one:
    the straight edge before what comes back to where it began, or before a run between tabs."""
    cuts, i = [], 0
    while i < len(lines):
        layer = lines[i].layer
        n = o.tabs + 1 if layer == "OUTLINE" and o.tabs else 1
        mine = lines[i:i + n]
        v.check(len(mine) == n and all(r.layer == layer for r in mine), name, f"line {i + 1}: not {n} lines of {layer}")
        leads, runs = [], []
        for r in mine:
            if not v.check(r.closed == (n == 1 and o.lead == 0), name, f"line {i + 1} of {layer} is {'closed' if r.closed else 'open'}"):
                return []
            if o.lead > 0:
                v.check(r.vs[0][2] == 0, name, f"line {i + 1} of {layer} does not begin straight, with a lead-in")
                leads.append(Line(layer, r.vs[:2], False))
                r = Line(layer, r.vs[1:], False)
                if n == 1:  # all round
                    back = math.dist(r.vs[0][:2], r.vs[-1][:2])
                    v.check(back < 1e-6, name, f"line {i + 1} of {layer}: what follows its lead-in ends {back:.6f} mm from where it begins")
                    r = Line(layer, r.vs[:-1], True)
            runs.append(r)
        cuts.append(Cut(layer, leads, runs))
        i += n
    return cuts


def judge(v, name, lines, report, o):
    cuts = cuts_of(v, name, lines, o)
    each = report["openings"] + 1
    want = (["OPENINGS"] * (each - 1) + ["OUTLINE"]) * o.copies
    if not v.check([c.layer for c in cuts] == want, name,
                   f"{len(cuts)} cuts: not {o.copies} times {each - 1} openings and then an outline"):
        return
    wholes = [c.whole() for c in cuts]
    areas = np.array([files.area(w.vs) for w in wholes]).reshape(o.copies, each)
    v.check((areas[:, :-1] < 0).all() and (areas[:, -1] > 0).all(), name, "the metal does not lie on the left of every cut")
    lengths = np.array([sum(r.length() for r in c.runs) for c in cuts]).reshape(o.copies, each)
    for what, a in (("area", areas), ("length", lengths)):
        v.near(float(np.max(np.abs(a - a[0]) / np.abs(a[0]))) + 1, 1, 1e-7, name, f"{what} of a cut and of the same one of copy 1")

    polygons = [Polygon(w.points()) for w in wholes]
    if not v.check(all(p.is_valid for p in polygons), name, "a line crosses itself"):
        return
    middles = np.array([p.centroid.coords[0] for p in polygons]).reshape(o.copies, each, 2)
    far = np.linalg.norm(middles[:, :-1] - middles[:, -1:], axis=2)
    v.check(float(np.max(np.abs(far - far[0]), initial=0)) < 1e-5, name, "openings do not lie in a copy as they lie in copy 1")
    spots = {(round(x, 4), round(y, 4), round(a, 4)) for (x, y), a in zip(middles.reshape(-1, 2), areas.reshape(-1))}
    v.check(len(spots) == len(cuts), name, "two cuts lie in one place")
    for c in range(o.copies):
        outline = polygons[c * each + each - 1].buffer(1e-6)
        if not o.over_ends:
            v.check(all(outline.contains(p) for p in polygons[c * each:(c + 1) * each - 1]), name, f"an opening of copy {c + 1} lies outside of its outline")
    short = min(math.dist(a[:2], b[:2]) for l in lines for a, b in l.edges())
    v.check(short >= SHORT, name, f"an edge is {short:.2g} mm long")
    if o.curves == "chords":
        v.check(all(b == 0 for l in lines for _, _, b in l.vs), name, "an arc among chords")
    if o.kerf == 0 and not o.tabs and o.curves != "chords":
        v.near(-float(areas[:, :-1].sum()), o.copies * report["removed_area_mm2"], 1e-6, name, "removed area")
        v.near(float(areas[:, -1].sum()), o.copies * report["blank_area_mm2"], 1e-6, name, "blank area")

    lead_ins(v, name, cuts, polygons, o)
    tabs(v, name, cuts, report, o)
    sheet(v, name, cuts, polygons, o)


def lead_ins(v, name, cuts, polygons, o):
    radius = {}
    for c, p in zip(cuts, polygons):
        for lead, run in zip(c.leads, c.runs):
            vs = lead.vs
            start, end = vs[0][:2], vs[-1][:2]
            way = LineString([start, end])
            inside = way.intersection(p).length
            long = lead.length()
            waste = inside if c.layer == "OPENINGS" else long - inside
            v.check(waste > long - 2e-3, name, f"the lead-in from {start} leaves the waste")
            clear = p.exterior.distance(Point(start))
            # The chords of a round opening lie on its hollow side, where the lead-in is.
            v.check(clear > long - 3e-3 - (o.chord if o.curves == "chords" else 0), name, f"the lead-in from {start}: its spot is {clear:.4f} mm from the line, it is {long:.4f} mm long")
            v.check(long <= o.lead + 3e-3, name, f"the lead-in from {start} is {long:.4f} mm long")
            if long < o.lead - 3e-3 and c.layer == "OPENINGS":
                key = (round(p.area, 5), round(p.length, 5))
                if key not in radius:
                    radius[key] = p.exterior.distance(polylabel(p, 0.01))
                v.check(long > radius[key] - 0.03, name, f"the lead-in from {start} is {long:.3f} mm long, the opening has room for {radius[key]:.3f}")


def tabs(v, name, cuts, report, o):
    if not o.tabs:
        return
    gap = o.tab_width + o.kerf
    for c in cuts:
        if c.layer != "OUTLINE":
            continue
        v.check(math.dist(c.runs[0].vs[0][:2], c.runs[-1].vs[-1][:2]) < 1e-6, name, "the runs do not come back to where they begin")
        for a, b in zip(c.runs, c.runs[1:]):
            d = math.dist(a.vs[-1][:2], b.vs[0][:2])
            # Across an arc of radius three times the tab's width a chord is shorter by 0.5 %.
            v.check(0.99 * gap < d < gap + 1e-6, name, f"a tab is {d:.4f} mm wide, kerf and all, not {gap:g}")
        if o.kerf == 0 and o.curves != "chords":
            # The report leaves out the two ends of a seamless band.
            got, want = sum(r.length() for r in c.runs) + o.tabs * gap, report["outline_length_mm"]
            if report["kind"] != "cuff" and got > want + report["blank_width_mm"]:
                want += 2 * report["blank_width_mm"]
            v.near(got, want, 1e-7, name, "length of runs and tabs")


def sheet(v, name, cuts, polygons, o):
    each = len(cuts) // o.copies
    copies = []
    for i in range(o.copies):
        mine = [polygons[k].exterior for k in range(i * each, (i + 1) * each) if cuts[k].layer == "OUTLINE" or o.over_ends]
        mine += [LineString([l.vs[0][:2], l.vs[-1][:2]]) for c in cuts[i * each:(i + 1) * each] if c.layer == "OUTLINE" for l in c.leads]
        copies.append(unary_union(mine))
    slack = 2 * FINE + 1e-6
    if o.copies > 1:
        for i, g in enumerate(copies):
            reach = box(*g.bounds).buffer(o.gap)
            for j in range(i + 1, o.copies):
                if reach.intersects(box(*copies[j].bounds)):
                    d = g.distance(copies[j])
                    v.check(d >= o.gap - slack, name, f"copies {i + 1} and {j + 1} are {d:.4f} mm apart")
                    outer = polygons[i * each + each - 1], polygons[j * each + each - 1]
                    v.check(not outer[0].contains(outer[1]) and not outer[1].contains(outer[0]), name, f"of copies {i + 1} and {j + 1} one lies in the other")
    x0, y0, x1, y1 = unary_union(copies).bounds
    if o.sheet or o.copies > 1:
        if o.svg:  # its lines begin at a margin of its own
            w, h = x1 - x0 + 2 * o.margin, y1 - y0 + 2 * o.margin
            v.check(not o.sheet or (w <= o.sheet[0] + slack and h <= o.sheet[1] + slack), name, f"the copies take {w:.3f} x {h:.3f} mm with the margin")
            return
        v.check(min(x0, y0) >= o.margin - slack, name, f"a copy begins at x {x0:.4f}, y {y0:.4f}: the margin is not held")
        if o.sheet:
            v.check(x1 <= o.sheet[0] - o.margin + slack and y1 <= o.sheet[1] - o.margin + slack, name, f"a copy ends at x {x1:.4f}, y {y1:.4f}: the margin is not held")


def spoils(o, each):
    """What may go wrong, each with what it does to the lines of a file."""
    def kinds(ls, layer):
        return [i for i, l in enumerate(ls) if l.layer == layer]

    def last_copy(ls):
        return ls[len(ls) - len(ls) // o.copies:]

    def onto_last(ls):
        """The first copy comes to lie on the last one, but for a few tenths."""
        first, last = ls[:len(ls) // o.copies], last_copy(ls)
        a, b = ([v for l in c for v in l.vs] for c in (first, last))
        by = [min(v[k] for v in b) - min(v[k] for v in a) for k in (0, 1)]
        for l in first:
            l.move(by[0] + 0.4, by[1] + 0.3)

    def put(l, k, x, y):
        l.vs[k] = (l.vs[k][0] + x, l.vs[k][1] + y, l.vs[k][2])

    ways = {
        "a cut left out": lambda ls: ls.pop(kinds(ls, "OPENINGS")[0]),
        "a line opened or closed": lambda ls: setattr(ls[kinds(ls, "OPENINGS")[0]], "closed", o.lead > 0),
        "a cut twice": lambda ls: ls.insert(kinds(ls, "OPENINGS")[0], copy.deepcopy(ls[kinds(ls, "OPENINGS")[0]])),
        "a turned opening": lambda ls: turn(ls[kinds(ls, "OPENINGS")[0]]),
    }
    if o.copies > 1:
        ways["an opening moved"] = lambda ls: ls[kinds(ls, "OPENINGS")[0]].move(0.05, 0)
        ways["a copy on another"] = onto_last
        ways["a copy off the sheet"] = lambda ls: [l.move(5000 if o.sheet else -6, 0) for l in (last_copy(ls) if o.sheet else ls)]
        if o.svg and not o.sheet:
            del ways["a copy off the sheet"]
    if o.lead:
        ways["a lead-in from the metal"] = lambda ls: put(ls[kinds(ls, "OPENINGS")[0]], 0, 30, 0)
        ways["a line that does not come back"] = lambda ls: put(ls[kinds(ls, "OPENINGS")[0]], -1, 0.01, 0)
        ways["a lead-in left out"] = lambda ls: ls[kinds(ls, "OPENINGS")[0]].vs.pop(0)
        ways["a lead-in by itself"] = lambda ls: ls.insert(kinds(ls, "OPENINGS")[0], split(ls[kinds(ls, "OPENINGS")[0]]))
    if o.tabs:
        ways["a tab cut short"] = lambda ls: put(ls[kinds(ls, "OUTLINE")[0]], -1, 0.3 * o.tab_width, 0.3 * o.tab_width)
        ways["a run left out"] = lambda ls: ls.pop(kinds(ls, "OUTLINE")[0])
    return ways


def split(l):
    """Takes the lead-in off a line and returns it as one of its own."""
    lead = Line(l.layer, l.vs[:2], False)
    l.vs = l.vs[1:-1]
    l.closed = True
    return lead


def turn(l):
    vs = l.vs[::-1]
    l.vs = [(*a[:2], -b[2]) for a, b in zip(vs, vs[1:] + vs[:1])]


def options():
    a = argparse.ArgumentParser(prefix_chars="-", allow_abbrev=False)
    a.add_argument("folder")
    a.add_argument("-copies", type=int, default=1)
    a.add_argument("-curves", default="arcs")
    a.add_argument("-sheet", type=lambda s: [float(x) for x in s.split("x")])
    for flag, usual in (("-chord", 0.005), ("-lead", 0), ("-tab-width", 0.4), ("-gap", 3), ("-margin", 5), ("-kerf", 0)):
        a.add_argument(flag, type=float, default=usual)
    a.add_argument("-tabs", type=int, default=0)
    return a.parse_args()


class Quiet(files.Verdict):
    def check(self, ok, name, text):
        if ok:
            self.good += 1
        else:
            self.bad += 1
        return bool(ok)


def main():
    o = options()
    v = files.Verdict("cut sheets (ezdxf " + files.ezdxf.__version__ + ", Shapely " + shapely.__version__ + ")")
    names = files.names(o.folder)
    caught = 0
    spoilt = None  # the first design with openings
    for name in names:
        report = files.load(o.folder, name, "report")
        if spoilt is None and report["openings"] > 0:
            spoilt = name
        for end, read in (("dxf", read_dxf), ("svg", read_svg)):
            file = f"{name}.{end}"
            lines = read(os.path.join(o.folder, file))
            o.svg = end == "svg"
            outlines = [l for l in lines if l.layer == "OUTLINE"]
            # The openings of a seamless band may run over its ends.
            frame = LineString([p for l in outlines[:o.tabs + 1] for p in l.points()]).envelope.buffer(0.01)
            o.over_ends = not all(
                frame.contains(Polygon(l.points())) for l in lines[:lines.index(outlines[0])] if l.layer == "OPENINGS")
            judge(v, file, lines, report, o)
            if name != spoilt:
                continue
            for what, spoil in spoils(o, report["openings"] + 1).items():
                bad = copy.deepcopy(lines)
                spoil(bad)
                quiet = Quiet("spoilt")
                try:
                    judge(quiet, file, bad, report, o)
                except (ValueError, IndexError):
                    quiet.bad += 1
                v.check(quiet.bad > 0, file, f"spoilt by {what}, it passes")
                caught += 1
    v.end(2 * len(names), f"{caught} spoilt files refused" if not v.bad else "")


if __name__ == "__main__":
    main()
