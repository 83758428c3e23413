#!/usr/bin/python3
"""Judge of fields' areas: every opening of the DXF lies in the area of one field,
half that field's bridge from the area's edge, clear of earlier fields' areas, and the
wider of two fields' bridges from the openings of others. Areas are worked out from the
design's numbers, distances by Shapely and GEOS. Usage: areas.py FOLDER

An opening belongs to the first field whose area it lies in. Flared bands, on which
runs and strips follow the arc, and designs edited by hand are passed over.
"""
import os
import sys

import shapely
from shapely.affinity import translate
from shapely.geometry import Polygon, box
from shapely.ops import unary_union
from shapely.prepared import prep

import files
import kept

ERROR = 1e-4     # mm, chords
ALLOWED = 0.002  # mm under the rule: the project's own promise
FAR = 1e4        # mm, past any blank


def area(field, length, closed):
    """The area of a field on all turns, None for the whole band."""
    a = field.get("area") or {}
    kind = a.get("shape", "")
    if kind == "":
        return None
    if kind == "strip":
        return box(-FAR, a.get("from_mm", 0), FAR, a.get("to_mm", 0))
    if kind == "run":
        g = box(a.get("from_mm", 0), -FAR, a.get("to_mm", 0), FAR)
    else:
        g = kept.turned(kept.shape(a), a.get("turn_deg", 0), a.get("x_mm", 0), a.get("y_mm", 0))
    turns = range(-6, 7) if closed else (0,)
    return unary_union([translate(g, k * length) for k in turns])


def judge(v, folder, name):
    design = files.load(folder, name, "design")
    band, fields = design["band"], design["fields"]
    if kept.flare(band) or design.get("edits"):
        return 0
    rule = design["rules"]["bridge_mm"]
    length = files.load(folder, name, "report")["blank_length_mm"]
    closed = files.comes_round(folder, name)
    bridges = [max(rule, f.get("bridge_mm", 0)) for f in fields]
    areas = [area(f, length, closed) for f in fields]
    inside = [g and prep(g) for g in areas]
    edges = [g and g.boundary for g in areas]

    _, loops, _ = files.read_dxf(os.path.join(folder, name + ".dxf"))
    found = []
    for n, l in enumerate(loops, 1):
        g = Polygon(files.flatten(l, ERROR))
        of = next((i for i, p in enumerate(inside) if p is None or p.contains(g.representative_point())), None)
        if not v.check(of is not None, name, f"opening {n} lies in no field's area"):
            continue
        if areas[of] is not None:
            d = g.distance(edges[of])
            v.check(d >= bridges[of] / 2 - ALLOWED, name, f"opening {n} is {d:.4f} mm from the edge of field {of + 1}, bridge {bridges[of]}")
        for j in range(of):
            d = g.distance(areas[j])
            want = max(bridges[j], bridges[of]) - bridges[j] / 2
            v.check(d >= want - ALLOWED, name, f"opening {n} of field {of + 1} is {d:.4f} mm from the area of field {j + 1}, least {want}")
        found.append((n, of, g))
    turns = (-length, 0, length) if closed else (0,)
    for k, (n, of, g) in enumerate(found):
        for m, other, h in found[:k]:
            want = max(bridges[of], bridges[other])
            if of == other:
                continue
            for dx in turns:
                a, b = g.bounds, h.bounds
                if a[0] - want > b[2] + dx or b[0] + dx - want > a[2] or a[1] - want > b[3] or b[1] - want > a[3]:
                    continue
                d = g.distance(translate(h, dx))
                v.check(d >= want - ALLOWED, name, f"openings {n} and {m} of fields {of + 1} and {other + 1} are {d:.4f} mm apart, wider bridge {want}")
    return len(fields)


def main():
    folder = sys.argv[1]
    v = files.Verdict(f"areas (Shapely {shapely.__version__})")
    counts = [judge(v, folder, name) for name in files.names(folder)]
    v.end(len(counts), f"{sum(1 for c in counts if c)} judged, with {sum(counts)} fields")


main()
