#!/usr/bin/python3
"""Judge of the profiles of cut files: DXF of release 2000 and 12 with arcs, and of
release 12 in chords, read by ezdxf; chords against arcs by Shapely; SVG in chords.
Usage: profiles.py FOLDER CHORD

FOLDER holds arcs/, arcs-r12/ and chords/, each with NAME.dxf and NAME.svg as written
by fretcut make -curves ..., the chords with -chord CHORD (mm), and in arcs/ also
NAME.report.json and NAME.design.json.
"""
import math
import os
import re
import sys
import xml.etree.ElementTree as ET

import ezdxf
from shapely.geometry import LineString, Polygon

import files

RELEASE = {"arcs": "AC1015", "arcs-r12": "AC1009", "chords": "AC1009"}
KIND = {"arcs": "LWPOLYLINE", "arcs-r12": "POLYLINE", "chords": "POLYLINE"}
CUT = ("OPENINGS", "OUTLINE")
FINE = 1e-5  # mm: how near arcs are followed where they are compared with chords


def line(entity):
    """The vertices of a polyline of either release."""
    if entity.dxftype() == "LWPOLYLINE":
        return files.vertices(entity)
    return [tuple(x.format("xyb")) for x in entity.vertices]


def read(v, folder, name, profile):
    """The cut lines of a file in order, as (layer, vertices)."""
    path = os.path.join(folder, profile, name + ".dxf")
    label = f"{name}, {profile}"
    doc = ezdxf.readfile(path)
    audit = doc.audit()
    v.check(not audit.errors and not audit.fixes, label, f"audit: {audit.errors} {audit.fixes}")
    v.check(doc.dxfversion == RELEASE[profile], label, f"release {doc.dxfversion}")
    space = list(doc.modelspace())
    cut = [e for e in space if e.dxf.layer in CUT]
    v.check({e.dxftype() for e in cut} == {KIND[profile]}, label, f"cut lines are {({e.dxftype() for e in cut})}")
    v.check({e.dxftype() for e in space} <= {KIND[profile], "LINE"}, label, f"entities {({e.dxftype() for e in space})}")
    v.check(all(e.is_closed for e in cut), label, "a line is not closed")
    v.check(all(l.color == (8 if l.dxf.name in files.MARKS else 7) for l in doc.layers if l.dxf.name != "Defpoints"), label, "colours of layers")
    v.check("Units: millimetres" in files.comments(path), label, "no comment on the units")
    with open(path, "rb") as f:
        data = f.read()
    v.check(max(data) < 0x7F, label, "not seven-bit")
    if profile == "arcs":
        v.check(doc.header["$INSUNITS"] == 4, label, "units of the header")
    else:
        # What release 12 does not know.
        v.check(b"\\U+" not in data and b"LWPOLYLINE" not in data and b"AcDb" not in data, label, "holds what release 12 does not know")
        v.check(all(re.fullmatch(r"[A-Z0-9$_-]{1,31}", l.dxf.name) for l in doc.layers if l.dxf.name != "Defpoints"), label, "names of layers")
    return [(e.dxf.layer, line(e)) for e in cut]


def judge_chords(v, name, arcs, chords, chord, report):
    worst = 0.0
    bulges = 0
    for (_, a), (_, c) in zip(arcs, chords):
        bulges += sum(1 for p in c if p[2])
        fine = Polygon(files.flatten(a, FINE))
        rough = Polygon([p[:2] for p in c])
        if not v.check(rough.is_valid, name, "a line in chords crosses itself"):
            continue
        # The discrete distance looks from the vertices of either line to the other
        # line: those of the arcs lie close, those of the chords lie on the arcs. (Of
        # rings GEOS gives the distance of vertices from vertices.)
        worst = max(worst, LineString(fine.exterior.coords).hausdorff_distance(LineString(rough.exterior.coords)))
    v.check(bulges == 0, name, f"chords: {bulges} arcs")
    v.worst("chords from arcs, mm", worst)
    v.check(worst <= chord + FINE, name, f"chords are up to {worst:.6f} mm from the arcs, {chord} mm were asked for")
    # Chords lie on the hollow side by the tolerance at most.
    area = -sum(files.area(l) for layer, l in chords if layer == "OPENINGS")
    v.check(abs(area - report["removed_area_mm2"]) <= chord * report["cut_length_mm"], name, f"chords: openings of {area} mm2, the report counts {report['removed_area_mm2']}")


def judge_svg(v, folder, name, chords):
    root = ET.parse(os.path.join(folder, "chords", name + ".svg")).getroot()
    paths = [p for p in root.iter(files.SVG + "path") if not p.get("id").startswith("mark-")]
    v.check(all(set(re.findall("[A-Za-z]", p.get("d"))) <= set("MLZ") for p in root.iter(files.SVG + "path")), name, "chords: the SVG holds curves")
    if not v.check(len(paths) == len(chords), name, f"chords: {len(paths)} lines in the SVG, {len(chords)} in the DXF"):
        return
    shift = None
    worst = 0.0
    for p, (_, c) in zip(paths, chords):
        n = [float(x) for x in re.findall(r"-?[0-9.]+", p.get("d"))]
        points = list(zip(n[::2], n[1::2]))
        if not v.check(len(points) == len(c), name, f"{p.get('id')}: {len(points)} vertices in the SVG, {len(c)} in the DXF"):
            return
        for (x, y), (cx, cy, _) in zip(points, c):
            shift = shift or (x - cx, y + cy)
            worst = max(worst, abs(x - cx - shift[0]), abs(y + cy - shift[1]))
    v.worst("SVG from DXF, mm", worst)
    v.check(worst < 1e-8, name, f"the SVG in chords is up to {worst} mm from the DXF")


def judge(v, folder, name, chord):
    report = files.load(os.path.join(folder, "arcs"), name, "report")
    arcs, old, chords = (read(v, folder, name, p) for p in ("arcs", "arcs-r12", "chords"))
    for profile, lines in (("arcs", arcs), ("arcs-r12", old), ("chords", chords)):
        label = f"{name}, {profile}"
        v.check([l for l, _ in lines] == ["OPENINGS"] * report["openings"] + ["OUTLINE"], label, f"{len(lines)} lines, out of order")
        v.check(all((files.area(l) < 0) == (layer == "OPENINGS") for layer, l in lines), label, "the metal does not lie on the left of every cut")
    v.near(-sum(files.area(l) for layer, l in old if layer == "OPENINGS"), report["removed_area_mm2"], 1e-6, name, "removed area, release 12")
    same = len(arcs) == len(old) and all(len(a) == len(b) and all(math.dist(p, q) < 1e-9 for p, q in zip(a, b)) for (_, a), (_, b) in zip(arcs, old))
    v.check(same, name, "release 12 does not hold the lines of release 2000")
    if v.check(len(arcs) == len(chords), name, "chords: another count of lines"):
        judge_chords(v, name, arcs, chords, chord, report)
        judge_svg(v, folder, name, chords)


def main():
    folder, chord = sys.argv[1], float(sys.argv[2])
    v = files.Verdict("profiles (ezdxf " + ezdxf.__version__ + ", Shapely)")
    all_names = files.names(os.path.join(folder, "arcs"))
    for name in all_names:
        judge(v, folder, name, chord)
    v.end(len(all_names), f"Chords within {chord} mm.")


main()
