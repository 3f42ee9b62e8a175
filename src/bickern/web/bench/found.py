"""What was found: a list with the way to each place, and the fix at hand where it is certain."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

from nicegui import ui
from nicegui.element import Element

from bickern.desk.form.fixes import Fix, fixes_for
from bickern.measure.finding import Finding, Weight
from bickern.web.bench.window import Window
from bickern.web.parts import KIND, button, finding_html, heading, say
from bickern.web.shown import Shown

Goes = Callable[[Finding], None]
"""Moves the cursor to where a finding is."""
MOST = 40
"""Findings that are shown at once: behind so many the first must be mended anyway."""


def found_in(window: Window, goes: Goes) -> None:
    """The list, kept up to date; it is only laid out anew where something in it has changed."""
    heading("What was found")
    head = Shown("p").props("role=status").classes("counted")
    box = ui.element("ul").classes("found")
    with ui.element("details") as aside:
        count = Shown("summary")
        notes = ui.element("ul").classes("found")
    told: list[tuple[Finding, ...]] = [()]

    def show(now: Window) -> None:
        found = tuple(sorted(now.found, key=lambda one: -one.weight))
        head.put(_counted(found))
        if found != told[0]:
            told[0] = found
            plain = [one for one in found if one.weight is Weight.NOTE]
            aside.set_visibility(bool(plain))
            count.put(f"{len(plain)} to know")
            _list(box, [one for one in found if one.weight is not Weight.NOTE], now, goes)
            _list(notes, plain, now, goes)

    window.shows.append(show)


def _list(box: Element, found: Sequence[Finding], window: Window, goes: Goes) -> None:
    box.clear()
    with box:
        for one in found[:MOST]:
            _item(one, window, goes)


def _counted(found: tuple[Finding, ...]) -> str:
    """`1 stops the work, 2 to look at`."""
    said = ((Weight.STOP, "stops the work", "stop the work"), (Weight.WARN, "to look at", "to look at"))
    counts = [(sum(one.weight is weight for one in found), single, more) for weight, single, more in said]
    words = [f"{count} {single if count == 1 else more}" for count, single, more in counts if count]
    return ", ".join(words) or "Nothing stands against it."


def _item(found: Finding, window: Window, goes: Goes) -> Element:
    with ui.element("li").classes(KIND[found.weight]) as item:
        ui.html(finding_html(_as_said(found, window)), sanitize=False)
        with ui.element("div").classes("row"):
            for fix in fixes_for(found, window.doc.text):
                button(fix.says, partial(_mend, window, fix), small=True)
            if found.where.line:
                button("Go there", lambda: goes(found), small=True, about=f"Go to line {found.where.line}")
    return item


def _as_said(found: Finding, window: Window) -> Finding:
    return replace(found, says=window.said(found.says), try_this=window.said(found.try_this))


def _mend(window: Window, fix: Fix) -> None:
    if window.changed(fix.does, what="fix"):
        say(f"Done: {fix.says}. Undo takes it back.")
