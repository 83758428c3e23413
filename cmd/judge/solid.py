"""Judges the solids of the bent bands: NAME.stl and NAME.3mf, where they are.

STL is read by numpy-stl, 3MF by lib3mf (the 3MF Consortium's own library, in
strict mode) and once more from its zip and XML. Both must be closed and
oriented: every edge is run along once each way. Both must hold the metal of the
report: left_g over the density, by the divergence theorem.

Usage: solid.py FOLDER
"""
import ctypes
import os
import sys
import xml.etree.ElementTree as ElementTree
import zipfile

import numpy as np
import stl

from files import Verdict, load, names

CORE = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"
MODEL_TYPE = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"
# Metadata names without a namespace that the core specification allows.
METADATA = {"Title", "Designer", "Description", "Copyright", "LicenseTerms", "Rating",
            "CreationDate", "ModificationDate", "Application"}
MILLIMETRE = 1  # MODELUNIT_MILLIMETER of lib3mf's NMR_ModelTypes.h


def volume(points, triangles):
    p = points - points[0]
    a, b, c = (p[triangles[:, k]] for k in range(3))
    return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6)


def closed(triangles):
    """Whether each edge is run along once each way, by vertex numbers."""
    edges = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]]).astype(np.int64)
    n = edges.max() + 1
    there = np.sort(edges[:, 0] * n + edges[:, 1])
    back = np.sort(edges[:, 1] * n + edges[:, 0])
    return bool((there[1:] != there[:-1]).all() and (there == back).all())


def judge_stl(v, name, path, want):
    size = os.path.getsize(path)
    with open(path, "rb") as f:
        head = f.read(84)
    count = int.from_bytes(head[80:], "little")
    v.check(size == 84 + 50 * count and not head.startswith(b"solid"), name, "not a binary STL of its length")
    mesh = stl.mesh.Mesh.from_file(path, mode=stl.Mode.BINARY)
    v.check(len(mesh.vectors) == count, name, f"numpy-stl reads {len(mesh.vectors)} of {count} triangles")
    # Corners of an STL are known by their places.
    points, numbers = np.unique(mesh.vectors.reshape(-1, 3), axis=0, return_inverse=True)
    triangles = numbers.reshape(-1, 3)
    v.check(closed(triangles), name, "STL: not closed and oriented")
    v.near(volume(points.astype(float), triangles), want, 1e-3, name, "volume of the STL")
    told = mesh.normals.astype(float)  # as numpy-stl works them out from the corners
    stored = np.frombuffer(open(path, "rb").read()[84:], np.dtype([("n", "<f4", 3), ("v", "<f4", 9), ("a", "<u2")]))["n"]
    length = np.linalg.norm(told, axis=1)
    large = length > 1e-6  # a sliver's normal is lost in the rounding of its corners
    agree = np.einsum("ij,ij->i", told[large] / length[large, None], stored[large])
    v.check(bool((agree > 0.999).all()), name, f"STL: stored normals are off: {agree.min():.4f}")
    return points, triangles


class Vertex(ctypes.Structure):
    _fields_ = [("at", ctypes.c_float * 3)]


class Triangle(ctypes.Structure):
    _fields_ = [("v", ctypes.c_uint32 * 3)]


def by_lib3mf(v, name, path, library):
    """The vertices and triangles as lib3mf reads them, None if it refuses."""

    def call(what, *args):
        code = getattr(library, "lib3mf_" + what)(*args)
        if code:
            raise RuntimeError(f"lib3mf_{what}: error {code & 0xffffffff:#x}")

    model, reader, items, mesh = (ctypes.c_void_p() for _ in range(4))
    number, flag = ctypes.c_uint32(), ctypes.c_int32()
    try:
        call("createmodel", ctypes.byref(model))
        call("model_queryreader", model, b"3mf", ctypes.byref(reader))
        call("reader_setstrictmodeactive", reader, 1)
        call("reader_readfromfileutf8", reader, path.encode())
        call("reader_getwarningcount", reader, ctypes.byref(number))
        v.check(number.value == 0, name, f"lib3mf has {number.value} warnings")
        call("model_getunit", model, ctypes.byref(number))
        v.check(number.value == MILLIMETRE, name, f"unit {number.value} is not the millimetre")
        call("model_getmeshobjects", model, ctypes.byref(items))
        call("resourceiterator_movenext", items, ctypes.byref(flag))
        if not v.check(flag.value == 1, name, "no mesh in the 3MF"):
            return None
        call("resourceiterator_getcurrent", items, ctypes.byref(mesh))
        call("meshobject_ismanifoldandoriented", mesh, ctypes.byref(flag))
        v.check(flag.value & 0xff == 1, name, "lib3mf: not manifold and oriented")
        call("meshobject_getvertexcount", mesh, ctypes.byref(number))
        points = (Vertex * number.value)()
        call("meshobject_getvertices", mesh, points, number, None)
        call("meshobject_gettrianglecount", mesh, ctypes.byref(number))
        triangles = (Triangle * number.value)()
        call("meshobject_gettriangleindices", mesh, triangles, number, None)
        return (np.frombuffer(points, np.float32).reshape(-1, 3),
                np.frombuffer(triangles, np.uint32).reshape(-1, 3).astype(np.int64))
    except RuntimeError as e:
        v.check(False, name, str(e))
        return None
    finally:
        for thing in (mesh, items, reader, model):
            if thing.value:
                library.lib3mf_release(thing)


