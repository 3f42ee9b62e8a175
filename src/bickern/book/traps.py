"""Traps of the notation: what a smith writes and YAML takes another way, told in words with what to write instead."""

import re
from itertools import pairwise

from bickern.measure.finding import Finding, Where, stop, warn

Spot = tuple[str, Where, int, int]
"""A plain word, where it stands, and its first and last offset in the text."""


def value_traps(text: str, spots: list[Spot]) -> list[Finding]:
    """Findings for plain words: a comment that swallowed part of a size, a comma that split one in a list."""
    found = [f for spot in spots if (f := _swallowed(text, spot)) is not None]
    for before, after in pairwise(spots):
        trap = _split_in_list(text, before, after)
        if trap is not None:
            found.append(trap)
    return found


def _swallowed(text: str, spot: Spot) -> Finding | None:
    """`1/2 #4` and `screw: #10`: all after ` #` is a comment."""
    word, where, _, end = spot
    rest = text[end : end + 80].split("\n")[0]
    found = re.match(r"\s+(#\s?\d\S*)", rest) if word else re.match(r"\s*(#\d\S*)", rest)
    if found is None or (word and not re.search(r"[\d/]$", word)) or (word and " " in found.group(1)):
        return None
    said = found.group(1)
    if not word:
        return stop(
            "comment", f"`{said}` is a comment, so there is no value here", f"write `{said[1:]}` without the #", where
        )
    says = f"only `{word}` is read here: `{said}` and what follows is a comment"
    return warn("comment", says, "leave a space after the # of a remark, and none in a size", where)


def _split_in_list(text: str, before: Spot, after: Spot) -> Finding | None:
    """`[1,5 mm]`: a bare number, a comma without a space, then a number with a unit."""
    (left, where, _, end), (right, _, start, _) = before, after
    if text[end:start] != "," or not re.fullmatch(r"\d+", left) or not re.match(r"\d+\s*(mm|cm|in|m|\"|ga)\b", right):
        return None
    says = f"`{left},{right}` is read as two things, split at the comma"
    return stop("decimal-comma", says, f"write `{left}.{right}` with a point, or a space after the comma", where)


def syntax_fault(text: str, problem: str, where: Where) -> Finding:
    """What is wrong with the YAML, in words; the line is where reading stopped, which is at or after the slip."""
    lines = text.splitlines()
    line = lines[where.line - 1] if 0 < where.line <= len(lines) else ""
    for name, test, says, try_this in _FAULTS:
        if re.search(test, f"{problem}\n{line}"):
            return stop(name, says, try_this, where)
    return stop(
        "yaml", f"this cannot be read as YAML here ({problem.strip()})", "look at this line and the one above it", where
    )


_FAULTS = (
    ("tab", r"\\t|^.*\n *\t", "there is a tab before this word; YAML wants spaces", "put spaces in its place"),
    ("indent", r"mapping values are not allowed[^\n]*\n\s*[^:]+:\s[^:]*$",
     "this line is further in than the line above allows, or the line above lacks its colon or its space",
     "line the words up in one column, each as `word: value`"),
    ("colon", r"mapping values are not allowed", "a second colon on this line cannot be read",
     "put quotes round the text, or the inner part in braces: `seam: {lap: 1/2}`"),
    ("bracket", r"expected ',' or|but got '<stream end>'|unexpected end of stream[^\n]*flow",
     "a bracket or brace is not closed, or a comma is missing", "close it, or put commas between the words"),
    ("quote", r"quoted scalar|unexpected end of stream", "a quote is opened and never closed",
     "close it, or write inches as `in`"),
    ("quote", r"found '<scalar>'", "there is more after a closing quote", "put the whole value inside the quotes"),
    ("starts-badly", r"cannot start any token", "a value cannot begin with this sign", "put quotes round it"),
    ("indent", r"block (mapping|sequence|collection|end)|could not find expected ':'|did not find expected",
     "this line does not line up with those around it, or lacks its colon", "line the words up, each as `word: value`"),
)  # fmt: skip
