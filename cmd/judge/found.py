"""Judge of what the checks say of tongues and of pieces that hang on little metal, by
Shapely and GEOS on the loops of the DXF file: part of bridges.py.

A tongue is looked for as the closing of its opening by a disc, made of GEOS's own
buffers; a piece by cutting the bridges told out of the metal.
"""
import math

from shapely.geometry import LineString, Point, Polygon
from shapely.ops import linemerge, unary_union

import files

ERROR = 2e-5       # mm, chords from arcs
QUARTER = 256      # chords of a quarter turn in a buffer: 2e-5 of the radius off
ON = 1e-4          # mm: nearer to the edge of the opening than this is on it
CLOSE = 0.01       # of lengths and areas told
PLACE = 0.05       # mm, of places told: an arc that leaves its edge as a tangent is seen late


def polygon(loop):
    return Polygon(files.flatten(loop, ERROR))


def parts(g):
    return list(getattr(g, "geoms", [g]))


def tongue(v, name, t, openings, width):
    """The closing of the opening at the tip, less it: the part at the tip has to end
    in one arc, and to reach as far from the arc's chord as reported."""
    at, tip = t["at"], Point(t["at"])
    near = min(openings, key=lambda o: o.distance(tip))
    # A sharp corner of chords may not close wholly: what is thin is dropped.
    closing = near.buffer(width / 2, QUARTER).buffer(-width / 2, QUARTER)
    found = [p for p in parts(closing.difference(near)) if p.area > 1e-3]
    if not found:
        v.check(False, name, f"no metal narrower than {width} mm at {at}")
        return
    part = min(found, key=lambda p: p.distance(tip))
    arcs = part.exterior.difference(near.exterior.buffer(ON))
    arcs = [arcs] if arcs.geom_type == "LineString" else parts(linemerge(arcs) if len(parts(arcs)) > 1 else arcs)
    arcs = [a for a in arcs if a.length > 10 * ON]
    if part.distance(tip) > 0.05:  # it has a head, whose tip lies beyond the part
        v.check(len(arcs) >= 2, name, f"the neck of a tongue at {at} ends in {len(arcs)} arcs")
        return
    if not v.check(len(arcs) == 1, name, f"the tongue at {at} hangs on {len(arcs)} sides"):
        return
    root = LineString([arcs[0].coords[0], arcs[0].coords[-1]])
    far = max(root.distance(Point(p)) for p in part.exterior.coords)
    v.near(far, t["length_mm"], CLOSE, name, "length of a tongue")
    v.check(t["root_mm"] <= root.length + PLACE, name, f"root {t['root_mm']:.4f} mm, its chord {root.length:.4f}")


def held(v, name, piece, metal):
    """The bridges reported, cut out as slits: one piece has to have the area reported."""
    pairs = piece["at"]
    v.near(sum(math.dist(a, b) for a, b in pairs), piece["metal_mm"], 1e-5, name, "bridges that hold a piece")
    slits = []
    for a, b in pairs:
        d = math.dist(a, b)
        ux, uy = (b[0] - a[0]) / d * 1e-3, (b[1] - a[1]) / d * 1e-3
        line = LineString([(a[0] - ux, a[1] - uy), (b[0] + ux, b[1] + uy)])
        slits.append(line.buffer(2e-4, 1))
        v.check(metal.buffer(1e-3).covers(LineString([a, b])), name, f"the bridge {a}, {b} does not lie on metal")
    area = piece["area_mm2"]
    pieces = [p.area for p in parts(metal.difference(unary_union(slits)))]
    nearest = min(pieces, key=lambda p: abs(p - area))
    v.near(nearest, area, CLOSE, name, "metal of a piece")


MOST = 200         # tongues that are judged of one band


def judge(v, name, report, loops, outline, closed):
    weakness = report["weakness"]
    tongues = [t for t in weakness["tongues"] if t["opening"] > 0 and t["length_mm"] > t["root_mm"]]
    if tongues:
        openings = [polygon(l) for l in loops]
        width = max(2 * report["thickness_mm"], report["bridge_rule_mm"])
        for t in tongues[:MOST]:
            tongue(v, name, t, openings, width)
    pieces = weakness["held_pieces"]
    if pieces and not closed:  # of a closed one a piece may lie over the ends
        metal = polygon(outline).difference(unary_union([polygon(l) for l in loops]))
        for piece in pieces:
            held(v, name, piece, metal)
