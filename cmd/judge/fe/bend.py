"""Bends the pierced strips of strips.go by finite elements and compares them with
our sections: gmsh meshes, CalculiX solves, neither knows of us.

  bend.py DIR [NAME]

Four-point bending: the strip lies on two lines and is pressed down at its ends, so
that the pierced part between the lines carries one and the same moment M. Measured
are
  the rise of the middle over the lines, against the double integral of M/(E I) with
  our width for stiffness, and
  the stress along the strip on the face, averaged over the metal of each of a few
  sections, against M t/(2 I) with our net width.
Some are then bent to the cuff that they are the blank of, and pulled apart at the
ends: the opening, against our whole reckoning.
"""
import json
import subprocess
import sys
from pathlib import Path

import numpy as np

E, NU = 75000.0, 0.3  # MPa
LIMIT = 0.10
LINE, END = 38.0, 48.0  # mm from the middle: supports, loads
SIZE = 0.9  # mm, of the elements


def geo(s):
    h, w = s["thickness_mm"], s["width_mm"]
    half = s["length_mm"] / 2
    lines, points = [], 0
    loops = []

    def loop(ps):
        nonlocal points
        first = points + 1
        for x, y in ps:
            points += 1
            lines.append(f"Point({points}) = {{{x:.6f}, {y:.6f}, 0}};")
        ids = list(range(first, points + 1))
        for a, b in zip(ids, ids[1:] + ids[:1]):
            lines.append(f"Line({a}) = {{{a}, {b}}};")
        loops.append(len(loops) + 1)
        lines.append(f"Curve Loop({loops[-1]}) = {{{first}:{points}}};")

    # Corners at the lines, so that nodes stand on them.
    xs = [-half, -END, -LINE, 0, LINE, END, half]
    loop([(x, -w / 2) for x in xs] + [(x, w / 2) for x in reversed(xs)])
    for o in s["openings"]:
        ps = [o[0]]
        for p in o[1:]:  # chords much shorter than the elements only cost time
            if np.hypot(p[0] - ps[-1][0], p[1] - ps[-1][1]) > 0.12:
                ps.append(p)
        loop(ps)
    lines.append(f"Plane Surface(1) = {{{', '.join(map(str, loops))}}};")
    n = points
    for x in (-END, -LINE, LINE, END):
        top = 14 - xs.index(x)
        lines.append(f"Line({n + 1}) = {{{xs.index(x) + 1}, {top}}}; Curve{{{n + 1}}} In Surface{{1}};")
        n += 1
    lines.append(f"e[] = Extrude {{0, 0, {h}}} {{ Surface{{1}}; Layers{{1}}; Recombine; }};")
    lines.append("Physical Volume(1) = {e[1]};")
    lines.append(f"Mesh.MeshSizeMax = {SIZE}; Mesh.MeshSizeMin = 0.25; Mesh.MeshSizeFromCurvature = 0; Mesh.ElementOrder = 2; Mesh.SecondOrderLinear = 1; Mesh.SecondOrderIncomplete = 1;")
    lines.append("Mesh.SaveGroupsOfNodes = 0;")
    return "\n".join(lines) + "\n"


def read_mesh(path):
    """Nodes and wedges of gmsh's INP."""
    nodes, wedges, mode = {}, [], None
    row = []
    for line in path.read_text().splitlines():
        if line.startswith("*"):
            up = line.upper()
            mode = "n" if up.startswith("*NODE") else "e" if up.startswith("*ELEMENT") and "C3D15" in up else None
            row = []
            continue
        if mode == "n":
            a = line.split(",")
            nodes[int(a[0])] = [float(v) for v in a[1:4]]
        elif mode == "e":
            row += [int(v) for v in line.replace(" ", "").split(",") if v]
            if len(row) >= 16:
                wedges.append(row[1:16])
                row = []
    return nodes, wedges


def listed(ids):
    return "\n".join(",".join(map(str, ids[i:i + 12])) for i in range(0, len(ids), 12))


