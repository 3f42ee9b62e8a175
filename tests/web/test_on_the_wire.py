"""The whole server, spoken to over a bare socket as no browser would: what a hostile visitor is told, byte for byte."""

import re
import socket
import struct
from dataclasses import dataclass
from pathlib import Path

import pytest
from served import Served

from bickern.web.gate.guard import BODY_MOST, UPLOAD_MOST

JOB = "rail-s-hook.yaml"
SOCKET = "/_nicegui_ws/socket.io/?EIO=4&transport=websocket"
LONG = 30.0


@dataclass
class Server:
    """A server, and how to speak to it without a browser."""

    served: Served

    @property
    def port(self) -> int:
        return self.served.port

    @property
    def host(self) -> str:
        return f"127.0.0.1:{self.port}"

    def link(self) -> socket.socket:
        return socket.create_connection(("127.0.0.1", self.port), timeout=LONG)

    def head(self, start: str, *more: str) -> bytes:
        return "\r\n".join([start, f"Host: {self.host}", *more, "", ""]).encode("latin-1")

    def said(self, start: str, *more: str, body: bytes = b"") -> str:
        """The whole answer to one request, or as much as came before the line was cut."""
        with self.link() as link:
            link.sendall(self.head(start, "Connection: close", *more) + body)
            return everything(link)

    def memory(self) -> int:
        """Bytes that it has held at most so far, where the system tells (Linux); else nothing is compared."""
        told = Path(f"/proc/{self.served.pid}/status")
        held = re.search(r"VmHWM:\s+(\d+) kB", told.read_text()) if told.is_file() else None
        return int(held[1]) * 1024 if held else 0


def everything(link: socket.socket) -> str:
    come = b""
    try:
        while more := link.recv(65536):
            come += more
    except ConnectionError:
        pass
    return come.decode("latin-1")


@pytest.fixture(scope="module")
def server(served: Served) -> Server:
    served.job("rail-s-hook", JOB)
    (served.folder.parent / "secret.yaml").write_text("job: Secret\n")
    return Server(served)


def status(answer: str) -> str:
    return answer.partition("\r\n")[0]


def test_a_job_is_shown_and_nothing_outside_the_folder(server: Server):
    assert status(server.said(f"GET /job/{JOB} HTTP/1.1")) == "HTTP/1.1 200 OK"
    for path in ("/job/../secret.yaml", "/job/..%2fsecret.yaml", "/job/%2e%2e/secret.yaml", "/job/..%5csecret.yaml"):
        answer = server.said(f"GET {path} HTTP/1.1")
        assert "Secret" not in answer, path
        assert status(answer).startswith("HTTP/1.1 400"), path


@pytest.mark.parametrize("path", ["/job/none.yaml", "/job/%00", "/job/..", "/job/secret.yaml", "/job/" + "x" * 3000])
def test_a_job_that_is_not_there_is_no_stack_trace(server: Server, path: str):
    answer = server.said(f"GET {path} HTTP/1.1")
    assert "Traceback" not in answer
    assert not status(answer).startswith("HTTP/1.1 5")


@pytest.mark.parametrize(
    "path",
    [
        "/_nicegui/3.18.0/static/../../../etc/passwd", "/_nicegui/3.18.0/resources/x/..%2f..%2fetc/passwd",
        "/docs", "/openapi.json",
    ],
)  # fmt: skip
def test_nothing_is_served_that_is_not_meant_to_be(server: Server, path: str):
    assert status(server.said(f"GET {path} HTTP/1.1"))[9:12] in {"400", "404"}


def test_the_head_of_a_request_is_held_to_a_measure(server: Server):
    before = server.memory()
    with server.link() as link:
        try:
            link.sendall(server.head("GET / HTTP/1.1")[:-2])
            for _ in range(1000):
                link.sendall(b"X-Filler: " + b"x" * 65000 + b"\r\n")
        except ConnectionError:
            pass  # it has been cut, as it should
        else:
            pytest.fail("65 MB of a request's head were taken in")
    assert server.memory() - before < 20 * 2**20


