"""Judges the bent form: the length and height of each blank, the weight of plain
bands, and where the corners of the solids lie, from the numbers of the design alone. Usage: bent.py FOLDER

The inside is drawn here as a curve of many points (closed forms for ellipse, lines
and arcs; the sizes of rings by their published rules), its parallel curves by the
normals. From that come
  - the blank's length: that of the parallel curve at the depth of the surface that
    is drawn, between the places where the inner face leaves room for the gap;
  - the two faces: a cylinder over the curve, a cone, or the curve with an arc swept
    along it. Walls stand between the faces, so every corner of a solid lies on one
    of them. Sheet that is bent keeps its volume, so it is a little thinner where
    the neutral surface is not half way.
The blank of a domed band is drawn as long as its middle line, and as high as the
integral across the arc that its way of flattening asks for. Plain bands of one
width with square ends, round inside, are bodies of revolution: their weight is the
section times the way of its centre (Pappus and Guldin), or, if cut flat, the blank's.
"""
import math
import os
import sys

import numpy as np
import stl

from files import Verdict, load, names

STEPS = 20000      # of the curve: its chords are within a micron / 10
LENGTH = 1e-6      # of the blank's length, relative
ON_FACE = 2e-5     # mm: float32 in the file, and the chords here
ROUND = {
    "iso": lambda s: float(s),
    "us": lambda s: math.pi * 25.4 * (0.458 + 0.032 * float(s)),
    "uk": lambda s: 37.5 + 1.25 * (ord(s) - ord("A")),
    "jp": lambda s: math.pi * (float(s) + 38) / 3,
    "it": lambda s: 40 + float(s),
    "bangle": lambda s: math.pi * 25.4 * (float(s.split("-")[0]) + float(s.split("-")[1]) / 16),
}


def ellipse(a, b):
    """Points and outward normals from the top, turning towards -x."""
    u = np.linspace(0, 2 * np.pi, STEPS + 1)
    p = np.stack([-a * np.sin(u), b * np.cos(u)], axis=1)
    n = np.stack([-b * np.sin(u), a * np.cos(u)], axis=1)
    return p, n / np.linalg.norm(n, axis=1)[:, None]


