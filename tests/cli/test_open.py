"""`bickern open`: it starts, says where, is found again, stops when told, and loads nothing that it does not need."""

import http.client
import os
import re
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from bickern.cli.main import run
from bickern.measure.finding import Finding
from bickern.web.gate import listening
from bickern.web.gate.listening import Held, hold, listen, port_of

ROOT = Path(__file__).parents[2]
HOOK = ROOT / "examples" / "rail-s-hook.yaml"
Said = pytest.CaptureFixture[str]
LONG = 40.0
"""Seconds that a start may take on a machine that does much else."""


@pytest.fixture
def own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of jobs, and a home of its own for everything else."""
    for name in ("BICKERN_PASSPHRASE", "BICKERN_RACK", "DISPLAY", "WAYLAND_DISPLAY", "BROWSER", "NICEGUI_STORAGE_PATH"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    jobs = tmp_path / "jobs"
    jobs.mkdir()
    (jobs / HOOK.name).write_bytes(HOOK.read_bytes())
    return jobs


def command(*words: str | Path) -> list[str]:
    return [sys.executable, "-m", "bickern.cli", "open", *map(str, words)]


@contextmanager
def opened(*words: str | Path) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """A server of its own, and the first line that it says."""
    server = subprocess.Popen(command(*words), stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    try:
        assert server.stdout is not None
        yield server, server.stdout.readline()
    finally:
        server.kill()
        server.communicate()


def address_in(line: str) -> str:
    found = re.search(r"http://127\.0\.0\.1:\d+/", line)
    assert found, line
    return found[0]


def answer(address: str, path: str, **headers: str) -> http.client.HTTPResponse:
    link = http.client.HTTPConnection(urlsplit(address).netloc, timeout=LONG)
    link.request("GET", path, headers={"Accept": "text/html", **headers})
    return link.getresponse()


def test_it_opens_is_found_by_a_second_start_and_stops_at_ctrl_c(own: Path):
    with opened("--folder", own, "--port", "0", "--no-browser") as (server, line):
        address = address_in(line)
        assert str(own) in line
        page = answer(address, "/")
        assert page.status == 200
        assert b"bickern" in page.read()
        again = subprocess.run(command(own / HOOK.name, "--no-browser"), capture_output=True, text=True, timeout=LONG)
        assert again.returncode == 0
        assert again.stdout == f"{own} is open already at {address}job/{HOOK.name}\n"
        folder = subprocess.run(command(own, "--no-browser"), capture_output=True, text=True, timeout=LONG)
        assert folder.stdout == f"{own} is open already at {address}\n"
        server.send_signal(signal.SIGINT)
        rest, _ = server.communicate(timeout=LONG)
        assert f"Stopped. Everything is saved in {own}." in rest
        assert "Traceback" not in rest
        assert server.returncode == 0
    assert isinstance(hold(own, listening.own_files("open")), Held)  # and the folder is free again


def test_it_ends_as_well_when_the_session_ends_even_with_a_page_open(own: Path):
    with opened(own / HOOK.name, "--port", "0", "--no-browser") as (server, line):
        netloc = urlsplit(address_in(line)).netloc
        with socket.create_connection(netloc.split(":"), timeout=LONG) as page:
            asked = [
                "GET /_nicegui_ws/socket.io/?EIO=4&transport=websocket HTTP/1.1", f"Host: {netloc}",
                f"Origin: http://{netloc}", "Upgrade: websocket", "Connection: Upgrade",
                "Sec-WebSocket-Version: 13", "Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==", "", "",
            ]  # fmt: skip
            page.sendall("\r\n".join(asked).encode())
            assert page.recv(200).startswith(b"HTTP/1.1 101")
            asked_at = time.monotonic()
            server.send_signal(signal.SIGTERM)
            rest, _ = server.communicate(timeout=LONG)
        assert time.monotonic() - asked_at < 15
        assert "Everything is saved" in rest
        assert server.returncode == 0


def test_on_the_net_a_passphrase_is_made_up_and_the_browser_that_it_opens_needs_none(own: Path, monkeypatch, tmp_path):
    told = tmp_path / "told"
    browser = tmp_path / "browser"
    browser.write_text(f'#!/bin/sh\nprintf "%s" "$1" > {told}.new && mv {told}.new {told}\n')
    browser.chmod(0o755)
    monkeypatch.setenv("BROWSER", str(browser))
    with opened(own / HOOK.name, "--port", "0", "--lan") as (server, line):
        address = address_in(line)
        assert server.stdout is not None
        more = [server.stdout.readline() for _ in range(3)]
        assert "On the same net" in more[0]
        assert re.search(r"Passphrase: +([a-z]{4} ){3}[a-z]{4}$", more[1])
        assert "can read along" in more[2]
        assert answer(address, "/").getheader("location") == "/come-in?to=%2F"
        until = time.monotonic() + LONG
        while not told.exists() and time.monotonic() < until:
            time.sleep(0.05)
        url = told.read_text()
        assert url.startswith(f"{address}come-in?key=")
        first, second = (answer(address, url[len(address) - 1 :]) for _ in range(2))
        assert (first.status, first.getheader("location")) == (303, f"/job/{HOOK.name}")
        assert second.status == 200  # a key is good once: the form
        cookie = (first.getheader("set-cookie") or "").partition(";")[0]
        assert answer(address, f"/job/{HOOK.name}", Cookie=cookie).status == 200
        server.send_signal(signal.SIGINT)
        server.communicate(timeout=LONG)


def test_a_job_or_a_folder_that_is_not_there(own: Path, capsys: Said):
    assert run(["open", str(own / "none.yaml"), "--no-browser"]) == 2
    assert "there is no file" in capsys.readouterr().err
    assert run(["open", "--folder", str(own / "none"), "--no-browser"]) == 2
    assert "there is no folder" in capsys.readouterr().err
    assert run(["open", str(own / HOOK.name), "--folder", str(own)]) == 2  # one or the other


def test_a_port_that_is_taken_or_is_none_is_said(own: Path, capsys: Said):
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = str(taken.getsockname()[1])
        assert run(["open", "--folder", str(own), "--port", port, "--no-browser"]) == 2
        assert f"port {port} is taken" in capsys.readouterr().out
    for none in ("70000", "-1"):
        assert run(["open", "--folder", str(own), "--port", none, "--no-browser"]) == 2
        assert "cannot be listened at" in capsys.readouterr().out


def test_a_passphrase_that_keeps_nobody_out_is_said(own: Path, capsys: Said, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("BICKERN_PASSPHRASE", "anvil")
    assert run(["open", "--folder", str(own), "--lan", "--no-browser"]) == 2
    assert "too short" in capsys.readouterr().out


def test_where_no_port_is_asked_for_the_next_free_one_is_taken(monkeypatch: pytest.MonkeyPatch):
    with socket.create_server(("127.0.0.1", 0)) as taken:
        monkeypatch.setattr(listening, "PORT", taken.getsockname()[1])
        found = listen()
        assert not isinstance(found, Finding)
        with found:
            assert taken.getsockname()[1] < port_of(found) < taken.getsockname()[1] + listening.TRIED
        monkeypatch.setattr(listening, "TRIED", 1)
        none = listen()
        assert isinstance(none, Finding)
        assert none.name == "port-taken"


def test_it_listens_to_this_machine_alone_unless_asked():
    for lan, host in ((False, "127.0.0.1"), (True, "0.0.0.0")):
        found = listen(0, lan=lan)
        assert not isinstance(found, Finding)
        with found:
            assert found.getsockname()[0] == host


def test_without_a_folder_the_jobs_lie_in_the_users_documents(own: Path):
    jobs = listening.own_jobs()
    assert jobs.is_dir()
    assert jobs.name == "bickern"
    assert jobs.is_relative_to(os.environ["HOME"])


def test_a_folder_is_held_by_one_process_and_freed_by_its_end(tmp_path: Path):
    folder, kept = tmp_path / "jobs", tmp_path / "open"
    folder.mkdir()
    first = hold(folder, kept)
    assert isinstance(first, Held)
    assert hold(folder, kept) == ""  # it is starting
    first.says("http://127.0.0.1:9/")
    assert hold(folder, kept) == "http://127.0.0.1:9/"
    (tmp_path / "link").symlink_to(folder)
    assert hold(tmp_path / "link", kept) == "http://127.0.0.1:9/"
    first.file.close()
    assert isinstance(hold(folder, kept), Held)


def test_the_terminal_loads_nothing_of_the_page():
    heavy = "{'nicegui', 'fastapi', 'starlette', 'uvicorn', 'socketio', 'asyncio', 'bickern.web'}"
    for words in (["--version"], ["check", str(HOOK)], ["open", "--help"]):
        asked = f"import sys; from bickern.cli.main import run; run({words!r}); print({heavy} & sys.modules.keys())"
        said = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True).stdout
        assert said.splitlines()[-1] == "set()"
