#!/usr/bin/python3
"""Judge of the kerf: the cut files with the kerf allowed for against GEOS's own
parallel curves of those without. Usage: kerf.py FOLDER KERF_FOLDER KERF

The middle of the beam has to run half the kerf inside the finished edge of each
opening, and half the kerf outside that of the blank.
"""
import os
import sys

import shapely
from shapely.geometry import Polygon, box

import files

CHORD = 1e-5    # mm, of the flattened arcs; at a sharp tip the error grows tenfold
ALLOWED = 5e-4  # mm between the two edges: chords of both, and of GEOS's round joins


def apart(a, b):
    """Whether a and b differ by more than ALLOWED anywhere."""
    return not (a.buffer(ALLOWED, 8).contains(b) and b.buffer(ALLOWED, 8).contains(a))


def main():
    folder, kerf_folder, kerf = sys.argv[1], sys.argv[2], float(sys.argv[3])
    v = files.Verdict("kerf (Shapely " + shapely.__version__ + ")")
    parts = sorted(f[:-4] for f in os.listdir(kerf_folder) if f.endswith(".dxf"))
    for name in parts:
        doc, cut, cut_outline = files.read_dxf(os.path.join(kerf_folder, name + ".dxf"))
        _, edge, edge_outline = files.read_dxf(os.path.join(folder, name + ".dxf"))
        words = files.comments(os.path.join(kerf_folder, name + ".dxf"))
        v.check(f"{kerf:g} mm, already allowed for" in words, name, "the file does not tell its kerf")
        if not v.check(len(cut) == len(edge), name, f"{len(cut)} openings with kerf, {len(edge)} without"):
            continue
        wrong = 0
        for a, b in zip(cut, edge):
            b = Polygon(files.flatten(b, CHORD)).buffer(-kerf / 2, 64)
            wrong += apart(Polygon(files.flatten(a, CHORD)), b)
        v.check(not wrong, name, f"{wrong} openings are not the edge moved in by half the kerf")
        a, b = (Polygon(files.flatten(l[0], CHORD)) for l in (cut_outline, edge_outline))
        x0, y0, x1, y1 = b.bounds
        b = b.buffer(kerf / 2, 64)
        if files.seamless(folder, name):  # not cut at its ends
            b = b.intersection(box(x0, y0 - 1, x1, y1 + 1))
        v.check(not apart(a, b), name, "the outline is not the edge moved out by half the kerf")
    v.end(len(parts))


main()
