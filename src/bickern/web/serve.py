"""The server: every page registered once, the guard before them all, and the fonts and signs that go with them."""

import asyncio
import ctypes
import os
import secrets
import socket
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from fastapi import FastAPI

from bickern.web.gate.entry import Gate, locked
from bickern.web.gate.guard import BODY_MOST, Guard, close_to_others, hosts_at
from bickern.web.gate.listening import HERE, PORT, own_files, port_of
from bickern.web.place import Place


def application(place: Place) -> FastAPI:
    """The whole page as an application, without the guard that stands before it."""
    os.environ.setdefault("NICEGUI_STORAGE_PATH", str(_kept("looks")))
    from nicegui import ui

    from bickern.web.frame import offer_fonts
    from bickern.web.pages import every_page

    outer = FastAPI(docs_url=None, redoc_url=None, openapi_url=None)
    offer_fonts()
    for pages in every_page():
        pages(place)
    ui.run_with(
        outer,
        title="bickern",
        dark=None,
        language="en-US",
        binding_refresh_interval=None,
        reconnect_timeout=30.0,
        message_history_length=200,
        tailwind=False,
        storage_secret=_secret(),
        session_middleware_kwargs={"same_site": "strict", "https_only": False},
        show_welcome_message=False,
        favicon=SIGN,
    )
    return outer


SIGN = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><path fill="#8a3b12" '
    'd="M2 9h20c4 0 7 1 8 2-2 3-6 5-10 5v4c0 2 2 4 5 5v2H7v-2c3-1 5-3 5-5v-3C7 16 3 13 2 9z"/></svg>'
)
"""A bick iron, small: shown on the browser's tab."""


def _kept(name: str) -> Path:
    """A folder of this program in the user's data folder."""
    folder = own_files(name)
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def _secret() -> str:
    """What the cookies of looks are signed with: drawn once, readable by this user alone."""
    path = _kept("looks") / "secret"
    try:
        with os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w") as file:
            file.write(secrets.token_hex(32))
    except FileExistsError:
        pass
    return path.read_text() or secrets.token_hex(32)


GIVES_BACK_EVERY = 20.0
"""Seconds between two times that unused memory is given back."""
HEAPS, LARGE = -8, -3
"""`M_ARENA_MAX` and `M_MMAP_THRESHOLD` in glibc's `malloc.h`: most heaps; bytes from which something is large."""
SELDOM = (20_000, 20, 50)
"""How often Python looks for what can be thrown away: a window's work makes more short-lived things than it expects."""


def _keeps_little() -> None:
    """All threads take memory from one heap, what is large comes from beside it, where the library can (glibc).

    By itself it gives nearly every thread a heap of its own, which keeps what its largest work once took; and what is
    large it puts into the heap, too, once it has seen it let go, where small things then lie between.
    """
    with suppress(OSError, AttributeError):
        setting = ctypes.CDLL(None).mallopt
        for what, much in ((HEAPS, 1), (LARGE, 128 * 1024)):
            setting(what, much)


async def _gives_back() -> None:
    """Gives memory that lies unused back to the machine now and then, where its library knows how (glibc)."""
    with suppress(OSError, AttributeError):
        trim = ctypes.CDLL(None).malloc_trim
        while True:
            await asyncio.sleep(GIVES_BACK_EVERY)
            await asyncio.to_thread(trim, 0)


def guarded(place: Place, port: int, passphrase: str = "") -> tuple[Guard, Gate | None]:
    """The page with the guard before it, and behind the guard the gate where others on the net may knock."""
    inner = application(place)
    close_to_others()
    gate = Gate(inner, locked(passphrase), port) if place.lan else None
    return Guard(inner if gate is None else gate, hosts_at(port, lan=place.lan)), gate


def serve(
    place: Place,
    *,
    host: str = HERE,
    port: int = PORT,
    listening: socket.socket | None = None,
    passphrase: str = "",
    ready: Callable[[str], None] | None = None,
) -> None:
    """Serves until it is stopped; `listening`: a socket already open, in place of a host and a port.

    `ready` is called once it answers, with the key that lets one browser in (empty where no passphrase is asked for).
    """
    import gc

    import uvicorn

    if place.lan and not passphrase:
        raise ValueError("nothing is served to the net without a passphrase")
    _keeps_little()
    app, gate = guarded(place, port if listening is None else port_of(listening), passphrase)

    class Server(uvicorn.Server):
        async def startup(self, sockets: list[socket.socket] | None = None) -> None:
            await super().startup(sockets)
            # what is there now stays: looking through all of it again and again would hold up a key now and then
            gc.collect()
            gc.freeze()
            gc.set_threshold(*SELDOM)
            self.gives_back = asyncio.create_task(_gives_back())
            if self.started and ready is not None:
                ready("" if gate is None else gate.inside.key())

    settings = uvicorn.Config(
        app,
        host,
        port,
        http="h11",  # holds the head of a request to 64 kB; the quicker one takes it in for as long as it comes
        ws="wsproto",
        ws_max_size=BODY_MOST,
        ws_per_message_deflate=False,  # a small message that unpacks into a large one is not unpacked at all
        proxy_headers=False,  # nobody stands in front of this server: who says so is not believed
        server_header=False,
        access_log=False,
        log_level="warning",
        timeout_graceful_shutdown=2,
    )
    Server(settings).run(None if listening is None else [listening])
