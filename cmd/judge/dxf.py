#!/usr/bin/python3
"""Judge of the DXF files: read by ezdxf. Usage: dxf.py FOLDER"""
import math
import os
import sys

import files

LAYERS = {"0", "OPENINGS", "OUTLINE"}
MARGIN = 5  # mm, round a part that no sheet was given for


def judge(v, folder, name):
    report = files.load(folder, name, "report")
    path = os.path.join(folder, name + ".dxf")
    doc, openings, outline = files.read_dxf(path)
    audit = doc.audit()
    v.check(not audit.errors and not audit.fixes, name, f"audit: {audit.errors} {audit.fixes}")
    v.check(doc.dxfversion == "AC1015", name, f"version {doc.dxfversion}")
    v.check(doc.header["$INSUNITS"] == 4 and doc.header["$MEASUREMENT"] == 1, name, "units are not mm")
    layers = {l.dxf.name for l in doc.layers} - {"Defpoints"}  # ezdxf adds that one
    marked = report["marks"] > 0
    v.check(layers - files.MARKS == LAYERS and bool(layers & files.MARKS) == bool(marked), name, f"layers {layers}")
    v.check(all(doc.layers.get(m).color == 8 for m in layers & files.MARKS), name, "marks have the colour of what is cut")
    v.check(all(l.color == 7 and l.is_on() for l in doc.layers if l.dxf.name in LAYERS), name, "a layer is not in the default colour")

    space = doc.modelspace()
    kinds = {e.dxftype() for e in space}
    v.check(kinds <= ({"LWPOLYLINE", "LINE"} if marked else {"LWPOLYLINE"}), name, f"entities {kinds}")
    v.check(all(e.dxf.layer in files.MARKS for e in space.query("LINE")), name, "an open line on a layer that is cut")
    v.check(all(e.dxf.color == 256 and e.dxf.linetype.upper() == "BYLAYER" for e in space), name, "colour or line type is not the layer's")
    lines = [p for p in space.query("LWPOLYLINE") if p.dxf.layer not in files.MARKS]
    v.check(all(p.closed for p in lines), name, "a line is not closed")
    v.check([p.dxf.layer for p in lines] == ["OPENINGS"] * len(openings) + ["OUTLINE"] * len(outline), name, "openings do not come before the outline")
    v.check(len(openings) == report["openings"] and len(outline) == 1, name, f"{len(openings)} openings, {len(outline)} outlines")

    # The header's extents are the sheet's: the box of all that is drawn and the margin.
    drawn = openings + outline + [vs for vs, _ in files.read_marks(doc)]
    xs, ys = zip(*(p for loop in drawn for p in files.flatten(loop, 1e-6)))
    for key, want in (("$EXTMIN", (min(xs) - MARGIN, min(ys) - MARGIN)), ("$EXTMAX", (max(xs) + MARGIN, max(ys) + MARGIN))):
        v.check(math.dist(doc.header[key][:2], want) < 1e-4, name, f"{key} is {doc.header[key]}, the sheet's corner lies at {want}")
    words = files.comments(path)
    for word in ("Kerf:", "Process:", "Units: millimetres", "class 4", "cadmium", "estimates"):
        v.check(word in words, name, f"the comments say nothing of {word!r}")

    v.check(all(files.area(o) < 0 for o in openings) and files.area(outline[0]) > 0, name, "the metal does not lie on the left of every cut")
    v.near(-sum(map(files.area, openings)), report["removed_area_mm2"], 1e-6, name, "removed area")
    v.near(sum(map(files.area, outline)), report["blank_area_mm2"], 1e-6, name, "blank area")
    # A seamless band is not cut at its ends, though the drawing closes there.
    ends = report["blank_length_mm"] / 2 if files.seamless(folder, name) else None
    cut = sum(map(files.length, openings)) + sum(files.length(l, ends) for l in outline)
    # Tips between lines whose end is too short to be cut (a thousandth of a millimetre)
    # are cut off a little lower, some hundredths where they are needles.
    v.near(cut, report["cut_length_mm"], 3e-6, name, "length of cut")

    # What is engraved is counted apart, by the design's own list, and by its length.
    design = files.load(folder, name, "design")
    v.check(report["marks"] == len(design.get("marks") or []), name, f"{report['marks']} marks in the report")
    engraved = sum(map(files.line_length, files.read_marks(doc)))
    if marked:
        v.near(engraved, report["marks_length_mm"], 1e-6, name, "length of marks")
        v.check("do not cut" in words and all(m in words for m in layers & files.MARKS), name, "the comments do not say that marks are not cut")


def main():
    folder = sys.argv[1]
    v = files.Verdict("dxf (ezdxf " + files.ezdxf.__version__ + ")")
    all_names = files.names(folder)
    for name in all_names:
        judge(v, folder, name)
    v.end(len(all_names))


main()
