"""The frame of every page: the head with its ways, the place where things are said, and how this person wants it."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from html import escape
from urllib.parse import quote

from nicegui import app, ui
from starlette.responses import FileResponse, Response

from bickern.desk.job.new import title_of
from bickern.desk.job.open_job import OpenJob
from bickern.desk.seen import AS_SHOP, Seen
from bickern.measure.finding import Finding
from bickern.web.looks import style
from bickern.web.place import Place

WAYS_OF_JOB = (
    ("", "Bench"), ("round", "In the round"), ("heats", "Fire"),
    ("stock", "Stock"), ("price", "Price"), ("paper", "Paper"),
)  # fmt: skip
"""(end of the address, word) of what can be looked at of a job, in the order of the day."""
WAYS = (("/", "Jobs"), ("/rack", "Rack"), ("/ask", "Ask"), ("/looks", "Looks"))
"""(address, word) of what needs no job."""


@dataclass(frozen=True, slots=True)
class Looks:
    """How a person wants the page: `light` "", "light" or "dark"; `large` letters; their name in the rack's history."""

    seen: Seen = AS_SHOP
    light: str = ""
    large: bool = False
    who: str = ""


@dataclass(frozen=True, slots=True)
class Visit:
    """One page shown to one person: what is served, how they want it, and the job ("" and None: no job)."""

    place: Place
    looks: Looks
    job: str = ""
    doc: OpenJob | None = None

    @property
    def seen(self) -> Seen:
        """Which tape comes first, and whose words."""
        return self.looks.seen


def looks_here() -> Looks:
    """What this browser is remembered by; only asked while a page is built."""
    kept = app.storage.user

    def word(name: str, known: tuple[str, ...]) -> str:
        said = str(kept.get(name, ""))
        return said if said in known else ""

    seen = Seen(word("first", ("in", "mm")), word("english", ("US", "UK")))
    return Looks(seen, word("light", ("light", "dark")), kept.get("large") is True, str(kept.get("who", ""))[:60])


def keep_looks(**said: str | bool) -> None:
    """Remembers how this browser wants it: first, english, light, large, who."""
    app.storage.user.update(said)


def address(job: str, way: str = "") -> str:
    """The address of a view of a job."""
    return f"/job/{quote(job)}" + (f"/{way}" if way else "")


@contextmanager
def framed(place: Place, title: str, at: str, job: str = "") -> Iterator[Visit]:
    """Lays out a page; of a job its own title is shown. `at`: which way it is ("" Bench, "round" ...; "/rack" ...).

    A job that is not there shows why, and the way back; the visit then has no document, and the page adds nothing.
    """
    looks = looks_here()
    ui.add_head_html(style(looks.light, looks.large) + APART)
    doc = place.jobs.open(job) if job else None
    if isinstance(doc, OpenJob):
        doc.look()
    if job:
        title = (title_of(doc.text) if not isinstance(doc, Finding | None) else "") or job
    ui.page_title(f"{title} · bickern")
    with ui.element("div").classes("sheet"):
        ui.html('<a class="skip" href="#main">To the work</a>', sanitize=False)
        _head(title, at, job, there=isinstance(doc, OpenJob))
        with ui.element("div").props("id=main tabindex=-1").classes("work"):
            if isinstance(doc, Finding):
                from bickern.web.parts import findings

                findings([doc])
                ui.link("Back to the jobs", "/").classes("plain")
                yield Visit(place, looks)
            else:
                yield Visit(place, looks, job, doc)
        ui.element("div").props("id=said role=status aria-live=polite").classes("said")


def _head(title: str, at: str, job: str, *, there: bool) -> None:
    with ui.element("header").classes("head"):
        with ui.element("div").classes("title"):
            ui.html("<a href='/' class='maker' aria-label='bickern, to the jobs'>bickern</a>", sanitize=False)
            ui.html(escape(title), tag="h1", sanitize=False)
            _ways("Elsewhere", WAYS, at if not job else "", "aside")
        if job and there:
            _ways("Of this job", [(address(job, end), word) for end, word in WAYS_OF_JOB], address(job, at), "bar")


def _ways(named: str, ways: list[tuple[str, str]] | tuple[tuple[str, str], ...], here: str, kind: str) -> None:
    """Ways to go, laid out along a line as marks on a bar are; where one is, the mark is filled."""
    with ui.element("nav").props(f'aria-label="{named}"').classes(f"ways {kind}"):
        for where, word in ways:
            link = ui.link(word, where).classes("way")
            if where == here:
                link.props('aria-current="page"')


APART = """<script>
(() => {
  let held = null;
  const apart = (yes) => {
    const sheet = document.querySelector(".sheet");
    if (!sheet) return;
    if (yes) held = document.activeElement;
    sheet.inert = yes;
    sheet.classList.toggle("apart", yes);
    if (!yes && held && held.isConnected) held.focus({ preventScroll: true });
  };
  const wait = setInterval(() => {
    if (!window.socket) return;
    clearInterval(wait);
    window.socket.on("disconnect", () => apart(true));
    window.socket.on("connect", () => apart(false));
  }, 100);
})();
</script>"""
"""While the server does not answer nothing can be typed: it could not be kept."""
FONTS = {"regular": "SourceSansPro-Regular.ttf", "bold": "SourceSansPro-Semibold.ttf"}


def offer_fonts() -> None:
    """Serves the typeface that the sheets are set in, out of its own package."""
    from importlib.util import find_spec
    from pathlib import Path

    spec = find_spec("font_source_sans_pro")
    folder = Path(spec.origin).parent / "files" if spec is not None and spec.origin else None

    @app.get("/letters/{name}.ttf", include_in_schema=False)
    def letters(name: str) -> Response:
        file = FONTS.get(name)
        if folder is None or file is None:
            return Response(status_code=404)
        return FileResponse(folder / file, media_type="font/ttf", headers={"Cache-Control": "max-age=31536000"})
