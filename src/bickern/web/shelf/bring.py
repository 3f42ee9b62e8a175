"""A button that brings files in: the browser's own choice of files, taken in one batch."""

from collections.abc import Awaitable, Callable, Sequence

from nicegui import events, ui
from nicegui.element import Element

from bickern.measure.finding import Finding, stop
from bickern.web.gate.uploads import Upload, all_taken_in

Takes = Callable[[list[Upload | Finding]], Awaitable[None]]


def bring(says: str, ends: Sequence[str], takes: Takes, *, many: bool = False) -> Element:
    """The button; `ends`: endings that are taken in, `takes`: is given every file, or why it is none."""

    async def came(event: events.MultiUploadEventArguments) -> None:
        found = await all_taken_in(event.files, ends)
        hidden.reset()
        with made:
            await takes(found)

    async def refused() -> None:
        says = "a file that was chosen is none that is read here"
        with made:
            await takes([stop("bad-file-end", says, f"choose one that ends in {' or '.join(ends)}")])

    hidden = ui.upload(multiple=True, on_multi_upload=came, on_rejected=refused, auto_upload=True)
    hidden.props(f"accept={','.join(ends)}")
    hidden.style("display:none").props["aria-hidden"] = "true"
    if not many:
        hidden.props["max-files"] = 1
    made = ui.element("button").props("type=button").classes("plain")
    with made:
        ui.label(says)
    return made.on("click", js_handler=f"() => runMethod({hidden.id}, 'pickFiles', [])")