@pytest.mark.parametrize(
    ("path", "most"),
    [
        ("/_nicegui_ws/socket.io/?EIO=4&transport=polling", BODY_MOST),
        ("/_nicegui/client/a/upload/1", UPLOAD_MOST),
    ],
)  # fmt: skip
def test_more_than_is_taken_in_is_refused_or_left_unread(server: Server, path: str, most: int):
    origin = f"Origin: http://{server.host}"
    told = server.said(f"POST {path} HTTP/1.1", origin, f"Content-Length: {most + 1}", body=b"x" * 100)
    assert status(told).startswith("HTTP/1.1 413")
    before = server.memory()
    with server.link() as link:
        link.sendall(server.head(f"POST {path} HTTP/1.1", origin, "Transfer-Encoding: chunked"))
        try:
            for _ in range(most // 65536 * 4):
                link.sendall(b"10000\r\n" + bytes(65536) + b"\r\n")
            answer = link.recv(4096).decode("latin-1")
        except ConnectionError:
            answer = ""
    assert not answer or status(answer)[9:12] in {"413", "400", "404"}
    assert server.memory() - before < 4 * most + 20 * 2**20


def shaken(server: Server, *more: str, path: str = SOCKET) -> tuple[socket.socket, str]:
    """A web socket as far as its handshake, and how that was answered."""
    link = server.link()
    asked = ("Upgrade: websocket", "Connection: Upgrade", "Sec-WebSocket-Version: 13")
    link.sendall(server.head(f"GET {path} HTTP/1.1", *asked, "Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==", *more))
    return link, status(link.recv(4096).decode("latin-1"))


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "http://localhost:{port}", None])
def test_a_web_socket_of_another_page_is_refused(server: Server, origin: str | None):
    named = [] if origin is None else [f"Origin: {origin.format(port=server.port)}"]
    link, answer = shaken(server, *named)
    link.close()
    assert answer.startswith("HTTP/1.1 403")


def frame(text: bytes) -> bytes:
    """One masked frame of a web socket (RFC 6455, 5.2), its mask all noughts."""
    return b"\x81" + struct.pack(">BQ", 0x80 | 127, len(text)) + bytes(4) + text


def test_a_message_over_a_web_socket_is_held_to_a_measure(server: Server):
    link, answer = shaken(server, f"Origin: http://{server.host}", "Sec-WebSocket-Extensions: permessage-deflate")
    with link:
        assert answer.startswith("HTTP/1.1 101")
        try:
            link.sendall(frame(b"4" * (BODY_MOST + 1)))
            told = everything(link).encode("latin-1")
        except ConnectionError:
            return
    assert b"\x88" in told  # it was closed
    assert status(server.said("GET / HTTP/1.1"))[9:12] != "500"  # and the server lives


def test_no_message_is_unpacked(server: Server):
    """A small packed message could grow to a very large one: packing is not agreed to."""
    with server.link() as link:
        asked = (
            "Upgrade: websocket",
            "Connection: Upgrade",
            "Sec-WebSocket-Version: 13",
            f"Origin: http://{server.host}",
        )
        packed = ("Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==", "Sec-WebSocket-Extensions: permessage-deflate")
        link.sendall(server.head(f"GET {SOCKET} HTTP/1.1", *asked, *packed))
        answer = link.recv(4096).decode("latin-1")
    assert answer.startswith("HTTP/1.1 101")
    assert "sec-websocket-extensions" not in answer.lower()


def test_the_sockets_own_door_is_closed_to_other_sites(server: Server):
    polling = "/_nicegui_ws/socket.io/?EIO=4&transport=polling"
    ours = server.said(f"GET {polling} HTTP/1.1", f"Origin: http://{server.host}")
    assert status(ours).startswith("HTTP/1.1 200")
    assert "access-control" not in ours.lower()
    other = server.said(f"GET {polling} HTTP/1.1", "Origin: http://evil.example")
    assert status(other).startswith("HTTP/1.1 403")
    assert "access-control" not in other.lower()


def test_odd_requests_are_answered_and_the_server_lives(server: Server):
    assert status(server.said("TRACE / HTTP/1.1")).startswith("HTTP/1.1 405")
    assert status(server.said("OPTIONS * HTTP/1.1"))[9:12] in {"400", "405"}
    with server.link() as link:
        link.sendall(b"GET / HTTP/1.1\r\n\r\n")
        assert status(everything(link)).startswith("HTTP/1.1 400")
    with server.link() as link:
        link.sendall(b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03")
        assert "200" not in status(everything(link))
    assert "server:" not in server.said("GET /looks HTTP/1.1").partition("\r\n\r\n")[0].lower()
