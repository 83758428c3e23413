#!/usr/bin/python3
"""Judge of the SVG files: painted by librsvg (and by Chromium, if it is there)
and the painted area counted; every line measured by Chromium, against the report
and against the DXF of the same part. Usage: svg.py FOLDER [EVERY]

EVERY n judges the painting of every n-th file (default 1); the size and the
structure of all.

The lines are painted as areas: the outline black, then the openings white over
it. An edge pixel is painted in proportion to how much of it is covered, which
librsvg (cairo) takes on a grid of 15 x 17 points: 1/16 of a pixel's width off at
most, and not always to the same side. So the area counted is off by less than
the length of all edges times 1/16 pixel.
"""
import json
import math
import os
import re
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET

import numpy as np
from PIL import Image

import files

NS = "{http://www.w3.org/2000/svg}"
PX = 20            # pixels a millimetre
PART = 1 / 16      # of a pixel: see above


MARKS = {"engrave-not-cut", "engrave-inside-not-cut"}  # groups of what is engraved


def millimetres(text):
    assert text.endswith("mm"), text
    return float(text[:-2])


def painted(root, turns, width, height, run, folder):
    """The area painted black, mm2. `turns` are moves at which the openings are
    painted too: on a seamless band both ends are one place."""
    groups = {g.get("id"): g for g in root.iter(NS + "g")}
    outline, openings = groups["outline"], groups.get("openings", ET.Element(NS + "g"))
    outline.set("fill", "#000000")
    outline.set("stroke", "none")
    openings.set("fill", "#ffffff")
    openings.set("stroke", "none")
    for marks in MARKS & groups.keys():
        groups[marks].set("display", "none")
    if openings in root:
        root.remove(openings)
    root.append(openings)
    for dx in turns:
        use = ET.SubElement(root, NS + "use", {"href": "#openings", "transform": f"translate({dx!r})"})
        use.set("{http://www.w3.org/1999/xlink}href", "#openings")
    # Whole millimetres, so that they are whole pixels and nothing is scaled to fit.
    width, height = math.ceil(width), math.ceil(height)
    root.set("viewBox", f"0 0 {width} {height}")
    root.set("width", str(width * PX))
    root.set("height", str(height * PX))
    path = os.path.join(folder, "painted.svg")
    ET.ElementTree(root).write(path, encoding="utf-8", xml_declaration=True)
    picture = os.path.join(folder, "painted.png")
    run(path, picture, width * PX, height * PX)
    with Image.open(picture) as im:
        grey = np.asarray(im.convert("L"), dtype=np.float64)
    assert grey.shape == (height * PX, width * PX), grey.shape
    return float((255 - grey).sum() / 255 / PX ** 2)


def librsvg(path, picture, w, h):
    subprocess.run(["rsvg-convert", "-b", "white", "-w", str(w), "-h", str(h), "-o", picture, path], check=True)


def chromium(program):
    def run(path, picture, w, h):
        subprocess.run([program, "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--force-device-scale-factor=1",
                        f"--window-size={w},{h}", f"--screenshot={picture}", path],
                       check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=120)
    return run


def judge(v, folder, name, painters):
    report = files.load(folder, name, "report")
    path = os.path.join(folder, name + ".svg")
    root = ET.parse(path).getroot()
    width, height = millimetres(root.get("width")), millimetres(root.get("height"))
    v.check(root.get("viewBox") == f"0 0 {width:g} {height:g}", name, f"viewBox {root.get('viewBox')} is not the size in mm")

    groups = [g.get("id") for g in root.iter(NS + "g")]
    marks = [g for g in groups if g in MARKS]
    v.check(bool(marks) == bool(report["marks"]), name, "marks are missing, or there are some too many")
    cuts = (["openings"] if report["openings"] else []) + ["outline"]
    v.check(groups == marks + cuts, name, f"groups {groups}")
    engraved = [p for g in root.iter(NS + "g") if g.get("id") in marks for p in g.iter(NS + "path")]
    v.check(all(p.get("id").startswith("mark-") for p in engraved) and len({p.get("id") for p in engraved}) == len(engraved), name, "marks are not named as such")
    v.check(len({p.get("id").split("-")[1] for p in engraved}) <= report["marks"], name, f"{report['marks']} marks in the report")
    cut = {g.get("stroke") for g in root.iter(NS + "g") if g.get("id") in ("openings", "outline")}
    v.check(not any(g.get("stroke") in cut or g.get("fill") != "none" for g in root.iter(NS + "g") if g.get("id") in marks), name, "marks look like what is cut")
    paths = [p for p in root.iter(NS + "path") if p not in engraved]
    ids = [p.get("id") for p in paths]
    v.check(len(set(ids)) == len(ids) == report["openings"] + 1, name, f"{len(ids)} paths")
    v.check(len({p.get("d") for p in paths}) == len(paths), name, "a line is drawn twice")
    v.check(all(p.get("d").count("M") == 1 and p.get("d").endswith("Z") for p in paths), name, "a path is not one closed line")
    v.check(not list(root.iter(NS + "text")), name, "words are drawn that nobody asked for")
    words = root.find(NS + "desc").text
    for word in ("Kerf:", "Process:", "Units: millimetres", "class 4", "cadmium", "estimates"):
        v.check(word in words, name, f"the description says nothing of {word!r}")
    if not painters:
        return
    want = report["blank_area_mm2"] - report["removed_area_mm2"]
    length = report["blank_length_mm"]
    allowed = (report["cut_length_mm"] + 1) * PART / PX
    turns = (-length, length) if files.comes_round(folder, name) else ()
    with tempfile.TemporaryDirectory() as scratch:
        for label, run, _ in painters:
            got = painted(ET.parse(path).getroot(), turns, width, height, run, scratch)
            v.worst(f"{label}: area by share of blank", abs(got - want) / report["blank_area_mm2"])
            v.check(abs(got - want) <= allowed, name, f"{label} paints {got:.2f} mm2, the report leaves {want:.2f}, allowed {allowed:.2f}")


