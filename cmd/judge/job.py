#!/usr/bin/python3
"""Judge of job sheets. The PDF opens in poppler and in mupdf, its fonts are embedded,
it has two pages at most, and its words can be taken out: they tell the report's
weights and the blank's length and width. It and the HTML hold one and the same picture
of the bent band, which is neither blank nor cut off. The files' SHA-256 by hashlib are
those that both list. Chromium prints the HTML of three parts, the longest among them, on
two pages at most, with the same words. Usage: job.py FOLDER REPORTS
"""
import base64
import hashlib
import io
import json
import os
import subprocess
import sys
import tempfile
from html.parser import HTMLParser

import numpy as np
from PIL import Image

import files

JOB = "-laser-job"  # what follows the name of a part in that of its job sheet

class Sheet(HTMLParser):
    """The words and the pictures of an HTML job sheet."""

    def __init__(self, path):
        super().__init__()
        self.words, self.pictures, self.silent = [], [], False
        with open(path, encoding="utf-8") as f:
            self.feed(f.read())

    def handle_starttag(self, tag, attrs):
        self.silent = tag == "style"
        source = dict(attrs).get("src", "") or ""
        if tag == "img":
            head, _, data = source.partition("base64,")
            assert head == "data:image/png;", f"a picture from elsewhere: {source[:60]}"
            self.pictures.append(np.asarray(Image.open(io.BytesIO(base64.b64decode(data))).convert("L")))

    def handle_endtag(self, tag):
        self.silent = False

    def handle_data(self, data):
        if not self.silent:
            self.words.append(data)


def out(*command):
    done = subprocess.run(command, capture_output=True, text=True)
    return done.stdout, done.stderr, done.returncode


def pages(path):
    text, errors, code = out("pdfinfo", path)
    n = next((int(l.split()[1]) for l in text.splitlines() if l.startswith("Pages:")), 0)
    return n, errors if errors or code == 0 else f"ends with {code}"


def squeezed(text):
    """Words without the spaces and hyphens that lines are broken with."""
    return "".join(text.split()).replace("\u2212", "-")


def pictures(path):
    """The pictures in a PDF, grey."""
    with tempfile.TemporaryDirectory() as scratch:
        subprocess.run(["pdfimages", "-png", path, os.path.join(scratch, "p")], check=True)
        return [np.asarray(Image.open(os.path.join(scratch, n)).convert("L")) for n in sorted(os.listdir(scratch))]


def judge_picture(v, name, picture):
    v.check(picture.shape[1] >= 800, name, f"the picture is {picture.shape[1]} pixels wide")
    band = picture < 250
    v.check(0.05 < band.mean() < 0.9, name, f"the band fills {band.mean():.2f} of its picture")
    edges = (band[0], band[-1], band[:, 0], band[:, -1])
    v.check(not any(e.any() for e in edges), name, "the band is cut off by its picture's edge")
    v.check(picture[band].max() - picture[band].min() > 60, name, "the picture has no light and shade")


def judge_print(v, folder, name, want):
    with tempfile.TemporaryDirectory() as scratch:
        path = os.path.join(scratch, "printed.pdf")
        subprocess.run(["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer",
                        f"--print-to-pdf={path}", os.path.join(folder, name + JOB + ".html")],
                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=120, check=True)
        n, errors = pages(path)
        v.check(1 <= n <= 2 and not errors, name, f"Chromium prints {n} pages {errors}")
        said = squeezed(out("pdftotext", "-raw", path, "-")[0])
        for w in want:
            v.check(w in said, name, f"the print does not say {w}")


def main():
    folder, reports = sys.argv[1:3]
    v = files.Verdict("job sheets (poppler, mupdf, Chromium)")
    names = sorted(n[:-len(JOB + ".pdf")] for n in os.listdir(folder) if n.endswith(JOB + ".pdf"))
    wanted, length = {}, {}
    for name in names:
        path = os.path.join(folder, name + JOB + ".pdf")
        with open(os.path.join(reports, name + ".report.json"), encoding="utf-8") as f:
            report = json.load(f)
        n, errors = pages(path)
        v.check(not errors, name, f"pdfinfo: {errors}")
        v.check(1 <= n <= 2, name, f"{n} pages")
        fonts = out("pdffonts", path)[0].splitlines()[2:]
        v.check(fonts and all(" yes " in f for f in fonts), name, "a font is not embedded")
        mupdf, errors, code = out("mutool", "draw", "-q", "-F", "text", path)
        # Debian builds mupdf without colour profiles, and it says so each time.
        errors = [l for l in errors.splitlines() if l and "ICC support is not available" not in l]
        v.check(code == 0 and not errors, name, f"mutool: {errors}")
        sheet = Sheet(os.path.join(folder, name + JOB + ".html"))
        shots = pictures(path)
        v.check(len(shots) == 1 and len(sheet.pictures) == 1, name, f"{len(shots)} and {len(sheet.pictures)} pictures")
        if v.check(shots and sheet.pictures and np.array_equal(shots[0], sheet.pictures[0]), name, "PDF and HTML show two pictures"):
            judge_picture(v, name, shots[0])
        want = [f"{report['left_g']:.2f}gleft", f"of{report['plain_g']:.2f}gplain",
                f"{round(report['blank_length_mm'], 2):.10g}x{round(report['blank_width_mm'], 2):.10g}mm"]
        wanted[name], length[name] = want, len(sheet.words)
        for kind, words in (("PDF", out("pdftotext", "-raw", path, "-")[0]), ("PDF in mupdf", mupdf), ("HTML", "".join(sheet.words))):
            said = squeezed(words)
            for w in want:
                v.check(w in said, name, f"the {kind} does not say {w}")
            for other in sorted(os.listdir(folder)):
                if other.startswith(name + "-laser") and not other.startswith(name + JOB):
                    with open(os.path.join(folder, other), "rb") as f:
                        v.check(hashlib.sha256(f.read()).hexdigest() in said, name, f"the {kind} does not list {other} truly")
    v.check(len(names) > 0, folder, "no job sheet")
    for name in sorted(names, key=lambda n: -length[n])[:3]:
        judge_print(v, folder, name, wanted[name])
    v.end(len(names))


main()
