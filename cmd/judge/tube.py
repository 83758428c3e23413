#!/usr/bin/python3
"""Judge of files for a machine that cuts bands from tube: read by ezdxf and by the published
grammar of SVG, rolled up, and measured by Shapely. Usage:

    tube.py FOLDER [-tabs N] [-lead MM]
    tube.py -seamless FILE <DESIGN      writes a design that closes as a seamless one

The folder holds NAME-laser-tube.dxf and .svg as written by fretcut make -for laser, and
NAME.report.json and NAME.design.json.
"""
import argparse
import copy
import json
import math
import os
import sys

import numpy as np
import shapely
from shapely.affinity import translate
from shapely.geometry import Polygon

import cutsheet
import files

NEAR = 1e-5  # mm


def turn_of(report, design):
    """Once round at the neutral depth, k times the thickness t over the inside: 2 pi k t more than
    the inner circumference, whatever the oval (a parallel curve; Steiner's formula in the plane).
    A size of ISO 8653 is that circumference in mm."""
    band = design["band"]
    inside = band["inside"]
    deep = 2 * math.pi * band.get("neutral_k", 0.5) * report["thickness_mm"]
    if inside["by"] == "circumference":
        return inside["circumference_mm"] + deep, "by Steiner's formula"
    if inside["by"] == "size" and inside["scale"] == "iso":
        return float(inside["size"]) + deep, "by ISO 8653 and Steiner's formula"
    if inside["by"] == "axes":
        a, b = inside["width_mm"] / 2, inside["height_mm"] / 2
        t = np.linspace(0, 2 * math.pi, 20001)[:-1]  # the mean of a period: exact to rounding
        return float(np.mean(np.hypot(a * np.sin(t), b * np.cos(t)))) * 2 * math.pi + deep, "by the ellipse's integral and Steiner's formula"
    return report["blank_length_mm"], "the report's"


def judge(v, name, lines, report, design, o):
    turn, whence = turn_of(report, design)
    v.near(report["blank_length_mm"], turn, 1e-6, name, f"once round, {whence}")
    edges = [l for l in lines if l.layer == "OUTLINE"]
    loops = []
    for l in lines:
        if l.layer != "OPENINGS":
            continue
        vs = l.vs[1:] if o.lead else l.vs
        whole = math.dist(vs[0][:2], vs[-1][:2]) < NEAR if o.lead else l.closed
        v.check(whole, name, "an opening is not cut all round")
        loops.append(vs[:-1] if o.lead else vs)
    # Openings are whole, each once, also where they run over the ends of the drawing.
    v.check(len(loops) == report["openings"], name, f"{len(loops)} openings, the report has {report['openings']}")
    v.near(sum(-files.area(vs) for vs in loops), report["removed_area_mm2"], 1e-6, name, "openings' area on the unrolled tube")
    polygons = [Polygon(files.flatten(vs, cutsheet.FINE)) for vs in loops]
    every = [translate(p, way) for p in polygons for way in (-turn, 0, turn)]
    bounds = np.array([p.bounds for p in every])
    for p in polygons:
        x0, y0, x1, y1 = p.bounds
        near = np.nonzero((bounds[:, 0] < x1) & (bounds[:, 2] > x0) & (bounds[:, 1] < y1) & (bounds[:, 3] > y0))[0]
        on = [i for i in near if p.intersection(every[i]).area > 1e-9]
        v.check(len(on) == 1, name, "an opening lies on another, or on itself once round")
    if not v.check(len(edges) == 2 + o.tabs, name, f"the edges are cut in {len(edges)} lines, not in {2 + o.tabs}"):
        return 0
    # Each edge goes once round but for its tabs: one to the right, the other back.
    way = {1: 0.0, -1: 0.0}
    ys = []
    for l in edges:
        vs = l.vs[1:] if o.lead else l.vs
        v.check(not l.closed, name, "an edge is closed: it is cut at the ends of the drawing")
        v.check(all(abs(a[0] - b[0]) > NEAR for a, b in zip(vs, vs[1:])), name, "something is cut along the tube")
        by = vs[-1][0] - vs[0][0]
        way[1 if by > 0 else -1] += abs(by)
        ys += [y for _, y, _ in vs]
        if by > 0:
            v.check(max(y for _, y, _ in vs) < min(p.bounds[1] for p in polygons), name, "the metal does not lie on the left of the lower edge")
    for sign, tabs in ((1, o.tabs - o.tabs // 2), (-1, o.tabs // 2)):
        v.near(way[sign] + tabs * o.tab_width, turn, 1e-7, name, "way of an edge round the tube, with its tabs")
    v.check(all(min(ys) < p.bounds[1] and p.bounds[3] < max(ys) for p in polygons), name, "an opening runs over an edge of the band")
    left = min(x for l in edges for x, _, _ in l.vs)
    return sum(p.bounds[0] < left - NEAR or p.bounds[2] > left + turn + NEAR for p in polygons)


def main():
    if sys.argv[1] == "-seamless":
        seamless(sys.argv[2])
    a = argparse.ArgumentParser(prefix_chars="-", allow_abbrev=False)
    a.add_argument("folder")
    a.add_argument("-tabs", type=int, default=0)
    a.add_argument("-tab-width", type=float, default=0.4)
    a.add_argument("-lead", type=float, default=0)
    o = a.parse_args()
    v = files.Verdict("tubes (ezdxf " + files.ezdxf.__version__ + ", Shapely " + shapely.__version__ + ")")
    names, crossing = files.names(o.folder), 0
    for name in names:
        report, design = (files.load(o.folder, name, kind) for kind in ("report", "design"))
        for end, read in (("dxf", cutsheet.read_dxf), ("svg", cutsheet.read_svg)):
            path = os.path.join(o.folder, f"{name}-laser-tube.{end}")
            lines = read(path)
            crossing += judge(v, os.path.basename(path), lines, report, design, o)
            opening, edge = (next(i for i, l in enumerate(lines) if l.layer == layer) for layer in ("OPENINGS", "OUTLINE"))
            for what, spoil in {
                "an opening left out": lambda ls: ls.pop(opening),
                "an opening twice, once round": lambda ls: ls.insert(opening, moved(ls[opening], report["blank_length_mm"])),
                "an edge cut short": lambda ls: ls[edge].vs.pop(),
                "an edge that runs over the end": lambda ls: ls[edge].vs.append((ls[edge].vs[-1][0], ls[edge].vs[-1][1] + 2, 0)),
                "half the turn": lambda ls: [setattr(l, "vs", [(x / 2, y, b) for x, y, b in l.vs]) for l in ls],
            }.items():
                bad = copy.deepcopy(lines)
                spoil(bad)
                quiet = cutsheet.Quiet("spoilt")
                judge(quiet, name, bad, report, design, o)
                v.check(quiet.bad > 0, name, f"spoilt by {what}, it passes")
    v.check(crossing > 0, "all", "no opening runs over the ends of a drawing")
    v.end(2 * len(names), f"{crossing} openings over the ends of the drawings, each whole and once")


def seamless(path):
    """Writes the design on standard input as a seamless band; 1 if it is none that closes plainly."""
    design = json.load(sys.stdin)
    band = design["band"]
    if band["kind"] == "cuff" or band.get("dome_rise_mm") or band.get("flare_deg") or band.get("making") == "formed":
        sys.exit(1)
    band["joint"] = "seamless"
    band.pop("joint_mm", None)
    design["fretband"] = 2
    with open(path, "w", encoding="utf-8") as f:
        json.dump(design, f)
    sys.exit(0)


def moved(line, by):
    line = copy.deepcopy(line)
    line.move(by, 0)
    return line


main()