def pieces(list_):
    """The same of lines (length, 0) and arcs (radius, angle) from the top."""
    at, heading = np.zeros(2), np.pi
    points, normals = [], []
    for long, turn in list_:
        n = max(2, STEPS // len(list_))
        t = np.linspace(0, 1, n + 1)
        if turn == 0:
            way = np.stack([np.cos(heading) * long * t, np.sin(heading) * long * t], axis=1)
            angle = np.full(n + 1, heading)
        else:
            angle = heading + turn * t
            r = long * math.copysign(1, turn)
            way = r * np.stack([np.sin(angle) - np.sin(heading), np.cos(heading) - np.cos(angle)], axis=1)
        points.append(at + way)
        normals.append(np.stack([np.sin(angle), -np.cos(angle)], axis=1))
        at, heading = at + way[-1], heading + turn
    p, n = np.concatenate(points), np.concatenate(normals)
    return p - (p.min(axis=0) + p.max(axis=0)) / 2, n


def inside(band):
    """Points and normals of the inner face, and its radius if it is round."""
    i = band["inside"]
    by = i["by"]
    if by == "sides":
        w, h = i["width_mm"], i["height_mm"]
        r, long = min(w, h) / 2, abs(w - h)
        if w >= h:
            return (*pieces([(long / 2, 0), (r, math.pi), (long, 0), (r, math.pi), (long / 2, 0)]), None)
        return (*pieces([(r, math.pi / 2), (long, 0), (r, math.pi), (long, 0), (r, math.pi / 2)]), None)
    if by == "profile":
        return (*pieces([(p["length_mm"], 0) if "length_mm" in p else (p["radius_mm"], math.radians(p["angle_deg"]))
                         for p in i["profile"]]), None)
    if by == "axes":
        a, b = i["width_mm"] / 2, i["height_mm"] / 2
    elif by == "edges":
        a = b = (i["top_circumference_mm"] + i["bottom_circumference_mm"]) / 4 / math.pi
    elif by == "size":
        a = b = ROUND[i["scale"]](i["size"]) / 2 / math.pi
    else:
        around = i["circumference_mm"] if by == "circumference" else i["wrist_mm"] + i.get("ease_mm", 0)
        p, _ = ellipse(i["ratio"], 1)
        k = around / length(p)[-1]
        a, b = i["ratio"] * k, k
    return (*ellipse(a, b), a if a == b else None)


def length(p):
    """The length along a curve up to each of its points, by chords."""
    return np.concatenate([[0], np.cumsum(np.linalg.norm(np.diff(p, axis=0), axis=1))])


def flare(band):
    i = band["inside"]
    if i["by"] == "edges":
        return math.asin((i["top_circumference_mm"] - i["bottom_circumference_mm"]) / 2 / math.pi / band["width_mm"])
    return math.radians(band.get("flare_deg", 0))


def depth(band, t):
    """Of the surface that is drawn, under it the inner face."""
    if band.get("making") == "formed" and band.get("drawn") in ("inner", "outer"):
        return t if band["drawn"] == "outer" else 0.0
    return band["neutral_k"] * t


def judge_length(v, name, band, report, curve):
    p, n, _ = curve
    d = depth(band, report["thickness_mm"]) * math.cos(flare(band))
    s, drawn = length(p), length(p + d * n)
    want = drawn[-1]
    if band["kind"] == "cuff":
        gap = band.get("gap_mm", 0) + band.get("gap_share", 0) * s[-1]
        # The gap is centred at the back: where the drawn surface is half way round.
        half = drawn[-1] / 2
        lo, hi = 0.0, half
        for _ in range(60):
            x = (lo + hi) / 2
            a, b = np.interp([half - x, half + x], drawn, s)
            lo, hi = (x, hi) if b - a < gap else (lo, x)
        want -= 2 * lo
    v.near(report["blank_length_mm"], want, LENGTH, name, "length of the blank")


def curvature(p, n):
    """Of the curve at its points: the turn of the normal by the length."""
    turn = np.arctan2(n[:-1, 0] * n[1:, 1] - n[:-1, 1] * n[1:, 0], (n[:-1] * n[1:]).sum(axis=1))
    long = np.linalg.norm(np.diff(p, axis=0), axis=1)
    return turn, long


def heights(band, report, curve, points):
    """How high each corner lies over the inner face, and how high the outer face is
    there."""
    p, n, r = curve
    t, a = report["thickness_mm"], flare(band)
    d = depth(band, t)
    keep = band.get("making") != "formed" and not band.get("dome")
    rho = np.hypot(points[:, 0], points[:, 1])
    if a:
        # The inner face's middle stands at r from the axis; z is counted from the
        # middle of the drawn surface, d along the normal from it.
        z = points[:, 2] - d * math.sin(a)
        h = (rho - r) * math.cos(a) - z * math.sin(a)
        out = r + ((rho - r) * math.sin(a) + z * math.cos(a)) * math.sin(a)  # foot on the inner face
        k = math.cos(a) / (out + d * math.cos(a))
    elif r is not None:
        h, k = rho - r, np.full(len(points), 1 / (r + d))
    else:
        h, k = np.empty(len(points)), np.empty(len(points))
        turn, long = curvature(p, n)
        way = np.diff(p, axis=0)
        for i in range(0, len(points), 200):
            q = points[i:i + 200, None, :2] - p[None, :-1]
            near = np.argmin((q ** 2).sum(axis=2), axis=1)
            for j, c in enumerate(near):
                best = None
                for e in (c - 1, c):  # the chords before and after the nearest point
                    e %= len(way)
                    if long[e] < 1e-12:
                        continue
                    w = points[i + j, :2] - p[e]
                    f = min(1, max(0, (w @ way[e]) / long[e] ** 2))
                    m = n[e] * (1 - f) + n[(e + 1) % len(n)] * f
                    x = w - f * way[e]
                    if best is None or x @ x < best[0]:
                        best = (x @ x, x @ m / np.linalg.norm(m), turn[e] / long[e])
                _, h[i + j], k[i + j] = best
        k = k / (1 + k * d)
    if band.get("dome"):
        # An arc about a centre that lies the radius in from the drawn surface.
        radius = report_radius(band) * (1 if band["dome"] == "outward" else -1)
        from_centre = np.hypot(h - d + radius, points[:, 2])
        h = (from_centre - abs(radius)) * math.copysign(1, radius) + d
    if not keep:
        return h, np.full(len(points), t)
    # t' (1 - k d) + k t'^2 / 2 = t
    b = 1 - k * d
    return h, 2 * t / (b + np.sqrt(b * b + 2 * k * t))


def report_radius(band):
    """The radius of the section's arc: given, or by its rise over the width."""
    if band.get("dome_radius_mm"):
        return band["dome_radius_mm"]
    half, rise = band["width_mm"] / 2, band["dome_rise_mm"]
    lo, hi = half / math.pi, 1e5
    for _ in range(200):
        r = (lo + hi) / 2
        lo, hi = (r, hi) if r * (1 - math.cos(half / r)) > rise else (lo, r)
    return r


GAUSS = np.polynomial.legendre.leggauss(60)


def integral(f, a, b):
    return float((GAUSS[1] * f((a + b) / 2 + (b - a) / 2 * GAUSS[0])).sum() * (b - a) / 2)


def judge_plain(v, name, band, report, curve):
    """The height of the blank of a band of one width; and its weight before piercing, if
    it is round inside with square ends."""
    w, t, (p, n, r) = band["width_mm"], report["thickness_mm"], curve
    if band["end_width_mm"] != w or band.get("top_edge") or band.get("bottom_edge"):
        return
    a, d = flare(band), depth(band, t)
    high, radius = w, None
    if band.get("dome"):
        radius = report_radius(band) * (1 if band["dome"] == "outward" else -1)
        k = 2 * math.pi / length(p + d * n)[-1]
        factor = lambda s: 1 - k * radius * (1 - np.cos(s / radius))
        high = {"arc-length": w,
                "equal-area": integral(factor, -w / 2, w / 2),
                "conformal": integral(lambda s: 1 / factor(s), -w / 2, w / 2)}[band["dome_flat"]]
    v.near(report["blank_width_mm"], high, 1e-7, name, "height of the blank")
    square = band["kind"] != "cuff" or not (band.get("end_corner_mm") or band.get("end_shape"))
    if r is None or not square:
        return
    drawn = r + d * math.cos(a)
    turn = report["blank_length_mm"] / drawn
    v.near(report["blank_area_mm2"], report["blank_length_mm"] * high, 1e-6, name, "area of a plain blank")
    if radius is None and band.get("making") != "formed":
        volume = report["blank_length_mm"] * w * t
    elif radius is None:
        volume = turn * integral(lambda h: w * (drawn + h * math.cos(a)), -d, t - d)
    else:
        volume = turn * integral(lambda h: np.array([integral(
            lambda s: (drawn - radius + (radius + q) * np.cos(s / radius)) * (radius + q) / radius, -w / 2, w / 2) for q in h]), -d, t - d)
    v.near(report["plain_g"], volume * report["density_g_cm3"] / 1000, 1e-6, name, "weight of a plain band")


def judge_faces(v, name, band, report, curve, path):
    mesh = stl.mesh.Mesh.from_file(path, mode=stl.Mode.BINARY)
    points = np.unique(mesh.vectors.reshape(-1, 3), axis=0).astype(float)
    points = points[:: max(1, len(points) // 2000)]
    h, t = heights(band, report, curve, points)
    off = np.minimum(np.abs(h), np.abs(h - t))
    if band["inside"]["by"] in ("sides", "profile"):
        off = np.sort(off)[: int(0.99 * len(off))]  # where the curve's bend jumps, so does the sheet's thickness
    v.worst("corners off the faces (mm)", float(off.max()))
    v.check(off.max() <= ON_FACE, name, f"a corner of the solid is {off.max():.5f} mm off both faces")


def main():
    folder = sys.argv[1]
    v = Verdict("bent")
    solids = 0
    for name in names(folder):
        band, report = load(folder, name, "design")["band"], load(folder, name, "report")
        curve = inside(band)
        judge_length(v, name, band, report, curve)
        judge_plain(v, name, band, report, curve)
        path = os.path.join(folder, name + ".stl")
        if os.path.exists(path):
            solids += 1
            judge_faces(v, name, band, report, curve, path)
    v.end(len(names(folder)), f"Solids: {solids}")


main()
