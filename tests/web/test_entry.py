"""Coming in over the net: the right passphrase opens everything, a wrong one nothing, and trying takes for ever."""

import contextlib
import math
import re
import warnings
from html import unescape

import pytest
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Mount, Route, WebSocketRoute
from starlette.staticfiles import StaticFiles
from starlette.websockets import WebSocket, WebSocketDisconnect

from bickern.web.gate import entry
from bickern.web.gate.come_in import page
from bickern.web.gate.entry import SESSIONS_MOST, STAYS, Gate, Inside, local, locked, made_up, too_short
from bickern.web.gate.guard import Guard, Hosts
from bickern.web.gate.patience import REMEMBERED, Patience, whose

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it would rather have a client that nothing else here needs
    from starlette.testclient import TestClient

NET = "http://192.168.1.5:8417"
RIGHT = "mano tibu rado zuli"
LOCK = locked(RIGHT)
YEAR = 365.25 * 86400.0


class Watch:
    """A clock that stands still until it is turned."""

    def __init__(self):
        self.now = 1000.0

    def __call__(self) -> float:
        return self.now


async def inside_page(request: Request) -> Response:
    return PlainTextResponse("inside")


async def echo(socket: WebSocket) -> None:
    await socket.accept()
    with contextlib.suppress(WebSocketDisconnect):
        while True:
            await socket.send_text(await socket.receive_text())


@pytest.fixture
def gate(tmp_path) -> Gate:
    (tmp_path / "style.css").write_text("body{}")
    routes = [
        Route("/", inside_page),
        Route("/job/{job}", inside_page, methods=["GET", "POST"]),
        Mount("/static", StaticFiles(directory=tmp_path)),
        WebSocketRoute("/socket", echo),
    ]
    return Gate(Starlette(routes=routes), LOCK, 8417, Watch())


def visitor(gate: Gate, address: str = "192.168.1.77", at: str = NET) -> TestClient:
    guarded = Guard(gate, Hosts(8417, True))
    return TestClient(
        guarded, base_url=at, client=(address, 50000), follow_redirects=False, headers={"Accept": "text/html"}
    )


def give(who: TestClient, passphrase: str, to: str = "/", **more: str):
    return who.post("/come-in", data={"passphrase": passphrase, "to": to}, headers={"Origin": NET, **more})


def test_nothing_is_shown_before_the_passphrase(gate: Gate):
    who = visitor(gate)
    led = who.get("/job/lantern.yaml?piece=arm")
    assert led.status_code == 303
    assert led.headers["location"] == "/come-in?to=%2Fjob%2Flantern.yaml%3Fpiece%3Darm"
    assert who.get("/static/style.css", headers={"Accept": "*/*"}).status_code == 401
    assert who.post("/job/lantern.yaml").status_code == 401
    with pytest.raises(WebSocketDisconnect), who.websocket_connect(f"ws{NET[4:]}/socket", headers={"Origin": NET}):
        pass


def test_this_machine_is_asked_too(gate: Gate):
    here = visitor(gate, "127.0.0.1", "http://127.0.0.1:8417")
    assert here.get("/").headers["location"] == "/come-in?to=%2F"


def test_the_right_passphrase_opens_pages_files_and_sockets(gate: Gate):
    who = visitor(gate)
    told = give(who, RIGHT, "/job/lantern.yaml")
    assert told.status_code == 303
    assert told.headers["location"] == "/job/lantern.yaml"
    assert who.get("/job/lantern.yaml").text == "inside"
    assert who.get("/static/style.css").status_code == 200
    with who.websocket_connect(f"ws{NET[4:]}/socket", headers={"Origin": NET}) as opened:
        opened.send_text("hot")
        assert opened.receive_text() == "hot"
    assert who.get("/come-in?to=/job/x").headers["location"] == "/job/x"  # who is in is not asked again
    assert visitor(gate).get("/").status_code == 303  # another browser is


def test_the_cookie_is_for_this_server_alone_and_not_for_scripts(gate: Gate):
    cookie = give(visitor(gate), RIGHT).headers["set-cookie"]
    name, _, token = cookie.partition(";")[0].partition("=")
    assert name == "bickern-8417"
    assert len(token) >= 43  # 256 bits in base 64
    assert {part.strip() for part in cookie.split(";")[1:]} == {
        "Path=/",
        "Max-Age=43200",
        "HttpOnly",
        "SameSite=Strict",
    }


def test_twelve_hours_later_it_is_asked_for_again_and_an_open_socket_is_not_heard(gate: Gate):
    who = visitor(gate)
    give(who, RIGHT)
    clock: Watch = gate.inside._clock
    clock.now += STAYS - 1
    assert who.get("/").text == "inside"
    with who.websocket_connect(f"ws{NET[4:]}/socket", headers={"Origin": NET}) as opened:
        clock.now += 2
        opened.send_text("cold")
        with pytest.raises(WebSocketDisconnect):
            opened.receive_text()
    assert who.get("/").status_code == 303


