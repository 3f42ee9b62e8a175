"""Solids as files that other programs read: GLB (glTF 2.0) in metres, 3MF (Core Specification 1.3) in millimetres.

Both are written from scratch: each is a list of points and triangles with names, and the bytes of one set never change
from run to run.
"""

import json
import struct
import zlib
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING
from xml.sax.saxutils import quoteattr

import numpy as np

from bickern.geometry.solid.solid import Named

if TYPE_CHECKING:
    from numpy.typing import NDArray

# ---- GLB

FLOATS, COUNTS, POINTS, TRIANGLES = 5126, 5125, 34962, 34963
"""glTF 2.0, 3.6.2.2 and 5.11.5: 32-bit floats and whole numbers, views that hold points and triangles."""
IRON = {
    "name": "iron",
    "pbrMetallicRoughness": {"baseColorFactor": [0.28, 0.28, 0.3, 1.0], "metallicFactor": 0.2, "roughnessFactor": 0.7},
}


def glb(named: Sequence[Named]) -> bytes:
    """The named solids as one GLB file: metres, y up as glTF wants it (our x, y, z become x, -z, y), a node a solid.

    Without normals, so a reader shows the flat triangles that are there.
    """
    stuff = [part for one in named for part in _glb_arrays(one)]
    nodes = [{"mesh": k, "name": one.name} for k, one in enumerate(named)]
    told = {
        "asset": {"generator": "bickern", "version": "2.0"},
        "scene": 0,
        "scenes": [{"nodes": list(range(len(named)))} if named else {}],
    }
    if named:
        told |= {
            "nodes": nodes,
            "meshes": [_glb_mesh(k, one.name) for k, one in enumerate(named)],
            "materials": [IRON],
            "accessors": [_glb_accessor(k, array) for k, array in enumerate(stuff)],
            "bufferViews": _glb_views(stuff),
            "buffers": [{"byteLength": sum(array.nbytes for array in stuff)}],
        }
    chunks = [(b"JSON", json.dumps(told, separators=(",", ":")).encode(), b" ")]
    chunks += [(b"BIN\0", b"".join(array.tobytes() for array in stuff), b"\0")] if named else []
    return _glb_file(chunks)


def _glb_arrays(one: Named) -> "tuple[NDArray[np.float32], NDArray[np.uint32]]":
    """Points, y up, and triangles, in the bytes of the file."""
    x, y, z = one.solid.points.T
    return np.column_stack((x, z, -y)).astype("<f4"), one.solid.faces.astype("<u4")


def _glb_mesh(number: int, name: str) -> dict[str, object]:
    part = {"attributes": {"POSITION": 2 * number}, "indices": 2 * number + 1, "material": 0}
    return {"name": name, "primitives": [part]}


def _glb_accessor(view: int, array: "NDArray[np.float32] | NDArray[np.uint32]") -> dict[str, object]:
    if array.dtype.kind == "u":
        return {"bufferView": view, "componentType": COUNTS, "count": array.size, "type": "SCALAR"}
    box = {"min": array.min(axis=0).tolist(), "max": array.max(axis=0).tolist()}
    return {"bufferView": view, "componentType": FLOATS, "count": len(array), "type": "VEC3"} | box


def _glb_views(stuff: "Sequence[NDArray[np.float32] | NDArray[np.uint32]]") -> list[dict[str, int]]:
    views, at = [], 0
    for array in stuff:
        kind = TRIANGLES if array.dtype.kind == "u" else POINTS
        views.append({"buffer": 0, "byteOffset": at, "byteLength": array.nbytes, "target": kind})
        at += array.nbytes
    return views


def _glb_file(chunks: Iterable[tuple[bytes, bytes, bytes]]) -> bytes:
    """glTF 2.0, 4.4: a head of 12 bytes, then chunks filled up to four bytes."""
    body = b""
    for kind, data, filler in chunks:
        full = data + filler * (-len(data) % 4)
        body += struct.pack("<I4s", len(full), kind) + full
    return struct.pack("<4sII", b"glTF", 2, 12 + len(body)) + body


# ---- 3MF

TYPES = (
    '<?xml version="1.0" encoding="UTF-8"?>\n'
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>'
)
RELATIONS = (
    '<?xml version="1.0" encoding="UTF-8"?>\n'
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    '<Relationship Target="/3D/3dmodel.model" Id="rel0" '
    'Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>'
)
MODEL = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"


def three_mf(named: Sequence[Named]) -> bytes:
    """The named solids as one 3MF file: millimetres, z up, an object and a build item a solid."""
    objects = "".join(_object(k, one) for k, one in enumerate(named, 1))
    items = "".join(f'<item objectid="{k}"/>' for k in range(1, len(named) + 1))
    model = (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<model unit="millimeter" xml:lang="en-US" xmlns="{MODEL}">'
        f"<resources>{objects}</resources><build>{items}</build></model>"
    )
    told = (("[Content_Types].xml", TYPES), ("_rels/.rels", RELATIONS), ("3D/3dmodel.model", model))
    return _zipped([(name, text.encode()) for name, text in told])


def _object(number: int, one: Named) -> str:
    points, faces = (1000 * one.solid.points).ravel().tolist(), one.solid.faces.ravel().tolist()
    corners = '<vertex x="%.9g" y="%.9g" z="%.9g"/>' * len(one.solid.points) % tuple(points)
    triangles = '<triangle v1="%d" v2="%d" v3="%d"/>' * len(one.solid.faces) % tuple(faces)
    return (
        f'<object id="{number}" type="model" name={quoteattr(one.name)}>'
        f"<mesh><vertices>{corners}</vertices><triangles>{triangles}</triangles></mesh></object>"
    )


NEW_YEAR_1980 = 0x21
"""1 January 1980 as a ZIP file writes it: the first day it knows, so that the bytes do not hang on the day."""


def _zipped(parts: Sequence[tuple[str, bytes]]) -> bytes:
    """A ZIP file (APPNOTE 6.3.3, 4.3): each part packed behind a head of its own, then the list of all parts."""
    body, listed = b"", b""
    for name, data in parts:
        packer = zlib.compressobj(6, zlib.DEFLATED, -15)
        packed = packer.compress(data) + packer.flush()
        sizes = (zlib.crc32(data), len(packed), len(data), len(name))
        head = struct.pack("<HHHHHIIIHH", 20, 0, 8, 0, NEW_YEAR_1980, *sizes, 0)
        listed += b"PK\1\2\x14\0" + head + struct.pack("<HHHII", 0, 0, 0, 0, len(body)) + name.encode()
        body += b"PK\3\4" + head + name.encode() + packed
    count = len(parts)
    end = b"PK\5\6" + struct.pack("<HHHHIIH", 0, 0, count, count, len(listed), len(body), 0)
    return body + listed + end
