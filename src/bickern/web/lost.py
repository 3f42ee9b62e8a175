"""What is shown where there is no page, or where a page failed: plain words, and the way back."""

from nicegui import app, ui
from starlette.requests import Request
from starlette.responses import HTMLResponse, PlainTextResponse, Response

from bickern.web.looks import style

NONE = "There is no such page."
FAILED = "This page failed. The fault is in bickern, not in your job: the job is as you left it."
BACK = '<p><a class="main" href="/">Back to the jobs</a></p>'


def offer_ways_back() -> None:
    """Registers both for every address that no page has."""

    @app.exception_handler(404)
    def missing(request: Request, _fault: Exception) -> Response:
        if "text/html" not in request.headers.get("accept", ""):
            return PlainTextResponse(NONE, status_code=404)
        return HTMLResponse(_page(NONE), status_code=404)

    @app.on_page_exception
    def failed() -> None:
        ui.add_head_html(style("", False))
        ui.page_title("bickern")
        with ui.element("main").classes("sheet"):
            ui.html(f"<h1>{FAILED}</h1><p>Try it once more.</p>{BACK}", sanitize=False)


def _page(says: str) -> str:
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>bickern</title>'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">{style("", False)}</head>'
        f'<body><main class="sheet"><h1>{says}</h1>{BACK}</main></body></html>'
    )
