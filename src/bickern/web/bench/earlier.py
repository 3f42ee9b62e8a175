"""The states there were: each can be looked at and put back; putting one back is a new state, so nothing is lost."""

from collections.abc import Sequence
from functools import partial

from nicegui import ui

from bickern.desk.job.open_job import State
from bickern.web.bench.window import Window
from bickern.web.parts import button, words

MANY, MOST = 2000, 60
"""States that are looked through, and how many of them are listed."""


def at_a_time(states: Sequence[State]) -> list[State]:
    """The newest first; of what was done in one way within one minute, the last."""
    last: dict[tuple[str, str, str], State] = {(one.at[:16], one.what, one.who): one for one in states}
    return sorted(last.values(), key=lambda one: -one.number)[:MOST]


def earlier_of(window: Window) -> None:
    """The list of states, laid out when it is opened."""
    with ui.element("details").classes("earlier") as details:
        ui.html("Earlier states of this file", tag="summary", sanitize=False)
        box = ui.element("ol").classes("stack")

    def show() -> None:
        box.clear()
        with box:
            for state in at_a_time(window.doc.states(MANY)):
                with ui.element("li").classes("row"):
                    who = f" by {state.who}" if state.who else ""
                    words(f"{state.number} · {state.at[11:16]} UTC {state.at[:10]} · {state.what}{who}")
                    button("Put back", partial(window.back_to, state.number), small=True,
                           about=f"Put back state {state.number}")  # fmt: skip

    details.on("toggle", lambda event: show() if event.args else box.clear(), js_handler="(e) => emit(e.target.open)")
