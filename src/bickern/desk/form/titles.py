"""What an entry of a list is called, in a few words: `over 4, to 1/2 sq, "tip"`."""

from bickern.book.forms import Form
from bickern.book.text import Group, Items, Value, Word

LONGEST = 64
"""Letters of a title."""
_NEXT = ("turns", "from", "as", "to", "at", "on", "through", "round", "turn", "inside radius", "up", "divide", "number")
_LAST = ("name", "group")


def title_of(value: Value, form: Form) -> str:
    """The entry in short: what it is, then what tells it best, then its name in quotes."""
    if isinstance(value, Word):
        return _short(value.text)
    if isinstance(value, Items):
        return _short(_listed(value))
    words = value.words()
    first = next((w for w in (*form.one_of, *form.words()) if w in words), "")
    said = [w for w in (first, *(w for w in _NEXT if w in words and w != first)) if w]
    parts = [_told(w, value) for w in said] or [_told(w, value) for w in words[:2]]
    name = next((f"“{v.text}”" for w in _LAST if isinstance(v := value.get(w), Word) and v.text), "")
    return _short(", ".join(p for p in parts if p), LONGEST - len(name) - 2) + (f", {name}" if name and parts else name)


def _told(word: str, group: Group) -> str:
    value = group.get(word)
    if isinstance(value, Word):
        return f"{word} {value.text}".strip()
    if isinstance(value, Items):
        return f"{word} {_listed(value)}"
    if isinstance(value, Group):
        inner = [
            f"{e.key.text} {e.value.text}" for e in value.entries[:2] if isinstance(e.value, Word) and e.value.text
        ]
        return f"{word} {', '.join(inner)}".strip()
    return ""


def _listed(items: Items) -> str:
    return ", ".join(i.text if isinstance(i, Word) else "..." for i in items.items)


def _short(text: str, most: int = LONGEST) -> str:
    return text if len(text) <= most else text[: max(most - 1, 1)].rstrip(" ,") + "…"
