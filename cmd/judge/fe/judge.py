"""Solves the decks that fe wrote by CalculiX and holds our figures to it.

Usage: judge.py [-few] DIR [NAME...]. With -few, fewer than 20 designs will do. Prints a row a case; not 0 if one is out of bounds.

The stress at a face is that of CalculiX's integration points, in three layers, taken to
the face along a parabola: a curved bar's inner face has more than a straight line gives. The 99th percentile is that of these points by their area; the peak is the
greatest at a corner of an element, the mean of the elements about it.
"""

import json
import os
import re
import subprocess
import sys
import time

import numpy as np

# How far ours may be off. From the aims that the project set itself: figures of strength
# are worth showing within these.
STIFFNESS = 0.02
P99 = 0.05
PEAK_LOW, PEAK_HIGH = 0.20, 0.05
COARSE_STIFFNESS = 0.06
# Known to be further off: a cuff that is rolled on over its side bends its bridges in
# their own plane, where a triangle has one stress and three of them are too stiff.
# Measured: 8 % too stiff if coarse, the 99th percentile 9 % and the peak 22 % low. The
# words beside the figures say so.
KNOWN = {"push": {"coarse stiffness": 0.10, "99th percentile": 0.10, "peak": 0.25}}
# What remains of equilibrium, as a share of the loads: ours, and CalculiX's reactions,
# whose output has six digits.
BALANCE, REACTION = 1e-6, 1e-4


def mises(s):
    xx, yy, zz, xy, xz, yz = np.moveaxis(s, -1, 0)
    return np.sqrt(
        0.5 * ((xx - yy) ** 2 + (yy - zz) ** 2 + (zz - xx) ** 2) + 3 * (xy**2 + xz**2 + yz**2)
    )


def blocks(path):
    """The tables of a .dat file: a title and an array each."""
    title, rows, out = None, [], []
    with open(path) as f:
        for line in f:
            words = line.split()
            if not words:
                continue
            if re.match(r"\s*-?\d", line) and title:
                rows.append([float(w) for w in words[:8] if not w.startswith("_")])
            else:
                if rows:
                    out.append((title, np.array(rows)))
                title, rows = line.strip(), []
    if rows:
        out.append((title, np.array(rows)))
    return out


def solve(folder, name):
    base = os.path.join(folder, name)
    env = dict(os.environ, OMP_NUM_THREADS="1")
    start = time.time()
    if not os.path.exists(base + ".dat"):
        with open(base + ".log", "w") as log:
            subprocess.run(["ccx", "-i", base], stdout=log, stderr=subprocess.STDOUT, env=env, check=False, cwd=folder)
    took = time.time() - start
    log = open(base + ".log").read()
    equations = re.search(r"number of equations\s+(\d+)", log)
    tables = {title.split()[0]: rows for title, rows in blocks(base + ".dat")}
    return tables, int(equations.group(1)) if equations else 0, took


def theirs(folder, name, job):
    tables, equations, took = solve(folder, name)
    nodes = np.array(job["Nodes"])
    el = np.array(job["Elements"])
    u = np.zeros_like(nodes)
    moved = tables["displacements"]
    u[moved[:, 0].astype(int) - 1] = moved[:, 1:4]
    work = sum(np.dot(l["Force"], u[l["Node"]]) for l in job["Loads"])
    total = sum(np.linalg.norm(l["Force"]) for l in job["Loads"])
    loaded = {l["Node"] for l in job["Loads"]}
    react = max(
        (np.linalg.norm(r[1:4]) for r in tables["forces"] if int(r[0]) - 1 not in loaded), default=0.0
    ) / total

    s = tables["stresses"]
    order = np.lexsort((s[:, 1], s[:, 0]))
    s = s[order, 2:8].reshape(len(el), 3, 3, 6)  # element, layer, point, component
    slope = (s[:, 2] - s[:, 0]) / 2 / np.sqrt(0.6)
    curve = ((s[:, 2] + s[:, 0]) / 2 - s[:, 1]) / 0.6
    faces = np.stack([s[:, 1] - slope + curve, s[:, 1] + slope + curve], axis=1)  # element, face, point
    worse = mises(faces).max(axis=1)
    a, b, c = (nodes[el[:, k]] for k in range(3))
    area = np.linalg.norm(np.cross(b - a, c - a), axis=1) / 2
    seen = np.array(job["Seen"])
    w, v = np.repeat(area[seen] / 3, 3), worse[seen].ravel()
    order = np.argsort(v)
    p99 = v[order][np.searchsorted(np.cumsum(w[order]), 0.99 * w.sum())]

    corners = 2 * faces - faces.mean(axis=2, keepdims=True)  # points lie half way from the middle
    sums = np.zeros((len(nodes), 2, 6))
    count = np.zeros(len(nodes))
    for k in range(3):
        np.add.at(sums, el[:, k], corners[:, :, k])
        np.add.at(count, el[:, k], 1)
    met = count > 0
    mean = np.zeros((len(nodes), 2))
    mean[met] = mises(sums[met] / count[met, None, None])
    at = np.unique(el[seen][:, :3])
    return dict(
        where=nodes[at[mean[at].max(axis=1).argmax()]], work=work, p99=p99, peak=mean[at].max(), points=v.max(), react=react, equations=equations, took=took
    )


