"""The columns of a list of stock, what each holds, and how else people name it."""

COLUMNS: dict[str, str] = {
    "kind": "bar or sheet; where it is not told, a row with a size or an outline is a sheet",
    "section": "of a bar, as it is ordered: 3/8 sq, 1 x 1/4, 12 mm rd",
    "length": "of a bar: 72, 38 1/2, 6 m",
    "thickness": "of a sheet, or its gauge: 18 ga, 1.5 mm",
    "size": "of a rectangular sheet: 48 x 24",
    "outline": "of an odd sheet: a DXF or SVG file beside the list, or the outline as this tool writes it",
    "count": "how many there are of it: 1 where it is not told",
    "steel": "what it is known to be: S235JR, mild, EN45",
    "coating": "what is on it: none, galvanised, painted",
    "place": "where it lies",
    "price": "what one like it costs to replace, whole",
    "remark": "anything else",
    "units": "what bare numbers of this row mean: in or mm",
    "offcut": "yes for what is left of another piece",
    "grain": "the way a sheet was rolled: along its first size, across it, or degrees from it",
    "gauge": "the thickness as it was sold, where another column tells its size",
    "id": "not read: every piece gets a new id",
    "of": "not read: what it was cut from",
}
"""Column -> what it holds."""
_ALSO: dict[str, tuple[str, ...]] = {
    "kind": ("type", "form"),
    "section": ("bar", "profile", "stock"),
    "length": ("len", "long"),
    "thickness": ("thick",),
    "size": ("sheet size", "dimensions"),
    "outline": ("file", "drawing"),
    "count": ("qty", "quantity", "pcs", "pieces", "no", "number", "off", "how many"),
    "steel": ("grade", "metal", "material", "alloy"),
    "coating": ("surface", "finish", "coat"),
    "place": ("location", "where", "lies", "rack"),
    "price": ("cost", "value", "price each", "each"),
    "remark": ("remarks", "note", "notes", "comment", "comments"),
    "units": ("unit",),
    "offcut": ("drop",),
    "id": ("ids", "mark"),
}
COLUMN_OF: dict[str, str] = {name: name for name in COLUMNS} | {
    other: name for name, others in _ALSO.items() for other in others
}
"""Every spelling -> the column that is meant."""
