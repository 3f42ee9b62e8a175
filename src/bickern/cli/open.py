"""`bickern open`: the page in a browser. What serves it is loaded only here, once it is known that it can be served."""

import os
import sys
from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from bickern.cli.shelf import add_rack, add_shop, is_there

if TYPE_CHECKING:
    import socket

    from bickern.measure.finding import Finding
    from bickern.web.gate.listening import Held

OPEN = "the same in a browser at the bench: the whole job, drawn as you change it"
NET = "on the same net, too, behind a passphrase (BICKERN_PASSPHRASE, else one is made up and shown)"


def add_open(command: ArgumentParser) -> None:
    """What `open` takes."""
    where = command.add_mutually_exclusive_group()
    where.add_argument(
        "job", nargs="?", type=Path, metavar="JOB", help="a job file, whose folder then is that of the jobs"
    )
    where.add_argument(
        "--folder", type=Path, metavar="DIR", help="the folder of jobs (else: bickern in your documents)"
    )
    add_rack(command)
    add_shop(command)
    command.add_argument("--port", type=int, metavar="N", help="where it listens (8417, or the next free; 0: any)")
    command.add_argument("--lan", action="store_true", help=f"let a tablet in the shop reach it: {NET}")
    command.add_argument("--no-browser", action="store_true", help="open no browser, only say the address")
    command.set_defaults(does=open_page)


def open_page(asked: Namespace) -> int:
    """Serve the page until Ctrl-C, and open a browser on it."""
    from bickern.web.gate.listening import hold, own_files

    if asked.job is not None and asked.job.is_dir():
        asked.job, asked.folder = None, asked.job
    if not is_there(asked.job, asked.shop) or not _is_folder(asked.folder):
        return 2
    folder = _folder(asked)
    held = hold(folder, own_files("open"))
    if isinstance(held, str):
        return _open_already(asked, folder, held)
    return _open_here(asked, folder, held)


def _is_folder(folder: Path | None) -> bool:
    if folder is None or folder.is_dir():
        return True
    print(f"bickern: there is no folder {folder}", file=sys.stderr)
    return False


def _folder(asked: Namespace) -> Path:
    from bickern.web.gate.listening import own_jobs

    if asked.job is not None:
        return Path(asked.job).resolve().parent
    return own_jobs() if asked.folder is None else Path(asked.folder).resolve()


def _open_already(asked: Namespace, folder: Path, address: str) -> int:
    """Two servers on one folder would be one too many: the person is led to the one that is there."""
    if not address:
        print(f"{folder} is just being opened by another bickern.", flush=True)
        return 0
    print(f"{folder} is open already at {address}{_way(asked)[1:]}", flush=True)
    if asked.rack or asked.shop or asked.lan or (asked.port and f":{asked.port}/" not in address):
        print("It goes on as it was started. To start it otherwise, stop it first (Ctrl-C where it runs).", flush=True)
    _browse(asked, address + _way(asked)[1:])
    return 0


def _open_here(asked: Namespace, folder: Path, held: "Held") -> int:
    from bickern.cli.show import show_findings
    from bickern.measure.finding import Finding
    from bickern.web.gate.listening import listen

    passphrase = _passphrase() if asked.lan else ""
    if isinstance(passphrase, Finding):
        show_findings([passphrase])
        return 2
    listening = listen(asked.port, lan=asked.lan)
    if isinstance(listening, Finding):
        show_findings([listening])
        return 2
    _serve(asked, folder, held, listening, passphrase)
    print(f"\nStopped. Everything is saved in {folder}.", flush=True)
    return 0


def _serve(asked: Namespace, folder: Path, held: "Held", listening: "socket.socket", passphrase: str) -> None:
    """Serves until Ctrl-C or the end of the session; both are taken for what they are, and no fault."""
    import signal
    from urllib.parse import quote

    from bickern.desk.job.folder import JobFolder
    from bickern.web.gate.listening import port_of
    from bickern.web.place import Place
    from bickern.web.serve import serve

    port = port_of(listening)

    def ready(key: str) -> None:
        address = f"http://127.0.0.1:{port}/"
        held.says(address)
        _tell(folder, address, port, passphrase)
        come_in = f"come-in?key={key}&to={quote(_way(asked), safe='')}" if key else _way(asked)[1:]
        _browse(asked, address + come_in)

    for one in (signal.SIGINT, signal.SIGTERM):
        signal.signal(one, _noted)
    place = Place(JobFolder(folder), asked.rack, asked.shop, asked.lan)
    serve(place, port=port, listening=listening, passphrase=passphrase, ready=ready)


def _noted(_number: int, _frame: object) -> None:
    """The server has stopped for this signal already, and hands it on: nothing is left to do."""


def _passphrase() -> "str | Finding":
    from bickern.web.gate.entry import ENVIRONMENT, made_up, too_short

    own = os.environ.get(ENVIRONMENT, "")
    return (too_short(own) or own) if own else made_up()


def _tell(folder: Path, address: str, port: int, passphrase: str) -> None:
    """The address in one line; on the net, what to type there and what to think of."""
    print(f"bickern is open at {address}   Jobs: {folder}   Ctrl-C stops it.", flush=True)
    if not passphrase:
        return
    from bickern.web.gate.listening import address_on_net

    net = address_on_net()
    print(f"On the same net:  http://{net or 'this-machine'}:{port}/", flush=True)
    told = "(the one in BICKERN_PASSPHRASE)" if os.environ.get("BICKERN_PASSPHRASE") else passphrase
    print(f"Passphrase:       {told}", flush=True)
    print(
        "Plain http: who can listen on this net can read along. A shop's own net will do, a public one not.", flush=True
    )


def _way(asked: Namespace) -> str:
    """Where the browser begins: at the job, or where all of them are."""
    from urllib.parse import quote

    return "/" if asked.job is None else f"/job/{quote(asked.job.name)}"


def _browse(asked: Namespace, address: str) -> None:
    """Opens the browser beside what goes on here; none where only a text browser could take over the terminal."""
    from threading import Thread
    from webbrowser import open as browse

    shows = sys.platform in {"win32", "darwin"} or any(
        os.environ.get(n) for n in ("DISPLAY", "WAYLAND_DISPLAY", "BROWSER")
    )
    if shows and not asked.no_browser:
        Thread(target=browse, args=(address,), daemon=True).start()