def main():
    args = sys.argv[1:]
    few = args[0] == "-few"
    folder, names = args[few], args[few + 1 :]
    jobs = sorted(f[:-5] for f in os.listdir(folder) if f.endswith(".json"))
    jobs = [j for j in jobs if not names or j in names or j.rsplit(".", 1)[0] in names]
    failed = sorted(f for f in os.listdir(folder) if f.endswith(".failed"))
    bad = [f + ": not made" for f in failed]
    head = (
        f"{'':24} {'case':8} {'open':>4} {'equat.':>7} {'s':>5} {'ours':>7} {'s':>5} |"
        f" {'coarse':>6} {'p99':>6} {'peak':>6} | {'fine':>6} {'p99':>6} {'peak':>6} | balance reaction"
    )
    print(head)
    designs = set()
    for name in jobs:
        job = json.load(open(os.path.join(folder, name + ".json")))
        t = theirs(folder, name, job)
        ours, coarse = job["Fine"], job["Coarse"]
        # Stiffness is the inverse of the way for a newton.
        k, kc = t["work"] / ours["PerN"], t["work"] / coarse["PerN"]
        p99, peak = ours["P99"] / t["p99"], ours["Peak"] / t["peak"]
        off = {"stiffness": (k - 1, STIFFNESS), "coarse stiffness": (kc - 1, COARSE_STIFFNESS), "99th percentile": (p99 - 1, P99)}
        known = KNOWN.get(job["Case"], {})
        wrong = [w for w, (by, most) in off.items() if not abs(by) <= max(most, known.get(w, 0))]
        told = [w for w, (by, most) in off.items() if w not in wrong and abs(by) > most]
        # At a sharp corner stress has no limit as a mesh becomes finer.
        if not job["Sharp"] and not 1 - PEAK_LOW <= peak <= 1 + PEAK_HIGH:
            (told if 1 - known.get("peak", 0) <= peak < 1 else wrong).append("peak")
        if not max(ours["Balance"], coarse["Balance"]) < BALANCE:
            wrong.append("balance")
        if not t["react"] < REACTION:
            wrong.append("reactions")
        print(
            f"{name:24} {job['Case']:8} {job['Openings']:4d} {t['equations']:7d} {t['took']:5.1f} {ours['Freedoms']:7d} {ours['Seconds']:5.1f} |"
            f" {kc:6.3f} {coarse['P99'] / t['p99']:6.3f} {coarse['Peak'] / t['peak']:6.3f} | {k:6.3f} {p99:6.3f} {peak:6.3f} |"
            f" {max(ours['Balance'], coarse['Balance']):.0e} {t['react']:.0e}"
            f"{' OUT: ' + ', '.join(wrong) if wrong else ''}{' known: ' + ', '.join(told) if told else ''}{' sharp corners' if job['Sharp'] else ''}",
            flush=True,
        )
        bad += [f"{name}: {w}" for w in wrong]
        designs.add(name.rsplit(".", 1)[0])
    if not few and len(designs) < 20:
        bad.append("fewer than 20 designs were judged")
    print(f"fe: {len(designs)} designs, {len(jobs)} cases; ours over CalculiX's; {len(bad)} out of bounds")
    for b in bad:
        print("fe: FAILED:", b)
    sys.exit(1 if bad else 0)


main()