def judge_3mf(v, name, path, want, library, solid):
    with zipfile.ZipFile(path) as z:
        v.check(z.testzip() is None, name, "3MF: a part's checksum is wrong")
        parts = z.namelist()
        v.check(len(set(parts)) == len(parts) and parts[0] == "[Content_Types].xml", name, f"3MF: parts {parts}")
        types = {e.get("Extension"): e.get("ContentType") for e in ElementTree.fromstring(z.read("[Content_Types].xml"))}
        v.check(types.get("model") == "application/vnd.ms-package.3dmanufacturing-3dmodel+xml"
                and types.get("rels") == "application/vnd.openxmlformats-package.relationships+xml", name, f"3MF: types {types}")
        roots = [e.get("Target") for e in ElementTree.fromstring(z.read("_rels/.rels")) if e.get("Type") == MODEL_TYPE]
        if not v.check(len(roots) == 1 and roots[0].lstrip("/") in parts, name, f"3MF: start part {roots}"):
            return
        model = ElementTree.fromstring(z.read(roots[0].lstrip("/")))
    v.check(model.tag == CORE + "model" and model.get("unit") == "millimeter", name, "3MF: root or unit")
    told = [m.get("name") for m in model.findall(CORE + "metadata")]
    v.check(len(set(told)) == len(told) and set(told) <= METADATA, name, f"3MF: metadata {told}")
    objects = model.findall(f"{CORE}resources/{CORE}object")
    items = model.findall(f"{CORE}build/{CORE}item")
    v.check(len(objects) == 1 and len(items) == 1 and items[0].get("objectid") == objects[0].get("id")
            and objects[0].get("type") == "model", name, "3MF: must be one object, built once")
    points = np.array([[float(e.get(k)) for k in "xyz"] for e in objects[0].iter(CORE + "vertex")])
    triangles = np.array([[int(e.get(k)) for k in ("v1", "v2", "v3")] for e in objects[0].iter(CORE + "triangle")])
    v.check(closed(triangles), name, "3MF: not closed and oriented")
    v.near(volume(points, triangles), want, 1e-3, name, "volume of the 3MF")
    move = [float(x) for x in items[0].get("transform").split()]
    v.check(move[:9] == [1, 0, 0, 0, 1, 0, 0, 0, 1] and (points.min(axis=0) + move[9:] >= -1e-5).all(), name,
            f"3MF: not brought to positive coordinates by {move}")
    read = by_lib3mf(v, name, path, library)
    if read is None:
        return
    v.check(np.array_equal(read[0], points.astype(np.float32)) and np.array_equal(read[1], triangles), name,
            "3MF: lib3mf reads another mesh than the XML holds")
    # The two files hold the same triangles.
    v.check(len(solid[1]) == len(triangles) and np.array_equal(solid[0][solid[1]], read[0][read[1]]), name,
            "STL and 3MF differ")


def main():
    folder = sys.argv[1]
    v = Verdict("solid")
    library = ctypes.CDLL("lib3MF.so.1")
    files = 0
    for name in names(folder):
        path = os.path.join(folder, name)
        if not os.path.exists(path + ".stl"):
            continue
        files += 1
        report = load(folder, name, "report")
        want = report["left_g"] / report["density_g_cm3"] * 1000
        solid = judge_stl(v, name, path + ".stl", want)
        judge_3mf(v, name, path + ".3mf", want, library, solid)
    v.end(files)


main()
