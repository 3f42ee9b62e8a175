"""The guard: who is turned away, how much is taken in, and what every answer tells the browser.

What is asked of it are published rules: RFC 9110 (2022) on hosts and methods, RFC 6454 (2011) on origins, RFC 6455
(2011) on the origin of a web socket; W3C Content Security Policy 3 and Fetch Metadata on what a browser says and obeys.
"""

import asyncio
import socket
import warnings
from concurrent.futures import ThreadPoolExecutor
from urllib.parse import unquote

import pytest
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route, WebSocketRoute
from starlette.websockets import WebSocket, WebSocketDisconnect

from bickern.web.gate.guard import BODY_MOST, POLICY, UPLOAD_MOST, Guard, Hosts, hosts_at, refusal

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it would rather have a client that nothing else here needs
    from starlette.testclient import TestClient

OURS = "http://127.0.0.1:8417"
UPLOAD = "/_nicegui/client/some-client/upload/12"


def run(does):
    """Runs it in a thread of its own: the browser's driver keeps a loop of its own running in this one."""
    with ThreadPoolExecutor(1) as own:
        return own.submit(asyncio.run, does).result()


async def read_all(request: Request) -> Response:
    return PlainTextResponse(str(len(await request.body())))


async def drawing(request: Request) -> Response:
    return Response("<svg/>", media_type="image/svg+xml")


async def open_to_all(request: Request) -> Response:
    return PlainTextResponse("!", headers={"Access-Control-Allow-Origin": "*", "Cache-Control": "max-age=9"})


async def hears(socket: WebSocket) -> None:
    await socket.accept()
    await socket.send_text("in")
    await socket.close()


def client(lan: bool = False, at: str = OURS) -> TestClient:
    paths = ("/", "/come-in", "/job/lantern.yaml", UPLOAD)
    routes = [Route(path, read_all, methods=["GET", "POST", "PUT"]) for path in paths]
    more = [Route("/drawing", drawing), Route("/open", open_to_all), WebSocketRoute("/socket", hears)]
    hosts = Hosts(8417, lan, frozenset({"forge", "forge.local"}) if lan else frozenset())
    return TestClient(Guard(Starlette(routes=[*routes, *more]), hosts), base_url=at)


@pytest.mark.parametrize("host", ["127.0.0.1:8417", "localhost:8417", "LOCALHOST:8417", "[::1]:8417"])
def test_this_machine_is_known_by_its_own_names(host: str):
    assert client().get("/", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "host",
    [
        "evil.example", "evil.example:8417", "127.0.0.1", "127.0.0.1:80", "127.0.0.1:8417.evil.example", "localhost",
        "localhost.evil.example:8417", "0.0.0.0:8417", "127.0.0.1:8417,evil.example", "192.168.1.5:8417", "[::1]",
        "user@127.0.0.1:8417", "2130706433:8417", "forge.local:8417",
    ],
)  # fmt: skip
def test_a_foreign_name_that_was_made_to_point_here_is_turned_away(host: str):
    answer = client().get("/", headers={"Host": host})
    assert answer.status_code == 421
    assert answer.headers["content-type"].startswith("text/plain")
    assert "<" not in answer.text


def test_two_hosts_or_none_are_turned_away():
    scope = {"type": "http", "method": "GET", "path": "/", "raw_path": b"/", "server": ("127.0.0.1", 8417)}
    twice = [(b"host", b"127.0.0.1:8417"), (b"host", b"evil.example")]
    assert refusal({**scope, "headers": twice}, Hosts(8417))[0] == 421
    assert refusal({**scope, "headers": []}, Hosts(8417))[0] == 400
    assert refusal({**scope, "headers": twice[:1]}, Hosts(8417)) is None


def test_on_the_net_the_address_that_a_connection_came_in_at_is_ours_and_no_other():
    on_net = client(lan=True, at="http://192.168.1.5:8417")
    assert on_net.get("/").status_code == 200
    for name, status in (
        ("forge:8417", 200),
        ("forge.local:8417", 200),
        ("192.168.1.6:8417", 421),
        ("x.test:8417", 421),
    ):
        assert on_net.get("/", headers={"Host": name}).status_code == status, name


