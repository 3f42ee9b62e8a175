"""The cut plan as rows of words: the same for a terminal and a page."""

from bickern.paper.sheets.cut_words import (
    CutCopy,
    bar_words,
    buy_rows,
    gauge_says,
    letters_of,
    name_of,
    part_says,
    parts_in_order,
    proof_says,
    saw_says,
    section_head,
    sheet_head,
    sheet_says,
    short_rows,
    short_says,
    stock_where,
)

Table = tuple[str, tuple[tuple[str, ...], ...]]
"""A title with its rows."""


def tables(copy: CutCopy) -> tuple[Table, ...]:
    """Bar by bar, sheet by sheet, then what is short, what would do instead, what to buy, and how to read the marks."""
    named = letters_of(copy)
    shown = [*_bars(copy, named), *_sheets(copy, named)]
    short, buy = [*short_rows(copy, named), *(("", "", "", says) for says in short_says(copy, named))], buy_rows(copy)
    instead = tuple((named.get(key, ""), says) for key, says in copy.instead)
    more = (("Short", tuple(short)), ("Other stock that would do", instead), ("To buy", buy))
    marks = (("Marks", (("", saw_says(copy)),)),) if any(plan.bars for plan in copy.bars) else ()
    return (*shown, *((title, rows) for title, rows in more if rows), *marks)


def _bars(copy: CutCopy, named: dict[str, str]) -> list[Table]:
    found: list[Table] = []
    for plan in copy.bars:
        for cut in plan.bars:
            told = bar_words(cut, copy, named)
            rows = [(one.letter, one.long, f"mark at {one.to}", one.name) for one in told.lines]
            known = {named[off.want.key]: off.want.says for off in cut.offs}
            rows += [(letter, "", "", says) for letter, says in known.items() if says]
            found.append((f"{told.head}  ({told.where})", (*rows, ("", "", "left over", told.drop))))
        if plan.bars:
            found.append((f"{section_head(plan, copy)}: how sure", (("", proof_says(plan, copy)),)))
    return found


def _sheets(copy: CutCopy, named: dict[str, str]) -> list[Table]:
    style = copy.shop.style
    found: list[Table] = []
    for plan in copy.sheets:
        for cut in plan.sheets:
            rows = [
                (label, *part_says(part, cut.stock, style), name_of(part.want, copy))
                for label, part in parts_in_order(cut, named)
            ]
            title = f"{sheet_head(cut, style)}  ({stock_where(cut.stock)})"
            found.append((title, (*rows, ("", "", "left over", sheet_says(cut, style)))))
        if plan.sheets:
            found.append(("How it was laid", (("", gauge_says(plan)),)))
    return found