def frd(path):
    """Displacements and stresses at the nodes."""
    found, table = {}, None
    for line in open(path):
        if line.startswith(" -4"):
            name = line.split()[1]
            table = found.setdefault(name, {})
        elif line.startswith(" -3"):
            table = None
        elif line.startswith(" -1") and table is not None:
            table[int(line[3:13])] = [float(line[13 + 12 * i:25 + 12 * i]) for i in range((len(line.rstrip("\n")) - 13) // 12)]
    return found["DISP"], found["STRESS"]


def run(name, work, used, p, wedges, held, loads):
    """Solves one deck: nodes, elements, what is held, forces; displacements and stresses."""
    deck = ["*NODE"]
    deck += [f"{n}, {p[n][0]:.9g}, {p[n][1]:.9g}, {p[n][2]:.9g}" for n in used]
    deck += ["*ELEMENT, TYPE=C3D15, ELSET=ALL"]
    for i, w in enumerate(wedges):
        deck.append(f"{i + 1}, " + ", ".join(map(str, w[:10])) + ",")
        deck.append(", ".join(map(str, w[10:])))
    deck += ["*MATERIAL, NAME=M", "*ELASTIC", f"{E}, {NU}", "*SOLID SECTION, ELSET=ALL, MATERIAL=M"]
    deck += ["*BOUNDARY"] + held + ["*STEP", "*STATIC", "*CLOAD"] + loads
    deck += ["*NODE FILE", "U", "*EL FILE", "S", "*END STEP"]
    (work / f"{name}.inp").write_text("\n".join(deck) + "\n")
    done = subprocess.run(["ccx", "-i", name], cwd=work, capture_output=True, text=True)
    if done.returncode != 0 or not (work / f"{name}.frd").exists():
        raise SystemExit(f"{name}: ccx failed:\n{done.stdout[-2000:]}{done.stderr[-2000:]}")
    return frd(work / f"{name}.frd")


def opened(s, work, used, p, wedges):
    """The same metal bent to the round cuff that it is the blank of, and pulled apart
    at its ends by 1 N: the opening, mm."""
    h, r = s["thickness_mm"], s["inner_mm"]
    half = s["length_mm"] / 2
    q = {}
    for n in used:
        x, y, z = p[n]
        a = x / (r + h / 2)
        q[n] = np.array([-(r + z) * np.sin(a), (r + z) * np.cos(a), y])
    near = lambda v, x: abs(v - x) < 1e-6
    ends = [sorted((n for n in used if near(p[n][0], x) and near(p[n][2], h / 2)), key=lambda n: p[n][1]) for x in (-half, half)]
    inside = sorted((n for n in used if near(p[n][2], 0)), key=lambda n: abs(p[n][0]))
    a = min(inside, key=lambda n: abs(p[n][0]) + abs(p[n][1] + s["width_mm"] / 2))
    b = min(inside, key=lambda n: abs(p[n][0]) + abs(p[n][1] - s["width_mm"] / 2))
    c = min(inside, key=lambda n: abs(p[n][0] - 20) + abs(p[n][1] + s["width_mm"] / 2))
    held = [f"{a}, 1, 3", f"{b}, 1, 2", f"{c}, 2, 2"]  # still, without force
    loads = []
    for line in ends:
        side = np.sign(q[line[0]][0])
        loads += [f"{n}, 1, {side / len(line):.9g}" for n in line]
    u, _ = run(s["name"] + "-bent", work, used, q, wedges, held, loads)
    mean = [np.mean([u[n][0] for n in line]) for line in ends]
    return abs(mean[1] - mean[0])


def solve(s, work):
    name = s["name"]
    (work / f"{name}.geo").write_text(geo(s))
    subprocess.run(["gmsh", "-3", "-format", "inp", "-v", "1", "-o", str(work / f"{name}-mesh.inp"), str(work / f"{name}.geo")], check=True)
    nodes, wedges = read_mesh(work / f"{name}-mesh.inp")
    if not wedges:
        raise SystemExit(f"{name}: gmsh made no wedges")
    used = sorted({n for w in wedges for n in w})
    p = {n: np.array(nodes[n]) for n in used}
    near = lambda v, x: abs(v - x) < 1e-6
    bottom = lambda x: sorted((n for n in used if near(p[n][0], x) and near(p[n][2], 0)), key=lambda n: p[n][1])
    h = s["thickness_mm"]
    left, right = bottom(-LINE), bottom(LINE)
    held = [f"{n}, 3, 3" for n in left + right]
    # Held against sliding in its plane, without force.
    held += [f"{left[0]}, 1, 2", f"{right[0]}, 2, 2"]
    loads = []
    force = 1.0  # N at either end
    for x in (-END, END):
        line = bottom(x)
        ys = np.array([p[n][1] for n in line])
        share = np.gradient(ys)
        share[0], share[-1] = (ys[1] - ys[0]) / 2, (ys[-1] - ys[-2]) / 2
        loads += [f"{n}, 3, {-force * a / share.sum():.9g}" for n, a in zip(line, share)]
    u, stress = run(name, work, used, p, wedges, held, loads)
    moment = force * (END - LINE)
    # Each wedge has a triangle on the upper face: its corners are in one plane.
    tris = []
    for w in wedges:
        for tri in (w[0:3], w[3:6]):
            if all(near(p[n][2], h) for n in tri):
                tris.append(tri)
    opening = opened(s, work, used, p, wedges) if s["bent"] else None
    return p, u, stress, tris, moment, opening


def face_average(x, p, stress, tris):
    """Integral of the stress along the strip over the metal at x, and the metal."""
    total = metal = 0.0
    for tri in tris:
        a = np.array([p[n][:2] for n in tri])
        lo, hi = a[:, 0].min(), a[:, 0].max()
        if not lo < x < hi:
            continue
        cut = []
        for i in range(3):
            j = (i + 1) % 3
            if (a[i, 0] - x) * (a[j, 0] - x) < 0:
                t = (x - a[i, 0]) / (a[j, 0] - a[i, 0])
                y = a[i, 1] + t * (a[j, 1] - a[i, 1])
                v = stress[tri[i]][0] * (1 - t) + stress[tri[j]][0] * t
                cut.append((y, v))
        if len(cut) == 2:
            d = abs(cut[0][0] - cut[1][0])
            total += d * (cut[0][1] + cut[1][1]) / 2
            metal += d
    return total, metal


def main():
    folder = Path(sys.argv[1])
    names = sys.argv[2:] or sorted(f.stem for f in folder.glob("*.json"))
    if not names:
        sys.exit("fe: no strips to bend")
    bad = 0
    for name in names:
        s = json.loads((folder / f"{name}.json").read_text())
        p, u, stress, tris, moment, opening = solve(s, folder)
        h = s["thickness_mm"]
        xs, net, stiff = (np.array(s[k]) for k in ("x_mm", "net_mm", "stiff_mm"))
        step = xs[1] - xs[0]
        inside = np.abs(xs) < LINE
        # Of the elements: the rise of the circle through the lines that all of the
        # metal fits best, so that no single strut decides.
        mid = [n for n in p if abs(p[n][2] - h / 2) < 1e-6 and abs(p[n][0]) < LINE]
        px = np.array([p[n][0] for n in mid])
        pu = np.array([u[n][2] for n in mid])
        circle = (LINE ** 2 - px ** 2) / 2
        got = np.sum(pu * circle) / np.sum(circle ** 2) * LINE ** 2 / 2
        fit = {}
        for key, width in (("net", net), ("stiff", stiff)):
            # Our own line, fitted in the same way.
            k = np.zeros_like(xs)
            k[inside] = moment / (E * width[inside] * h ** 3 / 12)
            slope = np.cumsum(k) * step
            line = np.cumsum(slope) * step
            line -= np.interp(0, xs, line)
            line -= (np.interp(LINE, xs, line) - np.interp(-LINE, xs, line)) / (2 * LINE) * xs
            line = np.interp(LINE, xs, line) - line
            fit[key] = np.sum(np.interp(px, xs, line) * circle) / np.sum(circle ** 2) * LINE ** 2 / 2
        worst = 0.0
        weak = xs[inside][np.argmin(net[inside])]
        places = sorted({round(float(v), 4) for v in [weak] + list(np.linspace(-20.3, 21.7, 7))})
        for x in places:
            total, metal = face_average(x, p, stress, tris)
            want = moment * 6 / (np.interp(x, xs, net) * h * h)
            off = total / metal / want - 1
            if abs(off) > abs(worst):
                worst = off
        peak = max(abs(v[0]) for n, v in stress.items() if abs(p[n][0]) < LINE - 2)
        raiser = peak / (moment * 6 / (net[inside].min() * h * h))
        ours, bare = got / fit["stiff"], got / fit["net"]
        print(f"{name:10s} {len(tris):6d} wedges: our stiffness over the elements' {ours:.3f} (by the net section alone {bare:.3f}),"
              f" nominal stress {worst:+.1%} at worst, raiser {raiser:.2f}")
        if abs(worst) > LIMIT or abs(ours - 1) > s["limit"]:
            print(f"fe: FAILED: {name}: more than {LIMIT:.0%} apart in stress or {s['limit']:.0%} in stiffness")
            bad += 1
        if opening is not None:
            cuff = s["opening_mm_n"] / opening
            print(f"{'':10s} bent to a cuff and pulled apart: our opening over the elements' {cuff:.3f}")
            if abs(cuff - 1) > LIMIT:
                print(f"fe: FAILED: {name}: more than {LIMIT:.0%} apart as a cuff")
                bad += 1
    print(f"fe: {len(names)} pierced strips bent, {bad} apart from our sections")
    sys.exit(1 if bad else 0)


main()
