"""Files brought in by hand: chosen, or dropped anywhere on the page; what comes is looked at by the server."""

from collections.abc import Awaitable, Callable, Sequence

from nicegui import events, ui
from nicegui.element import Element

from bickern.measure.finding import Finding, stop
from bickern.web.gate.guard import UPLOAD_MOST
from bickern.web.gate.uploads import Upload, all_taken_in

Takes = Callable[[list[Upload | Finding]], Awaitable[None]]
"""Is given every file, or why it is none."""
STYLE = """
.bring-in{border:2px dashed var(--line);padding:1rem;display:flex;flex-wrap:wrap;gap:.6rem 1rem;align-items:center}
.bring-in.over{border-style:solid;border-color:var(--ember)}
.bring-in p{flex:1 1 12rem}
"""
_OVER = """(e) => {
  if (![...e.dataTransfer.types].includes("Files")) return;
  e.preventDefault();
  document.getElementById("bring-in").classList.toggle("over", %s);
}"""
_DROPPED = """(e) => {
  e.preventDefault();
  document.getElementById("bring-in").classList.remove("over");
  const files = [...e.dataTransfer.files];
  if (files.length) runMethod(%d, "addFiles", [files]);
}"""


def bring_in(room: Element, says: str, button: str, ends: Sequence[str], takes: Takes) -> Element:
    """A box with a button; files may be dropped anywhere in `room`, too. `ends`: endings that are taken in."""
    ui.add_css(STYLE)

    async def came(event: events.MultiUploadEventArguments) -> None:
        found = await all_taken_in(event.files, ends)
        hidden.reset()
        with box:
            await takes(found)

    async def left_out() -> None:
        with box:
            says = "a file was left out: it has another ending, or is larger than what is taken in"
            await takes([stop("left-out", says, f"files that are taken: {', '.join(ends)}")])

    hidden = ui.upload(
        multiple=True, max_file_size=UPLOAD_MOST, on_multi_upload=came, on_rejected=left_out, auto_upload=True
    ).props(f"accept={','.join(ends)}")
    hidden.style("display:none").props["aria-hidden"] = "true"
    with ui.element("div").classes("bring-in").props("id=bring-in") as box:
        choose = ui.element("button").props("type=button").classes("plain")
        with choose:
            ui.label(button)
        choose.on("click", js_handler=f"() => runMethod({hidden.id}, 'pickFiles', [])")
        with ui.element("p"):
            ui.label(says)
    room.on("dragover", js_handler=_OVER % "true")
    room.on("dragleave", js_handler=_OVER % "false")
    room.on("drop", js_handler=_DROPPED % hidden.id)
    return box