def test_a_restart_shows_everybody_out(gate: Gate):
    who = visitor(gate)
    cookie = give(who, RIGHT).headers["set-cookie"].partition(";")[0]
    anew = visitor(Gate(gate.app, LOCK, 8417))
    assert anew.get("/", headers={"Cookie": cookie}).status_code == 303


@pytest.mark.parametrize("passphrase", ["", "mano tibu rado", "mano tibu rado zulu", "x" * 3000, "\x00", "ｍａｎｏ"])
def test_a_wrong_passphrase_opens_nothing(gate: Gate, passphrase: str):
    who = visitor(gate)
    told = give(who, passphrase)
    assert told.status_code == 403
    assert "set-cookie" not in told.headers
    assert 'role="alert"' in told.text
    assert who.get("/").status_code == 303


@pytest.mark.parametrize("typed", ["Mano tibu rado zuli", " mano-tibu-rado-zuli ", "MANO  TIBU RADO ZULI"])
def test_a_tablets_capitals_and_hyphens_do_not_matter(gate: Gate, typed: str):
    assert give(visitor(gate), typed).status_code == 303


def test_the_form_is_taken_from_its_own_page_alone(gate: Gate):
    assert give(visitor(gate), RIGHT, Origin="http://evil.example").status_code == 403


def test_a_form_that_is_no_form_is_a_wrong_one(gate: Gate):
    who = visitor(gate)
    for body in (bytes(5000), b"passphrase=" + b"%" * 50, b"&" * 500, b"\xff\xfe"):
        assert who.post("/come-in", content=body, headers={"Origin": NET}).status_code == 403


def test_five_wrong_ones_and_one_waits_then_twice_as_long(gate: Gate):
    who, clock = visitor(gate), gate.inside._clock
    for _ in range(5):
        assert give(who, "wrong").status_code == 403
    held_up = give(who, RIGHT)  # the right one is not looked at either
    assert held_up.status_code == 429
    assert held_up.headers["retry-after"] == "30"
    assert "30 seconds" in held_up.text
    clock.now += 30.0
    assert give(who, "wrong").status_code == 403
    assert give(who, RIGHT).headers["retry-after"] == "60"
    clock.now += 60.0
    assert give(who, RIGHT).status_code == 303
    assert give(who, "wrong").status_code == 403  # and it begins anew


def test_the_wait_grows_to_a_quarter_of_an_hour_and_no_more():
    clock = Watch()
    patience, waits = Patience(clock), []
    for _ in range(20):
        assert patience.wait("10.0.0.9") == 0.0
        waits.append(patience.wait("10.0.0.9"))
        clock.now += max(waits[-1], 60.0)
    assert waits == [0.0, 0.0, 30.0, 60.0, 120.0, 240.0, 480.0] + [900.0] * 13


def tried_in(seconds: float, addresses: int) -> int:
    """How many tries get through to the lock when every address tries once a second."""
    clock = Watch()
    patience, through = Patience(clock), 0
    for second in range(int(seconds)):
        clock.now = 1000.0 + second
        through += sum(patience.wait(f"10.{n >> 16}.{n >> 8 & 255}.{n & 255}") == 0.0 for n in range(addresses))
    return through


def test_four_billion_tries_take_for_ever_from_however_many_addresses():
    """Counted, not only computed: 50 addresses for an hour get 30 tries at once and one more each minute."""
    through = tried_in(3600, 50)
    assert through <= Patience.AT_ONCE + 3600 / Patience.EACH
    assert through >= 60  # the count itself is not idle
    assert 2**32 * Patience.EACH / YEAR > 8000
    longest = 1 / Patience.LONGEST_WAIT  # and from this machine alone, which what others try does not hold up
    assert 2**32 / longest / YEAR > 100_000
    bits = entry.WORDS * entry.SYLLABLES * math.log2(len(entry.CONSONANTS) * len(entry.VOWELS))
    assert bits == 48
    assert 2 ** (bits - 1) * Patience.EACH / YEAR > 1e8  # half of all that could be drawn


def test_what_others_try_does_not_hold_up_this_machine_nor_who_has_been_in():
    clock = Watch()
    patience = Patience(clock)
    assert patience.wait("10.0.0.1") == 0.0
    patience.right("10.0.0.1")
    for n in range(100):
        patience.wait(f"10.0.1.{n}")
    assert patience.wait("10.0.2.2") > 0.0
    assert patience.wait("127.0.0.1") == 0.0
    assert patience.wait("::1") == 0.0
    assert patience.wait("10.0.0.1") == 0.0


