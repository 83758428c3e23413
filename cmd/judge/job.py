#!/usr/bin/python3
"""Judge of job sheets: the PDF opens in poppler, its text can be taken out, it tells
the report's weights, the files' SHA-256 by hashlib are those that it lists, and the
HTML says the same. Usage: job.py FOLDER REPORTS
"""
import hashlib
import json
import os
import subprocess
import sys
from html.parser import HTMLParser

import files


class Words(HTMLParser):
    def __init__(self):
        super().__init__()
        self.words = []

    def handle_data(self, data):
        self.words.append(data)


def main():
    folder, reports = sys.argv[1:3]
    v = files.Verdict("job sheets (poppler)")
    names = sorted(n[:-len("-job.pdf")] for n in os.listdir(folder) if n.endswith("-job.pdf"))
    for name in names:
        path = os.path.join(folder, name + "-job.pdf")
        with open(os.path.join(reports, name + ".report.json"), encoding="utf-8") as f:
            report = json.load(f)
        info = subprocess.run(["pdfinfo", path], capture_output=True, text=True)
        v.check(info.returncode == 0 and not info.stderr, name, f"pdfinfo: {info.stderr}")
        pages = int(next((l.split()[1] for l in info.stdout.splitlines() if l.startswith("Pages:")), "0"))
        v.check(1 <= pages <= 3, name, f"{pages} pages")
        fonts = subprocess.run(["pdffonts", path], capture_output=True, text=True).stdout.splitlines()[2:]
        v.check(fonts and all(" yes " in f for f in fonts), name, "a font is not embedded")
        text = subprocess.run(["pdftotext", "-raw", path, "-"], capture_output=True, text=True).stdout
        reader = Words()
        with open(os.path.join(folder, name + "-job.html"), encoding="utf-8") as f:
            reader.feed(f.read())
        for kind, said in (("PDF", "".join(text.split())), ("HTML", "".join("".join(reader.words).split()))):
            for want in (f"{report['left_g']:.2f}gleft", f"of{report['plain_g']:.2f}gplain"):
                v.check(want in said, name, f"the {kind} does not say {want}")
            for other in sorted(os.listdir(folder)):
                if other.startswith(name + ".") or other == name + "-note.txt":
                    with open(os.path.join(folder, other), "rb") as f:
                        v.check(hashlib.sha256(f.read()).hexdigest() in said, name, f"the {kind} does not list {other} truly")
    v.check(len(names) > 0, folder, "no job sheet")
    v.end(len(names))


main()
