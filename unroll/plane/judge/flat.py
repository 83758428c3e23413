"""Judges offsets, overlays, distances and merges with GEOS (through shapely) on
finely flattened loops.

Reads cases as judge_test.go writes them. Exits 1 on any disagreement. Flattening
to chords changes areas by less than what is allowed: chords of the angle s cut
off (1 - sin(s)/s), about s^2/6, of a sector.
"""
import math
import sys

from shapely.geometry import Polygon, LineString
from shapely.ops import unary_union

STEP = 1.5e-3  # rad: 4e-7 of a sector's area


SAGITTA = 5e-7  # mm


def chords(r, s):
    """How many chords an arc of the radius r and sweep s gets."""
    # Two at least: of one each, a lens would be nothing.
    return max(2, math.ceil(abs(s) / min(STEP, math.sqrt(8 * SAGITTA / max(r, 1e-9)))))


def flat(loop):
    out = []
    n = len(loop)
    for i, (x, y, b) in enumerate(loop):
        x2, y2, _ = loop[(i + 1) % n]
        out.append((x, y))
        if b == 0:
            continue
        k = (1 - b * b) / (4 * b)
        cx, cy = (x + x2) / 2 - (y2 - y) * k, (y + y2) / 2 + (x2 - x) * k
        s = 4 * math.atan(b)
        r = math.hypot(x - cx, y - cy)
        if r > 1e7:
            continue
        a0 = math.atan2(y - cy, x - cx)
        m = chords(r, s)
        out += [(cx + r * math.cos(a0 + s * j / m), cy + r * math.sin(a0 + s * j / m)) for j in range(1, m)]
    return out


def arc_of(x, y, b, x2, y2):
    """Centre, radius, first angle and sweep."""
    k = (1 - b * b) / (4 * b)
    cx, cy = (x + x2) / 2 - (y2 - y) * k, (y + y2) / 2 + (x2 - x) * k
    return cx, cy, math.hypot(x - cx, y - cy), math.atan2(y - cy, x - cx), 4 * math.atan(b)


def turned(cx, cy, r, a0, s):
    m = chords(r, s)
    return [(cx + r * math.cos(a0 + s * j / m), cy + r * math.sin(a0 + s * j / m)) for j in range(m + 1)]


def sagitta(loop):
    """The most that a chord of the flattened loop is off its arc."""
    most = 0
    n = len(loop)
    for i, (x, y, b) in enumerate(loop):
        x2, y2, _ = loop[(i + 1) % n]
        if b == 0:
            continue
        h = abs(b) * math.hypot(x2 - x, y2 - y) / 2
        r = arc_of(x, y, b, x2, y2)[2]
        most = max(most, min(h, SAGITTA, r * STEP * STEP / 8))
    return most


def near_edges(region, d):
    """All points within d of the edges: a union of discs, rectangles and sectors."""
    parts = []
    for loop in region:
        n = len(loop)
        for i, (x, y, b) in enumerate(loop):
            x2, y2, _ = loop[(i + 1) % n]
            parts.append(Polygon(turned(x, y, d, 0, 2 * math.pi)))
            l = math.hypot(x2 - x, y2 - y)
            if abs(b) < 1e-9:
                ux, uy = -(y2 - y) / l * d, (x2 - x) / l * d
                parts.append(Polygon([(x + ux, y + uy), (x2 + ux, y2 + uy), (x2 - ux, y2 - uy), (x - ux, y - uy)]))
                continue
            cx, cy, r, a0, s = arc_of(x, y, b, x2, y2)
            outer = turned(cx, cy, r + d, a0, s)
            inner = turned(cx, cy, r - d, a0, s) if r > d else [(cx, cy)]
            parts.append(Polygon(outer + inner[::-1]).buffer(0))
    return unary_union(parts)


def shape(region):
    polys = [Polygon(flat(l)) for l in region]
    s = Polygon()
    for p in polys:  # loops nest, so inside is what an odd number of them holds
        s = s.symmetric_difference(p.buffer(0))
    return s


class Reader:
    def __init__(self, path):
        self.words = iter(open(path).read().split())

    def word(self):
        return next(self.words, None)

    def num(self):
        return float.fromhex(self.word())

    def region(self):
        self.word()
        loops = []
        for _ in range(int(self.word())):
            self.word()
            loops.append([(self.num(), self.num(), self.num()) for _ in range(int(self.word()))])
        return loops


def main(path):
    r = Reader(path)
    count, wrong, worst = {}, 0, {}

    def note(kind, name, off, allowed, text):
        nonlocal wrong
        worst[kind] = max(worst.get(kind, 0), off / allowed)
        if not off <= allowed:
            wrong += 1
            print(f"{name} {kind}: {text}")

    while True:
        w = r.word()
        if w is None:
            break
        kind, name = w, r.word()
        count[kind] = count.get(kind, 0) + 1
        if kind == "offset":
            src, d, res = r.region(), r.num(), r.region()
            s = shape(src)
            # By definition, not by GEOS's buffer, which simplifies its input.
            edges = near_edges(src, abs(d))
            want = s.union(edges) if d > 0 else s.difference(edges)
            got = shape(res) if res else Polygon()
            allowed = 1e-6 * (s.area + s.length * abs(d))
            note("offset", name, abs(got.area - want.area), allowed, f"by {d}: area {got.area}, GEOS {want.area}")
            if got.area > 1e-3 or want.area > 1e-3:
                x = got.symmetric_difference(want).area
                note("offset shape", name, x, 4 * allowed, f"by {d}: differs by {x}")
        elif kind == "overlay":
            a, b = r.region(), r.region()
            res = [r.region() for _ in range(4)]
            sa, sb = shape(a), shape(b)
            want = [sa.intersection(sb), sa.union(sb), sa.difference(sb), sa.symmetric_difference(sb)]
            allowed = 1e-6 * (sa.area + sb.area)
            for op, g, w in zip(["and", "or", "not", "xor"], res, want):
                area = shape(g).area if g else 0
                note("overlay", name, abs(area - w.area), allowed, f"{op}: {area}, GEOS {w.area}")
        elif kind == "nearest":
            a, b, d = r.region(), r.region(), r.num()
            la, lb = (LineString(flat(x[0]) + flat(x[0])[:1]) for x in (a, b))
            want = la.distance(lb)
            allowed = sagitta(a[0]) + sagitta(b[0]) + 1e-9
            note("nearest", name, abs(d - want), allowed, f"{d}, GEOS {want}")
        elif kind == "neck":
            src, d = r.region(), r.num()
            s = shape(src)

            def closed(radius):
                grown = s.union(near_edges(src, radius))
                parts = getattr(grown, "geoms", [grown])
                return sum(len(p.interiors) for p in parts) > 0

            # The outset first closes round a hole at half the least neck.
            bad = closed(d / 2 - 1e-5) or (d < 1 and not closed(d / 2 + 1e-5))
            note("neck", name, 1 if bad else 0, 0.5, f"least neck {d}: the outset closes elsewhere")
        else:
            sys.exit(f"unknown case {kind} {name}")
    for k in sorted(count):
        print(f"flattened {k}s (GEOS): {count[k]} cases, worst {worst[k]:.3g} of what is allowed")
    print(f"{wrong} disagreements")
    return 1 if wrong or not count else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
