"""What a design keeps solid and what it engraves, worked out from its numbers alone:
ellipses, boxes and paths by points, rows by their spacing, on a flared band about the
apex of its cone."""
import math
import re

import numpy as np
from shapely.affinity import affine_transform
from shapely.geometry import LineString, MultiLineString, Polygon

POINTS = 2000  # of an ellipse; 200 of a cubic


def chains(path):
    """The curves of path data in M, L, C and Z, y up."""
    out, at = [], None
    for cmd, args in re.findall(r"([MLCZ])([^MLCZ]*)", path):
        n = [float(a) for a in args.split()]
        p = [np.array((n[i], -n[i + 1])) for i in range(0, len(n), 2)]
        if cmd == "M":
            out.append([p[0]])
        elif cmd == "L":
            out[-1].append(p[0])
        elif cmd == "C":
            t = np.linspace(0, 1, 201)[1:, None]
            out[-1].extend((1 - t) ** 3 * at + 3 * (1 - t) ** 2 * t * p[0] + 3 * (1 - t) * t * t * p[1] + t ** 3 * p[2])
        else:
            out[-1].append(out[-1][0])
        at = out[-1][-1]
    return [np.array(c) for c in out]


def shape(r):
    """A reserve about the origin, not yet turned."""
    w, h = r.get("width_mm", 0), r.get("height_mm", 0)
    if r["shape"] in ("circle", "oval"):
        h = w if r["shape"] == "circle" else h
        t = np.linspace(0, 2 * math.pi, POINTS, endpoint=False)
        return Polygon(np.stack([w / 2 * np.cos(t), h / 2 * np.sin(t)], axis=1))
    if r["shape"] == "rectangle":
        return Polygon([(-w / 2, -h / 2), (w / 2, -h / 2), (w / 2, h / 2), (-w / 2, h / 2)])
    p = chains(r["path"])[0]
    if w:
        p = p * np.array([w, h]) / (p.max(axis=0) - p.min(axis=0))
    return Polygon(p)


def turned(g, degrees, x, y):
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return affine_transform(g, [c, -s, s, c, x, y])


def flare(band):
    i = band["inside"]
    if i["by"] == "edges":
        return math.asin((i["top_circumference_mm"] - i["bottom_circumference_mm"]) / 2 / math.pi / band["width_mm"])
    return math.radians(band.get("flare_deg", 0))


def along(band, length):
    """How a thing is carried along the blank by dx, as a function of it, dx and the
    place that dx is measured at; None for a flared cuff, whose radius the report does
    not tell. Flattened, a cone turns about its apex: at the angle A its middle line has
    the radius r / sin A, r being length / 2 pi of a closed band."""
    a = flare(band)
    if a == 0:
        return lambda g, dx, y: affine_transform(g, [1, 0, 0, 1, dx, 0])
    if band["kind"] == "cuff":
        return None
    apex = length / 2 / math.pi / math.sin(a)

    def carry(g, dx, y):
        # y: height on the flat at x = 0, from the apex' point of view the radius
        # apex + y; None: along the middle line.
        t = -dx / (apex if y is None else apex + y)
        c, s = math.cos(t), math.sin(t)
        return affine_transform(g, [c, -s, s, c, -apex * s, apex * c - apex])

    carry.apex = apex
    return carry


def places(r, band, length):
    """All places of a reserve, on all turns; None if they can't be told here."""
    carry = along(band, length)
    n = max(1, r.get("count", 0))
    if carry is None and n > 1:
        return None
    x, y = r["x_mm"], r["y_mm"]
    g = turned(shape(r), r.get("turn_deg", 0), x, y)
    if carry is None:
        return [g]
    y = None
    if flare(band):
        r0 = math.copysign(math.hypot(r["x_mm"], r["y_mm"] + carry.apex), carry.apex)
        y = r0 - carry.apex
    step, at = r.get("spacing_mm", 0), y
    if step == 0:
        step, at = length / n, None
    row = [carry(g, (i - (n - 1) / 2) * step, at) for i in range(n)]
    if band["kind"] == "cuff":
        return row
    # A row may go round more than once, and be measured from a place off the blank.
    # On a steep cone two turns on may lie over the blank, where it is not meant: only
    # what is by its place along the band within half a turn of an end counts.
    out = []
    for i, p in enumerate(row):
        x = r["x_mm"]
        if flare(band):
            x = math.atan2(r["x_mm"] * math.copysign(1, carry.apex), math.copysign(1, carry.apex) * (r["y_mm"] + carry.apex)) * carry.apex
            x += (i - (n - 1) / 2) * step * (1 if at is None else carry.apex / (carry.apex + at))
        else:
            x += (i - (n - 1) / 2) * step
        out += [carry(p, k * length, None) for k in range(-9, 10) if abs(x + k * length) < length]
    return out


def mark(m):
    """A mark's lines, if they are a line's or a path's."""
    if m["kind"] == "line":
        g = LineString([(-m["length_mm"] / 2, 0), (m["length_mm"] / 2, 0)])
    elif m["kind"] == "path":
        g = MultiLineString([c.tolist() for c in chains(m["path"])])
    else:
        return None
    g = turned(g, m.get("turn_deg", 0), m["x_mm"], m["y_mm"])
    if m.get("side") == "inside":  # reads right from inside: seen through the metal it is the mirror image
        g = affine_transform(g, [-1, 0, 0, 1, 2 * m["x_mm"], 0])
    return g


def mark_places(m, band, length):
    g, carry = mark(m), along(band, length)
    if g is None:
        return []
    if band["kind"] == "cuff" or carry is None:
        return [g]
    # As of reserves: on a steep cone the second turn may lie over the blank.
    x = m["x_mm"]
    if flare(band):
        way = math.copysign(1, carry.apex)
        x = math.atan2(x * way, way * (m["y_mm"] + carry.apex)) * carry.apex
    return [carry(g, k * length, None) for k in range(-2, 3) if abs(x + k * length) < length]
