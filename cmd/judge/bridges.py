#!/usr/bin/python3
"""Judge of the bridge rule: distances by Shapely and GEOS between the loops of
the DXF files. Usage: bridges.py FOLDER

Arcs become chords no farther than ERROR from them, so a distance that GEOS finds
is at most 2 * ERROR too large (two chords, each inside its arc) and ALLOWED takes
that in.
"""
import os
import sys
import warnings

import shapely
from shapely.geometry import LineString, MultiLineString, Point, Polygon, box
from shapely.ops import unary_union
from shapely.strtree import STRtree
from shapely.affinity import translate

import files
import found
import kept

warnings.filterwarnings("ignore", message="STRtree will be changed")  # both ways are taken below

ERROR = 1e-4     # mm, fine chords
COARSE = 5e-3    # mm, to find out which pairs are worth the fine ones
ALLOWED = 0.002  # mm under the rule: the project's own promise
FITTED = 0.002   # mm between GEOS's and the report's thinnest bridge
AREA_ERROR = 1e-5  # mm, chords for areas: the area is at most 2/3 of that times the length too small


class Shape:
    """One loop, coarse at once and fine when asked for."""

    def __init__(self, loop):
        self.loop = loop
        self.coarse = Polygon(files.flatten(loop, COARSE))
        self._fine = None

    def fine(self):
        if self._fine is None:
            self._fine = Polygon(files.flatten(self.loop, ERROR))
        return self._fine


def near(tree, index, shape, reach):
    """Indexes of the tree's shapes within reach of a shape's box (Shapely 1.8
    answers with shapes, 2 with indexes)."""
    x0, y0, x1, y1 = shape.bounds
    found = tree.query(box(x0 - reach, y0 - reach, x1 + reach, y1 + reach))
    return sorted(index[id(g)] if hasattr(g, "geom_type") else int(g) for g in found)


def edge_lines(outline, length, closed):
    """The edges along which the blank is cut: the long ones, and the ends."""
    pts = files.flatten(outline, ERROR)
    ends, sides = [], []
    for a, b in zip(pts, pts[1:] + pts[:1]):
        at_end = closed and abs(abs(a[0]) - length / 2) < 1e-6 and abs(a[0] - b[0]) < 1e-6
        (ends if at_end else sides).append(LineString([a, b]))
    sides = MultiLineString(sides)
    if closed:
        sides = unary_union([translate(sides, dx) for dx in (-length, 0, length)])
    return sides, MultiLineString(ends) if ends else None


