#!/usr/bin/python3
"""Spoils the files of one part, each in one way that its judge has to notice, so
that a judge that lets everything pass is found out. Usage: spoil.py FOLDER NAME OUT

Makes OUT/dxf, OUT/bridges, OUT/svg, OUT/pdf, OUT/solid, OUT/bent, OUT/areas, each a folder with that
one part.
"""
import json
import math
import os
import re
import shutil
import struct
import sys
import zlib


def copy(folder, name, out):
    os.makedirs(out)
    for f in os.listdir(folder):
        if f.startswith((name + ".", name + "-template.")):
            shutil.copy(os.path.join(folder, f), out)


def change(path, spoil):
    with open(path, "rb") as f:
        before = f.read()
    after = spoil(before)
    if after == before:
        sys.exit(f"{path}: nothing was spoilt")
    with open(path, "wb") as f:
        f.write(after)


def turn_a_bulge(data):
    """An arc of an opening, which runs clockwise, that bends the other way."""
    return re.sub(rb"(\n  8\nOPENINGS\n(?:(?!\n  0\n).)*?\n 42\n)-(0\.[1-9])", rb"\1\2", data, count=1, flags=re.S)


def narrow_a_bridge(report):
    """An opening at the thinnest bridge moved across it by a fiftieth of a millimetre."""
    (x0, y0), (x1, y1) = report["thinnest_at"]
    number, way = report["thinnest_between"][0], 0.02
    if not number:
        number, way = report["thinnest_between"][1], -0.02
    way /= math.hypot(x1 - x0, y1 - y0)
    add = {b"10": way * (x1 - x0), b"20": way * (y1 - y0)}

    def move(data):
        lines = data.split(b"LWPOLYLINE\n")
        at = [i for i, l in enumerate(lines) if b"\n  8\nOPENINGS\n" in l[:80]][number - 1]
        one, rest = lines[at].split(b"\n  0\n", 1)
        one = re.sub(rb"\n (10|20)\n(\S+)", lambda m: b"\n %s\n%.10f" % (m.group(1), float(m.group(2)) + add[m.group(1)]), one)
        lines[at] = one + b"\n  0\n" + rest
        return b"LWPOLYLINE\n".join(lines)
    return move


def leave_one_out(data):
    """The second opening drawn in the place of the first."""
    paths = re.findall(rb'id="opening-\d+" d="([^"]*)"', data)
    return data.replace(paths[0], paths[1], 1)


def shrink_the_page(data):
    """Everything on the first page half a percent smaller, as by "fit to page":
    a second version of the page's drawing, appended (ISO 32000-1, 7.5.6)."""
    number, packed = re.search(rb"(\d+) 0 obj\n<<[^>]*>>stream\n(x.*?)\nendstream", data, re.S).groups()
    text = zlib.decompress(packed)
    small = re.sub(rb"^2\.83464\d+ 0 0 2\.83464\d+", b"2.8204724 0 0 2.8204724", text)
    if small == text:
        sys.exit("spoil.py: the first page is not drawn in millimetres")
    packed = zlib.compress(small)
    before = re.search(rb"startxref\n(\d+)", data).group(1)
    trailer = re.search(rb"trailer\n<<(.*?)>>\nstartxref", data, re.S).group(1)
    new = b"%s 0 obj\n<</Filter/FlateDecode/Length %d>>stream\n%s\nendstream\nendobj\n" % (number, len(packed), packed)
    table = b"xref\n%s 1\n%010d 00000 n \ntrailer\n<<%s/Prev %s>>\nstartxref\n%d\n%%%%EOF\n" % (
        number, len(data), trailer, before, len(data) + len(new))
    return data + new + table


def move_a_corner(data):
    """The first corner of the hundredth triangle of an STL, by a hundredth of a
    millimetre: its neighbours no longer meet it."""
    at = 84 + 50 * 99 + 12
    x, = struct.unpack_from("<f", data, at)
    return data[:at] + struct.pack("<f", x + 0.01) + data[at + 4:]


def swell_the_band(data):
    """Every x a hundredth of a percent larger: closed, and nearly as heavy."""
    out = bytearray(data)
    for at in range(84, len(data), 50):
        for k in (12, 24, 36):
            x, = struct.unpack_from("<f", data, at + k)
            struct.pack_into("<f", out, at + k, x * 1.0001)
    return bytes(out)


def move_the_field(data):
    """The first field in a small circle at the front."""
    design = json.loads(data)
    design["fields"][0]["area"] = {"shape": "circle", "width_mm": 1}
    return json.dumps(design).encode()


def main():
    folder, name, out = sys.argv[1:4]
    with open(os.path.join(folder, name + ".report.json"), encoding="utf-8") as f:
        report = json.load(f)
    for judge, suffix, spoil in (
        ("dxf", ".dxf", turn_a_bulge),
        ("bridges", ".dxf", narrow_a_bridge(report)),
        ("svg", ".svg", leave_one_out),
        ("pdf", "-template.pdf", shrink_the_page),
        ("solid", ".stl", move_a_corner),
        ("bent", ".stl", swell_the_band),
        ("areas", ".design.json", move_the_field),
    ):
        to = os.path.join(out, judge)
        copy(folder, name, to)
        change(os.path.join(to, name + suffix), spoil)


main()