def test_many_tries_at_once_are_no_way_round():
    """A try is counted before it is looked at: of six that come together the sixth waits."""
    patience = Patience(Watch())
    assert [patience.wait("10.0.0.3") == 0.0 for _ in range(6)] == [True] * 5 + [False]


def test_what_is_remembered_is_bounded():
    clock = Watch()
    patience = Patience(clock)
    for n in range(3 * REMEMBERED):
        clock.now += Patience.EACH
        who = f"10.0.{n >> 8}.{n & 255}"
        assert patience.wait(who) == 0.0
        patience.right(who)
        patience.wait(f"10.1.{n >> 8}.{n & 255}")
    assert len(patience._tries) <= REMEMBERED
    assert len(patience._known) <= REMEMBERED
    inside = Inside(clock)
    tokens = [inside.let_in() for _ in range(SESSIONS_MOST + 5)]
    assert [inside.holds(t) for t in tokens] == [False] * 5 + [True] * SESSIONS_MOST


def test_one_household_is_one_address():
    assert whose("2001:db8:1:2::5") == whose("2001:db8:1:2:ffff::9")
    assert whose("2001:db8:1:2::5") != whose("2001:db8:1:3::5")
    assert whose("::ffff:10.0.0.1") == whose("10.0.0.1")
    assert whose("::1") == whose("127.0.0.1") == whose("127.0.0.53")
    assert whose("no address") == whose("")


def test_a_key_lets_one_browser_in_once_and_only_here(gate: Gate):
    key = gate.inside.key()
    assert visitor(gate).get(f"/come-in?key={key}").status_code == 200  # from the net: the form
    here = visitor(gate, "127.0.0.1", "http://127.0.0.1:8417")
    let_in = here.get(f"/come-in?key={key}&to=%2Fjob%2Flantern.yaml")
    assert (let_in.status_code, let_in.headers["location"]) == (303, "/job/lantern.yaml")
    assert here.get("/").text == "inside"
    other = visitor(gate, "127.0.0.1", "http://127.0.0.1:8417")
    assert other.get(f"/come-in?key={key}").status_code == 200
    late = gate.inside.key()
    gate.inside._clock.now += 121.0
    assert other.get(f"/come-in?key={late}").status_code == 200
    assert other.get("/").status_code == 303


@pytest.mark.parametrize(
    "to",
    [
        "//evil.example", "https://evil.example", "/\\evil.example", "\\\\evil.example", "evil.example", "",
        "javascript:x", "/\t/evil.example", "/x\r\nSet-Cookie: a=b", "/come-in?to=/", "/" + "x" * 400,
        "/\u2028/evil.example", " /x",
    ],
)  # fmt: skip
def test_nobody_is_led_to_another_site(gate: Gate, to: str):
    assert local(to) == "/"
    assert give(visitor(gate), RIGHT, to).headers["location"] == "/"


def test_a_page_of_ours_is_led_to():
    assert (
        local("/job/grille%20%C3%A0%20main.yaml/paper?for=class") == "/job/grille%20%C3%A0%20main.yaml/paper?for=class"
    )


def test_what_was_asked_for_is_shown_as_text_and_never_as_a_page_of_its_own():
    shown = page('/"><script>alert(1)</script>', '<img src=x onerror="alert(1)">')
    assert "<script" not in shown
    assert "<img" not in shown
    assert unescape(re.search(r'name="to" value="([^"]*)"', shown)[1]) == '/"><script>alert(1)</script>'


def test_the_form_needs_no_script_and_has_its_own_strict_policy(gate: Gate):
    told = visitor(gate).get("/come-in")
    held = told.headers["content-security-policy"]
    assert "default-src 'none'" in held
    assert "script-src" not in held
    assert "unsafe" not in held
    assert "<script" not in told.text
    assert '<label for="passphrase">' in told.text


def test_a_passphrase_made_up_is_said_easily_and_never_twice_the_same():
    drawn = {made_up() for _ in range(200)}
    assert len(drawn) == 200
    assert all(re.fullmatch(r"([bdghjlmnprstvwyz][aiou]){2}( ([bdghjlmnprstvwyz][aiou]){2}){3}", one) for one in drawn)


@pytest.mark.parametrize("own", ["", "anvil", "aaaaaaaaaaaaaa", "123456789", "         "])
def test_a_passphrase_of_ones_own_that_keeps_nobody_out_is_a_finding(own: str):
    found = too_short(own)
    assert found is not None
    assert found.stops


def test_a_passphrase_is_kept_only_as_what_it_becomes():
    assert RIGHT.encode() not in LOCK.digest + LOCK.salt
    assert LOCK.opens(RIGHT)
    assert locked(RIGHT).digest != LOCK.digest
    assert too_short(RIGHT) is None