def test_the_names_of_this_machine_are_asked_for_only_on_the_net():
    assert hosts_at(8417).names == frozenset()
    assert socket.gethostname().casefold() in hosts_at(8417, lan=True).names
    assert Hosts(80).allows("localhost", "127.0.0.1")
    assert Hosts(1, True).allows("[fe80::1]:1", "fe80::1%eth0")
    assert Hosts(1, True).allows("10.0.0.7:1", "::ffff:10.0.0.7")


@pytest.mark.parametrize("method", ["PUT", "DELETE", "OPTIONS", "TRACE", "PATCH", "CONNECT", "PROPFIND"])
def test_odd_methods_are_refused(method: str):
    answer = client().request(method, "/")
    assert answer.status_code == 405
    assert answer.headers["allow"] == "GET, HEAD, POST"


FOREIGN = ["http://evil.example", "null", "http://127.0.0.1:3000", "https://127.0.0.1:8417", "http://localhost:8417"]


@pytest.mark.parametrize("origin", FOREIGN)
def test_another_web_site_can_neither_send_nor_read(origin: str):
    """`localhost` and `127.0.0.1` are two origins (RFC 6454, 4): the one cannot speak for the other."""
    for method in ("POST", "GET"):
        answer = client().request(method, "/job/lantern.yaml", headers={"Origin": origin})
        assert answer.status_code == 403, method
        assert "access-control-allow-origin" not in answer.headers


def test_a_page_of_ours_and_a_program_without_a_page_can_send():
    assert client().post("/", headers={"Origin": OURS, "Sec-Fetch-Site": "same-origin"}).status_code == 200
    assert client().post("/").status_code == 200


@pytest.mark.parametrize("origin", [*FOREIGN, None])
def test_a_web_socket_of_another_site_or_of_no_page_is_refused(origin: str | None):
    headers = {} if origin is None else {"Origin": origin}
    with pytest.raises(WebSocketDisconnect), client().websocket_connect(f"ws{OURS[4:]}/socket", headers=headers):
        pass


def test_a_web_socket_of_our_own_page_is_let_in_and_under_a_foreign_name_is_not():
    with client().websocket_connect(f"ws{OURS[4:]}/socket", headers={"Origin": OURS}) as opened:
        assert opened.receive_text() == "in"
    rebound = {"Origin": "http://evil.example:8417", "Host": "evil.example:8417"}
    with pytest.raises(WebSocketDisconnect), client().websocket_connect(f"ws{OURS[4:]}/socket", headers=rebound):
        pass


