#!/usr/bin/python3
"""Judge of the SVG files: painted by librsvg (and by Chromium, if it is there)
and the painted area counted. Usage: svg.py FOLDER [EVERY]

EVERY n judges the painting of every n-th file (default 1); the size and the
structure of all.

The lines are painted as areas: the outline black, then the openings white over
it. An edge pixel is painted in proportion to how much of it is covered, which
librsvg (cairo) takes on a grid of 15 x 17 points: 1/16 of a pixel's width off at
most, and not always to the same side. So the area counted is off by less than
the length of all edges times 1/16 pixel.
"""
import math
import os
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
MARGIN = 5         # mm of paper over and under the part


def millimetres(text):
    assert text.endswith("mm"), text
    return float(text[:-2])


def painted(root, turns, width, height, run, folder):
    """The area painted black, mm2. `turns` are moves at which the openings are
    painted too: on a seamless band both ends are one place."""
    groups = {g.get("id"): g for g in root.iter(NS + "g")}
    outline, openings, notes = groups["outline"], groups["openings"], groups["notes-not-cut"]
    outline.set("fill", "#000000")
    outline.set("stroke", "none")
    openings.set("fill", "#ffffff")
    openings.set("stroke", "none")
    notes.set("display", "none")
    if "engrave-not-cut" in groups:
        groups["engrave-not-cut"].set("display", "none")
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
    marks = ["engrave-not-cut"] if report["marks"] else []
    v.check(groups == ["openings", "outline"] + marks + ["notes-not-cut"], name, f"groups {groups}")
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
    words = root.find(NS + "desc").text + "".join(t.text for t in root.iter(NS + "text"))
    for word in ("Kerf:", "Process:", "Units: millimetres", "class 4", "cadmium", "estimates"):
        v.check(words.count(word) >= 2, name, f"description and notes do not both speak of {word!r}")
    # Notes lie under the part, which ends a margin above the first of them.
    notes = min(float(t.get("y")) - 2.6 for t in root.iter(NS + "text"))
    part = notes - MARGIN
    if not painters:
        return
    want = report["blank_area_mm2"] - report["removed_area_mm2"]
    length = report["blank_length_mm"]
    allowed = (report["cut_length_mm"] + 1) * PART / PX
    turns = (-length, length) if files.comes_round(folder, name) else ()
    with tempfile.TemporaryDirectory() as scratch:
        for label, run, _ in painters:
            got = painted(ET.parse(path).getroot(), turns, width, part + MARGIN, run, scratch)
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
    extra = f"Painted: {done}, at {PX} pixels a mm."
    v.end(len(all_names), extra + (" Chromium: the first 6." if program else " Chromium is not here and was not asked."))


main()
