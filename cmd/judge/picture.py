#!/usr/bin/python3
"""Judge of the client's pictures, by Pillow and librsvg. The SVG's blank, painted
without its lines, shows as much metal as the report's areas say, and a loop for each
opening; the PNG is 1600 pixels wide on white, and its flat pattern is the SVG's. No word
of the workshop is in them.
Usage: picture.py FOLDER REPORTS
"""
import json
import os
import re
import subprocess
import sys
import tempfile

import numpy as np
from PIL import Image

import files

WORKSHOP = ("mm", "kerf", "caution", "bridge", "weight", "alloy")


def runs(flags):
    """Where a row of flags is set: pairs of first and one past last."""
    edge = np.flatnonzero(np.diff(np.concatenate(([0], flags.astype(int), [0]))))
    return list(zip(edge[::2], edge[1::2]))


def covered(grey):
    """How much of each pixel is metal. It is darker below than above, so each row has
    its own brightness."""
    metal = np.array([np.percentile(row[row < 250], 20) if (row < 250).any() else 0 for row in grey])
    return np.clip((255.0 - grey) / (255.0 - metal)[:, None], 0, 1)


def box(flags):
    rows, columns = np.flatnonzero(flags.any(axis=1)), np.flatnonzero(flags.any(axis=0))
    return rows[0], rows[-1] + 1, columns[0], columns[-1] + 1


def judge_png(v, name, path, blank):
    """blank is the metal that the SVG shows, without margins."""
    with Image.open(path) as image:
        v.check(image.format == "PNG" and image.size[0] == 1600, name, f"the PNG is {image.format} {image.size}")
        grey = np.asarray(image.convert("L")).astype(float)
    ink = (grey < 250).any(axis=1)
    v.check(ink[0] == 0 and ink[-1] == 0, name, "the PNG has no margin")
    parts = runs(ink)
    # A name in letters that the type lacks is left out.
    if not v.check(len(parts) >= 2, name, f"the PNG has {len(parts)} parts, not band, pattern and name"):
        return
    top, bottom = parts[1]
    top, bottom, left, right = box(grey[top:bottom] < 250) + np.array([top, top, 0, 0])
    flat = covered(grey[top:bottom, left:right])
    shape = (right - left) / (bottom - top)
    if v.check(abs(shape * blank.shape[0] / blank.shape[1] - 1) < 0.03, name, f"the PNG's flat pattern is {shape:.2f} as wide as high"):
        small = Image.fromarray((255 * blank).astype(np.uint8)).resize((right - left, bottom - top), Image.BOX)
        apart = np.abs(np.asarray(small) / 255.0 - flat).mean()
        v.worst("PNG's flat pattern and SVG's", apart)
        v.check(apart < 0.08, name, f"the PNG's flat pattern is not the SVG's: {apart:.3f} apart")


def judge_svg(v, name, path, report):
    """Returns the metal that it shows."""
    with open(path, encoding="utf-8") as f:
        text = f.read()
    said = " ".join(re.findall(r">([^<]*)</(?:text|title)>", text)).lower()
    v.check(not any(re.search(rf"\b{w}\b", said) for w in WORKSHOP), name, "the SVG has a word of the workshop")
    loops = len(re.findall(r'z(?=[M"])', text))
    # Those over the ends of a seamless band are in two parts.
    v.check(loops >= report["openings"] + 1, name, f"the SVG has {loops} loops for {report['openings']} openings and the outline")
    text = re.sub(r' stroke="[^"]*"', "", text)
    text = re.sub(r"<text.*?</text>", "", text, flags=re.S)
    text = text.replace("url(#metal)", "#000000")
    with tempfile.TemporaryDirectory() as scratch:
        bare, picture = os.path.join(scratch, "bare.svg"), os.path.join(scratch, "p.png")
        with open(bare, "w", encoding="utf-8") as f:
            f.write(text)
        wide = float(re.search(r'width="([0-9.]+)mm"', text).group(1))
        px = 3000 / wide
        done = subprocess.run(["rsvg-convert", "-w", "3000", "-o", picture, bare], capture_output=True, text=True)
        if not v.check(done.returncode == 0, name, f"librsvg: {done.stderr.strip()}"):
            return None
        with Image.open(picture) as image:
            dark = 1 - np.asarray(image.convert("L")) / 255.0
    want = report["blank_area_mm2"] - report["removed_area_mm2"]
    v.near(dark.sum() / px ** 2, want, 0.004, name, "SVG's metal")
    top, bottom, left, right = box(dark > 0.5)
    return dark[top:bottom, left:right]


def main():
    folder, reports = sys.argv[1:3]
    v = files.Verdict("pictures (Pillow, librsvg)")
    names = sorted(n[:-len("-client-picture.png")] for n in os.listdir(folder) if n.endswith("-client-picture.png"))
    for name in names:
        with open(os.path.join(reports, name + ".report.json"), encoding="utf-8") as f:
            report = json.load(f)
        blank = judge_svg(v, name, os.path.join(folder, name + "-client-picture.svg"), report)
        if blank is not None:
            judge_png(v, name, os.path.join(folder, name + "-client-picture.png"), blank)
    v.check(len(names) > 0, folder, "no picture")
    v.end(len(names))


main()