@pytest.mark.parametrize("site", ["cross-site", "same-site", "anything"])
def test_a_link_from_another_site_leads_to_the_front_page_alone(site: str):
    link = {"Sec-Fetch-Site": site, "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "document"}
    assert client().get("/", headers=link).status_code == 200
    assert client().get("/come-in", headers=link).status_code == 200
    assert client().get("/job/lantern.yaml", headers=link).status_code == 403
    assert client().post("/", headers=link).status_code == 403
    assert client().get("/", headers={**link, "Sec-Fetch-Dest": "iframe"}).status_code == 403
    assert client().get("/", headers={**link, "Sec-Fetch-Mode": "no-cors"}).status_code == 403


@pytest.mark.parametrize(
    "path",
    [
        "/job/..%2f..%2fetc%2fpasswd", "/job/%2e%2e/secret", "/job/%2e%2e%2fx", "/job/..\\..\\x", "/job/..%5cx",
        "/job/a%00.yaml", "/job//x", "//evil.example/x", "/job/%0d%0aSet-Cookie:x", "/job/a%2Fb",
        "/job/..%252f/%2E%2E/x",
    ],
)  # fmt: skip
def test_tricks_with_paths_find_nothing(path: str):
    scope = {
        "type": "http", "method": "GET", "path": unquote(path), "raw_path": path.encode(), "query_string": b"",
        "server": ("127.0.0.1", 8417), "headers": [(b"host", b"127.0.0.1:8417")],
    }  # fmt: skip
    assert refusal(scope, Hosts(8417)) == (400, "There is no such page.")


def test_a_job_with_a_strange_but_plain_name_is_no_trick():
    for path, raw in (
        ("/job/grille à main.yaml", b"/job/grille%20%C3%A0%20main.yaml"),
        ("/job/50%.yaml", b"/job/50%25.yaml"),
    ):
        scope = {
            "type": "http", "method": "GET", "path": path, "raw_path": raw, "server": ("127.0.0.1", 8417),
            "headers": [(b"host", b"127.0.0.1:8417")],
        }  # fmt: skip
        assert refusal(scope, Hosts(8417)) is None


def in_pieces(size: int):
    yield from (bytes(65536) for _ in range(size // 65536))
    yield bytes(size % 65536)


@pytest.mark.parametrize(("path", "most"), [("/", BODY_MOST), (UPLOAD, UPLOAD_MOST)])
def test_a_body_is_measured_whatever_length_was_said(path: str, most: int):
    assert client().post(path, content=bytes(most)).text == str(most)
    assert client().post(path, content=bytes(most + 1)).status_code == 413  # told by its length
    assert client().post(path, content=in_pieces(most)).text == str(most)
    assert client().post(path, content=in_pieces(most + 1)).status_code == 413  # no length told, counted as it comes


@pytest.mark.parametrize("length", ["-1", "1e3", "99999999999999999999", "٣"])
def test_a_length_that_is_no_length_is_refused(length: str):
    scope = {
        "type": "http", "method": "POST", "path": "/", "raw_path": b"/", "server": ("127.0.0.1", 8417),
        "headers": [(b"host", b"127.0.0.1:8417"), (b"content-length", length.encode("utf-8"))],
    }  # fmt: skip
    assert refusal(scope, Hosts(8417))[0] in {400, 413}


def test_what_an_application_reads_of_too_much_is_bounded():
    taken, said = [], []

    async def greedy(scope, receive, send):
        while (message := await receive())["type"] == "http.request":
            taken.append(len(message["body"]))
        raise RuntimeError("cut off")

    async def endless():
        return {"type": "http.request", "body": bytes(100_000), "more_body": True}

    async def send(message):
        said.append(message)

    scope = {
        "type": "http", "method": "POST", "path": "/", "raw_path": b"/", "server": ("127.0.0.1", 8417),
        "headers": [(b"host", b"127.0.0.1:8417")],
    }  # fmt: skip
    run(Guard(greedy, Hosts(8417))(scope, endless, send))
    assert sum(taken) <= BODY_MOST
    assert [m.get("status") for m in said] == [413, None]


def test_every_answer_tells_the_browser_what_to_refuse():
    headers = client().get("/").headers
    held = headers["content-security-policy"]
    assert "connect-src 'self' ws://127.0.0.1:8417" in held
    for rule in ("default-src 'none'", "object-src 'none'", "base-uri 'none'", "frame-ancestors 'none'"):
        assert rule in held
    assert "script-src-attr 'none'" in held
    assert "http:" not in " ".join(POLICY)
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "same-origin"
    assert headers["cross-origin-opener-policy"] == "same-origin"
    assert "cross-origin-opener-policy" not in client(lan=True, at="http://192.168.1.5:8417").get("/").headers
    assert headers["cross-origin-resource-policy"] == "same-origin"
    assert headers["cache-control"] == "no-store"
    assert "script-src" not in client().get("/drawing").headers["content-security-policy"]


def test_a_refusal_is_as_strict():
    headers = client().get("/", headers={"Host": "evil.example"}).headers
    assert headers["content-security-policy"] == "default-src 'none'; frame-ancestors 'none'"
    assert headers["x-content-type-options"] == "nosniff"


def test_what_an_application_would_open_to_all_is_closed_and_its_own_words_on_keeping_stay():
    answer = client().get("/open")
    assert "access-control-allow-origin" not in answer.headers
    assert answer.headers["cache-control"] == "max-age=9"


def test_headers_of_a_server_in_front_are_not_handed_on():
    seen = {}

    async def looks(scope, receive, send):
        seen.update(dict(scope["headers"]))
        await PlainTextResponse("")(scope, receive, send)

    asked = {"X-Forwarded-Prefix": "//evil.example", "Forwarded": "for=1", "X-Forwarded-For": "127.0.0.1"}
    TestClient(Guard(looks, Hosts(8417)), base_url=OURS).get("/", headers=asked)
    assert seen
    assert not [name for name in seen if b"forwarded" in name]


def test_start_and_end_of_the_server_pass_through():
    passed = []

    async def app(scope, receive, send):
        passed.append(scope["type"])

    run(Guard(app, Hosts(8417))({"type": "lifespan"}, None, None))
    assert passed == ["lifespan"]