def judge(v, folder, name):
    report = files.load(folder, name, "report")
    design = files.load(folder, name, "design")
    reserves, band = design.get("reserves") or [], design["band"]
    doc, loops, outlines = files.read_dxf(os.path.join(folder, name + ".dxf"))
    length, rule, keep = report["blank_length_mm"], report["bridge_rule_mm"], report["edge_rule_mm"]
    closed = files.comes_round(folder, name)
    seamless = files.seamless(folder, name)
    turns = (-length, 0, length) if closed else (0,)

    openings = [Shape(l) for l in loops]
    v.check(all(o.coarse.is_valid for o in openings), name, "an opening crosses itself")
    sides, ends = edge_lines(outlines[0], length, closed)
    blank = Polygon(files.flatten(outlines[0], ERROR))
    if closed:  # three turns, a hair wider where they meet
        blank = unary_union([translate(blank, dx).buffer(1e-7) for dx in turns])

    removed = sum(Polygon(files.flatten(l, AREA_ERROR)).area for l in loops)
    if loops:
        v.near(removed, report["removed_area_mm2"], 1e-4, name, "removed area")
    else:
        v.check(report["removed_area_mm2"] == 0, name, "area removed without an opening")

    # Openings with each other, once round the band.
    least, pair = float("inf"), None
    if openings:
        copies = [(i, dx, translate(o.coarse, dx) if dx else o.coarse) for dx in turns for i, o in enumerate(openings)]
        tree = STRtree([c[2] for c in copies])
        index = {id(c[2]): k for k, c in enumerate(copies)}
        reach = rule + 0.5
        while True:
            for i, o in enumerate(openings):
                for k in near(tree, index, o.coarse, min(reach, least) + 2 * COARSE):
                    j, dx, other = copies[k]
                    if j < i or (j == i and dx <= 0):
                        continue
                    if o.coarse.distance(other) > min(least, reach) + 2 * COARSE:
                        continue
                    fine = openings[j].fine()
                    d = o.fine().distance(translate(fine, dx) if dx else fine)
                    if d < least:
                        least, pair = d, (i + 1, j + 1)
            if least <= reach or reach > 4 * length:
                break
            reach *= 4
        v.check(least >= rule - ALLOWED, name, f"openings {pair} are {least:.4f} mm apart, rule {rule}")

    # Openings with the edge of the blank.
    to_edge = float("inf")
    for o in openings:
        if o.coarse.distance(sides) < to_edge + 2 * COARSE:
            to_edge = min(to_edge, o.fine().distance(sides))
        if not blank.contains(o.coarse):
            v.check(False, name, "an opening leaves the blank")
    v.check(to_edge >= max(rule, keep) - ALLOWED, name, f"an opening is {to_edge:.4f} mm from the edge, rule {keep}")
    least = min(least, to_edge)
    if closed and not seamless and openings:
        d = min(o.fine().distance(ends) for o in openings)
        joint = max(band.get("joint_mm", 0) / 2, rule)
        v.check(d >= joint - ALLOWED, name, f"an opening is {d:.4f} mm from the joint, rule {joint}")
        least = min(least, d)

    # Openings with the reserves, all of each row.
    openings_fine = STRtree([o.coarse for o in openings]) if openings else None
    numbered = {id(o.coarse): i for i, o in enumerate(openings)}

    def nearest(g, want, what):
        for i in near(openings_fine, numbered, g, want + 0.1) if openings else []:
            d = openings[i].coarse.distance(g)
            if d < want + 2 * COARSE:
                d = openings[i].fine().distance(g)
            if d < want - ALLOWED:
                v.check(False, name, f"opening {i + 1} is {d:.4f} mm from {what}, which keeps {want}")

    for k, r in enumerate(reserves):
        for g in kept.places(r, band, length) or []:
            nearest(g, r["margin_mm"], f"reserve {k + 1}")
        v.good += 1

    # Openings with the marks by the design's numbers, and the marks of the file with
    # those.
    lines = files.read_marks(doc)
    drawn = [LineString(files.line_points(l, ERROR)) for l in lines]
    marks = design.get("marks") or []
    for k, m in enumerate(marks):
        for g in kept.mark_places(m, band, length):
            if m["keep_mm"] >= 0:
                nearest(g, max(m["keep_mm"], rule / 2), f"mark {k + 1}")
    exact = [g for m in marks for g in kept.mark_places(m, band, length)]
    if exact and drawn and kept.along(band, length):
        all_drawn, all_exact = unary_union(drawn), unary_union(exact)
        for k, m in enumerate(marks):
            g = kept.mark(m)
            if g is not None and band["kind"] == "cuff":
                v.check(all_drawn.buffer(ALLOWED).contains(g), name, f"mark {k + 1} is not where the design has it")
        if all(m["kind"] != "text" for m in marks):
            v.check(all_exact.buffer(ALLOWED).contains(all_drawn), name, "a line is engraved that is no mark's")
    if marks and all(m["keep_mm"] >= 0 for m in marks):
        for g in drawn:
            nearest(g, min(m["keep_mm"] for m in marks), "an engraved line")

    # The report's own figure.
    if report["thinnest_mm"] is None:
        v.check(not openings, name, "no thinnest bridge in the report")
    else:
        a, b = report["thinnest_between"]
        got = report["thinnest_mm"]
        if a == b:  # a neck of one opening, which is not looked for here
            v.check(least >= got - FITTED, name, f"GEOS finds {least:.4f} mm, the report's neck is {got:.4f}")
        else:
            v.worst("thinnest bridge (mm)", abs(least - got))
            v.check(abs(least - got) <= FITTED, name, f"GEOS finds {least:.4f} mm, the report {got:.4f}")
        p, q = (Point(*c) for c in report["thinnest_at"])
        d = min(p.distance(translate(q, dx)) for dx in turns)
        v.check(abs(d - got) < 1e-6, name, f"the report's two points are {d:.6f} mm apart, its bridge {got:.6f}")

    # One piece: the blank less the openings. Where openings cross the seam the
    # flat drawing falls apart without meaning it.
    if all(abs(x) < length / 2 for l in loops for x, _, _ in l):
        metal = Polygon(files.flatten(outlines[0], ERROR)).difference(unary_union([o.coarse for o in openings]))
        v.check(metal.geom_type == "Polygon" and report["pieces"] == 1, name, f"{metal.geom_type}, the report counts {report['pieces']}")

    found.judge(v, name, report, loops, outlines[0], closed)


def main():
    folder = sys.argv[1]
    v = files.Verdict("bridges (Shapely " + shapely.__version__ + ")")
    all_names = files.names(folder)
    for name in all_names:
        judge(v, folder, name)
    v.end(len(all_names))


main()
