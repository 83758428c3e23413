#!/usr/bin/python3
"""Judge of the client's pictures, by Pillow and librsvg. The PNG is 1600 pixels wide on
white, and its flat pattern covers as much of its box as the report's areas say (but for
flared blanks); so does the SVG's blank, painted without its lines. Neither has a word of the workshop.
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
    """The share of a box of metal that is not open, pixels at edges in part. The metal is
    darker below than above, so each row has its own."""
    metal = np.array([np.percentile(row[row < 250], 20) if (row < 250).any() else 0 for row in grey])
    share = np.clip((255.0 - grey) / (255.0 - metal)[:, None], 0, 1)
    return share.sum()


def judge_png(v, name, path, report):
    with Image.open(path) as image:
        v.check(image.format == "PNG" and image.size[0] == 1600, name, f"the PNG is {image.format} {image.size}")
        grey = np.asarray(image.convert("L")).astype(float)
    ink = (grey < 250).any(axis=1)
    parts = runs(ink)
    v.check(ink[0] == 0 and ink[-1] == 0, name, "the PNG has no margin")
    # A name in letters that the type lacks is left out.
    if not v.check(len(parts) >= 2, name, f"the PNG has {len(parts)} parts, not band, pattern and name"):
        return
    top, bottom = parts[1]
    columns = runs((grey[top:bottom] < 250).any(axis=0))
    left, right = columns[0][0], columns[-1][1]
    k = (right - left) / report["blank_length_mm"]
    # The report's length of a flared blank is along its arc: not that of the box.
    if abs((bottom - top) / k - report["blank_width_mm"]) < 3 / k:
        want = report["blank_area_mm2"] - report["removed_area_mm2"]
        v.near(covered(grey[top:bottom, left:right]) / k ** 2, want, 0.03, name, "PNG's metal")


def judge_svg(v, name, path, report):
    with open(path, encoding="utf-8") as f:
        text = f.read()
    said = " ".join(re.findall(r">([^<]*)</(?:text|title)>", text)).lower()
    v.check(not any(re.search(rf"\b{w}\b", said) for w in WORKSHOP), name, "the SVG has a word of the workshop")
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
            return
        with Image.open(picture) as image:
            dark = 1 - np.asarray(image.convert("L")) / 255.0
    want = report["blank_area_mm2"] - report["removed_area_mm2"]
    v.near(dark.sum() / px ** 2, want, 0.004, name, "SVG's metal")


def main():
    folder, reports = sys.argv[1:3]
    v = files.Verdict("pictures (Pillow, librsvg)")
    names = sorted(n[:-len("-picture.png")] for n in os.listdir(folder) if n.endswith("-picture.png"))
    for name in names:
        with open(os.path.join(reports, name + ".report.json"), encoding="utf-8") as f:
            report = json.load(f)
        if report["blank_width_mm"] < report["blank_length_mm"]:
            judge_png(v, name, os.path.join(folder, name + "-picture.png"), report)
        judge_svg(v, name, os.path.join(folder, name + "-picture.svg"), report)
    v.check(len(names) > 0, folder, "no picture")
    v.end(len(names))


main()