def size(v, folder, name):
    """The size that a reader makes of the file as it is, at 254 dots per inch: whole
    pixels, so up to 0.1 mm more."""
    path = os.path.join(folder, name + ".svg")
    root = ET.parse(path).getroot()
    with tempfile.TemporaryDirectory() as scratch:
        picture = os.path.join(scratch, "p.png")
        subprocess.run(["rsvg-convert", "-d", "254", "-p", "254", "-o", picture, path], check=True)
        with Image.open(picture) as im:
            w, h = im.size
    ok = abs(w / 10 - millimetres(root.get("width"))) < 0.101 and abs(h / 10 - millimetres(root.get("height"))) < 0.101
    v.check(ok, name, f"librsvg makes it {w / 10} x {h / 10} mm, the file says {root.get('width')} x {root.get('height')}")


# How Chromium measures a path: it holds coordinates as 32-bit floats and arcs as
# cubic curves of up to a quarter turn, which come out longer than the arc by 1.42e-4
# of it at most (a circle of radius 5: 31.42038 for 31.41593). Paths are handed over
# in thousandths of a millimetre, so that what it takes for near enough is small.
LONGER = 1.45e-4
THOUSAND = 1000
PAGE = 12_000_000  # bytes of paths that go into one page

SCRIPT = """
const told = [];
for (const s of document.querySelectorAll('svg')) {
  const of = {};
  for (const p of s.querySelectorAll('path')) {
    const b = p.getBBox();
    of[p.id] = [p.getTotalLength(), b.x, b.y, b.width, b.height];
  }
  told.push([s.width.baseVal.unitType, s.width.baseVal.valueInSpecifiedUnits, s.height.baseVal.valueInSpecifiedUnits,
    s.viewBox.baseVal.width, s.viewBox.baseVal.height, of]);
}
document.getElementById('told').textContent = JSON.stringify(told);
"""


def thousandfold(d):
    """Path data with all lengths times a thousand; flags and angles stay."""
    out = []
    for letter, rest in re.findall(r"([A-Za-z])([^A-Za-z]*)", d):
        n = rest.split()
        keep = range(2, 5) if letter == "A" else ()
        out.append(letter + " ".join(x if i in keep else repr(float(x) * THOUSAND) for i, x in enumerate(n)))
    return "".join(out)


def measured(program, paths):
    """What Chromium measures in files: for each its unit type, size, view box, and
    for each path its length and box, mm."""
    told, page, size = [], [], 0

    def load():
        with tempfile.TemporaryDirectory() as scratch:
            path = os.path.join(scratch, "page.html")
            with open(path, "w", encoding="utf-8") as f:
                f.write("<html><body>" + "".join(page) + f'<pre id="told"></pre><script>{SCRIPT}</script></body></html>')
            dom = subprocess.run([program, "--headless", "--no-sandbox", "--disable-gpu", "--dump-dom", "file://" + path],
                                 check=True, capture_output=True, text=True, timeout=300).stdout
        told.extend(json.loads(re.search(r'<pre id="told">(.*?)</pre>', dom, re.S).group(1)))

    for path in paths:
        root = ET.parse(path).getroot()
        drawn = "".join(f'<path id="{p.get("id")}" d="{thousandfold(p.get("d"))}"/>' for p in root.iter(NS + "path"))
        if page and size + len(drawn) > PAGE:
            load()
            page, size = [], 0
        page.append(f'<svg width="{root.get("width")}" height="{root.get("height")}" viewBox="{root.get("viewBox")}">{drawn}</svg>')
        size += len(drawn)
    load()
    for t in told:
        t[5] = {k: [x / THOUSAND for x in v] for k, v in t[5].items()}
    return told


def box(loop):
    xs, ys = zip(*files.flatten(loop, 1e-5))
    return min(xs), min(ys), max(xs), max(ys)


