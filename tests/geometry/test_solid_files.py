"""The bytes of GLB and 3MF files, read with nothing but the standard library: units, names, points, order."""

import io
import json
import struct
import zipfile
from xml.etree import ElementTree

import numpy as np
import pytest

from bickern.geometry.solid.files import glb, three_mf
from bickern.geometry.solid.solid import Named, Solid

TETRA = Solid(
    np.array([(0, 0, 0), (0.1, 0, 0), (0, 0.2, 0), (0, 0, 0.3)]),
    np.array([(0, 2, 1), (0, 1, 3), (0, 3, 2), (1, 2, 3)], dtype=np.int32),
)
SET = (Named('ring <1> & "hook"', TETRA), Named("Öse", Solid(TETRA.points + 1, TETRA.faces)))


def chunks(data: bytes) -> tuple[dict, bytes]:
    magic, version, length = struct.unpack_from("<4sII", data)
    assert (magic, version, length) == (b"glTF", 2, len(data))
    size, kind = struct.unpack_from("<I4s", data, 12)
    assert kind == b"JSON"
    assert size % 4 == 0
    told = json.loads(data[20 : 20 + size])
    rest, kind = struct.unpack_from("<I4s", data, 20 + size)
    assert kind == b"BIN\0"
    body = data[28 + size :]
    assert len(body) == rest == told["buffers"][0]["byteLength"]
    return told, body


def test_glb_holds_named_parts_in_metres_y_up() -> None:
    told, body = chunks(glb(SET))
    assert told["asset"]["version"] == "2.0"
    assert [n["name"] for n in told["nodes"]] == [one.name for one in SET]
    for node, one in zip(told["nodes"], SET, strict=True):
        part = told["meshes"][node["mesh"]]["primitives"][0]
        places, corners = told["accessors"][part["attributes"]["POSITION"]], told["accessors"][part["indices"]]
        view = told["bufferViews"][places["bufferView"]]
        points = np.frombuffer(body, "<f4", places["count"] * 3, view["byteOffset"]).reshape(-1, 3)
        x, y, z = one.solid.points.T
        assert points == pytest.approx(np.column_stack((x, z, -y)), rel=1e-6)
        assert places["min"] == points.min(axis=0).tolist()
        assert places["max"] == points.max(axis=0).tolist()
        faces = np.frombuffer(body, "<u4", corners["count"], told["bufferViews"][corners["bufferView"]]["byteOffset"])
        assert (faces.reshape(-1, 3) == one.solid.faces).all()


def test_three_mf_holds_named_objects_in_millimetres() -> None:
    with zipfile.ZipFile(io.BytesIO(three_mf(SET))) as packed:
        assert packed.testzip() is None
        assert packed.namelist()[0] == "[Content_Types].xml"
        assert all(part.date_time == (1980, 1, 1, 0, 0, 0) for part in packed.infolist())
        relation = ElementTree.fromstring(packed.read("_rels/.rels"))[0]
        model = ElementTree.fromstring(packed.read(relation.attrib["Target"].lstrip("/")))
    space = {"m": "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"}
    assert model.attrib["unit"] == "millimeter"
    objects = model.findall("m:resources/m:object", space)
    assert [o.attrib["name"] for o in objects] == [one.name for one in SET]
    assert [i.attrib["objectid"] for i in model.findall("m:build/m:item", space)] == [o.attrib["id"] for o in objects]
    for told, one in zip(objects, SET, strict=True):
        points = [[float(v.attrib[k]) for k in "xyz"] for v in told.findall(".//m:vertex", space)]
        faces = [[int(t.attrib[k]) for k in ("v1", "v2", "v3")] for t in told.findall(".//m:triangle", space)]
        assert np.array(points) == pytest.approx(1000 * one.solid.points, abs=1e-6)
        assert (np.array(faces) == one.solid.faces).all()


@pytest.mark.parametrize("write", [glb, three_mf])
def test_the_same_set_gives_the_same_bytes_and_an_empty_one_a_file(write: object) -> None:
    assert callable(write)
    assert write(SET) == write(SET)
    assert write(()) == write(())
    assert len(write(())) > 90
