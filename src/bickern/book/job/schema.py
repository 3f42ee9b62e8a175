"""JSON Schema (draft 2020-12) of the job file, made from the same table of words that the reader uses."""

import json
from pathlib import Path
from typing import Any

from bickern.book.forms import Form, Key, Takes
from bickern.book.job.words import FORMS, PIECES

Schema = dict[str, Any]
FILE = Path(__file__).parent / "job.schema.json"
"""The copy kept beside this file, for editors that complete and check as one types."""

_ONE = {"type": ["string", "number"]}
_PAIR = {"type": "array", "items": _ONE, "minItems": 2, "maxItems": 2}
_PLAIN: dict[Takes, Schema] = {
    Takes.TEXT: {"type": ["string", "number", "boolean"]},
    Takes.TEXTS: {"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": ["string", "number"]}}]},
    Takes.YES: {"type": ["string", "boolean"], "enum": ["yes", "no", "true", "false", "on", "off", True, False]},
    Takes.COUNT: {"type": ["integer", "string"], "minimum": 1},
    Takes.PAIR: _PAIR,
    Takes.SHIFT: {"anyOf": [_ONE, _PAIR]},
    Takes.PAIRS: {"type": "array", "items": _PAIR, "minItems": 3},
    Takes.SHARES: {"type": "array", "items": _PAIR, "minItems": 2},
    Takes.LINKS: {"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}, "minItems": 1}]},
}


def schema() -> Schema:
    """The whole schema."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": "urn:bickern:job",
        "title": "bickern job",
        **_form(FORMS["job"]),
        "$defs": {
            "piece": {
                "oneOf": [
                    *({"$ref": _ref(p.name)} for p in PIECES),
                    {
                        "type": "object",
                        "required": ["like"],
                        "not": {"anyOf": [{"required": [p.name]} for p in PIECES]},
                    },
                ]
            },
            **{name.replace(" ", "-"): _form(form) for name, form in FORMS.items() if name != "job"},
        },
    }


def schema_text() -> str:
    """The schema as it is kept in the file."""
    return json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"


def _ref(form: str) -> str:
    return f"#/$defs/{form.replace(' ', '-')}"


def _form(form: Form) -> Schema:
    """One group: its words, which must be there, and of which there is exactly one."""
    said: Schema = {
        "type": "object",
        "description": form.says,
        "properties": {k.word: {"description": k.says, **_takes(k)} for k in form.keys},
        "additionalProperties": False,
    }
    needed = [k.word for k in form.keys if k.needed and not (form in PIECES and k.word != form.name)]
    if needed and "like" not in form.one_of:
        like = form not in PIECES and form.key("like") is not None
        said |= {"anyOf": [{"required": needed}, {"required": ["like"]}]} if like else {"required": needed}
    if form.one_of:
        said["oneOf"] = [{"required": [w]} for w in form.one_of]
    return said


def _takes(key: Key) -> Schema:
    """What stands behind one word."""
    if key.takes is Takes.CHOICE:
        return {"enum": list(key.choices)}
    inner = {"$ref": _ref(key.form)} if key.form else {}
    if key.takes is Takes.GROUP:
        return inner
    if key.takes is Takes.LIST:
        return {"anyOf": [{"type": "array", "items": inner}, inner]}
    if key.takes is Takes.NAMED:
        return {"type": "object", "additionalProperties": inner, "minProperties": 1}
    if key.takes is Takes.OFFERED:
        one = {"anyOf": [{"type": "string"}, {"$ref": _ref("offered")}]}
        return {"anyOf": [{"type": "array", "items": one}, one]}
    return {**_PLAIN.get(key.takes, _ONE)}