def judge_measured(v, folder, name, told):
    unit, wide, high, view_w, view_h, paths = told
    report = files.load(folder, name, "report")
    v.check(unit == 7 and abs(wide - view_w) < 1e-4 and abs(high - view_h) < 1e-4, name, f"Chromium: unit type {unit} (7 is mm), {wide} x {high} mm, view {view_w} x {view_h}")
    cut = {k: p for k, p in paths.items() if k.startswith(("opening-", "outline-"))}
    v.check(len(cut) == report["openings"] + 1, name, f"Chromium finds {len(cut)} lines")
    v.check(all(p[1] > -1e-4 and p[2] > -1e-4 and p[1] + p[3] < view_w + 1e-4 and p[2] + p[4] < view_h + 1e-4 for p in paths.values()), name, "Chromium: a line lies outside of the paper")

    # Each line by the DXF's own, whose origin is elsewhere: boxes and lengths.
    doc, openings, outline = files.read_dxf(os.path.join(folder, name + ".dxf"))
    # The page is the sheet, which the DXF's extents say.
    sheet = [b - a for a, b in zip(doc.header["$EXTMIN"], doc.header["$EXTMAX"])]
    v.check(abs(wide - sheet[0]) < 0.0051 and abs(high - sheet[1]) < 0.0051, name, f"the page is {wide} x {high} mm, the extents of the DXF {sheet}")
    loops = {f"opening-{i + 1}": l for i, l in enumerate(openings)}
    loops["outline-1"] = outline[0]
    numbers = sorted(int(k.split("-")[1]) for k in cut if k.startswith("opening-"))
    if v.check(numbers == list(range(1, len(openings) + 1)), name, "the openings are not numbered 1, 2, 3 ..."):
        ox, _, _, oy = box(outline[0])
        _, sx, sy, _, _ = cut["outline-1"]
        for key, loop in loops.items():
            x0, y0, x1, y1 = box(loop)
            length, x, y, w, h = cut[key]
            off = max(abs(x - sx - (x0 - ox)), abs(y - sy - (oy - y1)), abs(w - (x1 - x0)), abs(h - (y1 - y0)))
            v.worst("Chromium: boxes of lines, mm", off)
            # 32-bit floats hold 200 mm to 1.5e-5; a cubic for an arc bulges by 2.7e-4 of its radius between its ends.
            bulge = 2.8e-4 * max((r for r in map(radius, files.edges(loop)) if r < max(w, h)), default=0)
            # The centre of a flat arc is as far off as 32 bits hold its radius.
            flat = max(map(radius, [*files.edges(loop), *files.edges(outline[0])]))
            v.check(off < 5e-5 + bulge + 1.2e-7 * flat, name, f"Chromium: {key} has its box {off:.6f} mm from that in the DXF")
            true = files.length(loop)
            # Seen from there, the ends of the arc stand some bits off too.
            v.worst("Chromium: lengths of lines", abs(length - true) / true)
            flat = max(map(radius, files.edges(loop)))
            v.check(abs(length - true) < 3e-4 * true + 1e-4 + 1e-6 * flat, name, f"Chromium: {key} is {length:.5f} mm long, in the DXF {true:.5f}")

    # In all by the report.
    length = sum(p[0] for p in cut.values())
    want = report["cut_length_mm"]
    if files.seamless(folder, name):  # the ends are drawn, but not counted
        ends = report["blank_length_mm"] / 2
        want += files.length(outline[0]) - files.length(outline[0], ends)
    v.worst("Chromium: length of cut", abs(length - want) / want)
    # Seen from the centre of a flat arc, as of each line above.
    flat = sum(1e-6 * max(map(radius, files.edges(loop))) for loop in loops.values())
    v.check(want * (1 - 1e-5) - flat < length < want * (1 + LONGER) + flat, name, f"Chromium measures {length:.4f} mm of cut, the report counts {want:.4f}")


def radius(edge):
    (x0, y0, b), (x1, y1, _) = edge
    return math.hypot(x1 - x0, y1 - y0) * (1 + b * b) / (4 * abs(b)) if b else 0


def main():
    ET.register_namespace("", NS[1:-1])
    folder = sys.argv[1]
    every = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    # How many files each paints: a browser takes a second to start.
    painters = [("librsvg", librsvg, len(files.names(folder)))]
    program = next((p for p in map(shutil.which, ("chromium", "chromium-browser", "google-chrome")) if p), None)
    if program:
        painters.append(("Chromium", chromium(program), 6))
    version = subprocess.run(["rsvg-convert", "--version"], check=True, capture_output=True, text=True).stdout.strip()
    v = files.Verdict(f"svg ({version})")
    all_names = files.names(folder)
    done = 0
    for i, name in enumerate(all_names):
        paint = i % every == 0
        judge(v, folder, name, [p for p in painters if done < p[2]] if paint else [])
        if paint:
            size(v, folder, name)
            done += 1
    if program:
        some = all_names[::every]
        for name, told in zip(some, measured(program, [os.path.join(folder, n + ".svg") for n in some])):
            judge_measured(v, folder, name, told)
    extra = f"Painted: {done}, at {PX} pixels a mm."
    v.end(len(all_names), extra + (f" Chromium: the first 6, and {len(some)} measured." if program else " Chromium is not here and was not asked."))


main()
