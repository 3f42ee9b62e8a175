"""In a real browser: what another web site can do to the page (nothing), and how a tablet on the net comes in."""

import re
from collections.abc import Callable, Iterator
from functools import partial
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from threading import Thread
from typing import Any

import pytest
from playwright.sync_api import expect
from served import Served

from bickern.cli.main import run

PASSPHRASE = "mano tibu rado zuli"
STRANGER = """<!doctype html><title>?</title><body><script>
const ours = "%s", job = ours + "/job/porch-lantern.yaml";
const got = (what) => what.then((a) => a.type + a.status + a.ok, (e) => "failed");
async function tries() {
  const socket = new Promise((done) => {
    const s = new WebSocket(ours.replace("http", "ws") + "/_nicegui_ws/socket.io/?EIO=4&transport=websocket");
    s.onopen = () => done("open"); s.onerror = () => done("failed");
  });
  const script = new Promise((done) => {
    const s = document.createElement("script"); s.src = ours + "/_nicegui/3.18.0/static/nicegui.js";
    s.onload = () => done("loaded"); s.onerror = () => done("failed"); document.body.append(s);
  });
  const frame = document.createElement("iframe"); frame.src = job; document.body.append(frame);
  return {
    read: await got(fetch(job, {credentials: "include"})),
    sent: await got(fetch(job, {method: "POST", credentials: "include", body: "x=1"})),
    polled: await got(fetch(ours + "/_nicegui_ws/socket.io/?EIO=4&transport=polling", {credentials: "include"})),
    socket: await socket, script: await script,
  };
}
</script>"""


class Stranger(BaseHTTPRequestHandler):
    """Another web site."""

    def __init__(self, page: str, *more: Any) -> None:
        self.page = page
        super().__init__(*more)

    def do_GET(self) -> None:
        self.send_response(200)
        self.send_header("Content-Type", "text/html")
        self.end_headers()
        self.wfile.write(self.page.encode())

    def log_message(self, *_: Any) -> None:
        pass


@pytest.fixture
def stranger(served: Served) -> Iterator[str]:
    site = ThreadingHTTPServer(("127.0.0.1", 0), partial(Stranger, STRANGER % served.url))
    Thread(target=site.serve_forever, daemon=True).start()
    yield f"http://evil.localhost:{site.server_address[1]}/"  # browsers lead every name under localhost here
    site.shutdown()
    site.server_close()


def test_another_web_site_can_neither_read_nor_send_nor_frame(
    served: Served, page: Any, visit: Any, faults: Any, stranger: str
):
    for expected in ("answered 40", "answered 403", "console: ", "not got: "):
        faults.allow(expected)
    job = served.job()
    visit(page, served.at(job))  # this browser has the page open, with its cookies
    other = page.context.new_page()
    other.goto(stranger)
    tried = other.evaluate("tries()")
    assert tried == dict.fromkeys(("read", "sent", "polled", "socket", "script"), "failed")
    other.wait_for_timeout(300)
    assert "Porch lantern" not in "".join(frame.content() for frame in other.frames[1:])


def test_a_foreign_name_that_leads_here_is_turned_away(served: Served, page: Any, faults: Any):
    faults.allow("421")
    answer = page.goto(f"http://rebound.localhost:{served.port}/")
    assert answer.status == 421
    expect(page.locator("body")).to_contain_text("Open the address that bickern printed")


def test_a_script_in_text_that_got_into_the_page_does_not_run(served: Served, page: Any, visit: Any, faults: Any):
    faults.allow("Content Security Policy")
    faults.allow("not got: .*/nothing.png")
    faults.allow("404")
    visit(page, served.at(served.job()))
    page.evaluate("""document.body.insertAdjacentHTML('beforeend',
        '<img src=/nothing.png onerror="window.ran = 1"><svg onload="window.ran = 1"></svg>')""")
    page.evaluate("""fetch('http://evil.localhost/').catch(() => 0)""")
    page.wait_for_timeout(300)
    assert page.evaluate("window.ran") is None
    assert any("connect-src" in one for one in faults.found)  # nor is anything sent elsewhere


def test_a_tablet_comes_in_with_the_passphrase_by_keys_alone(
    serve: Callable[..., Served], phone: Any, axe: Any, faults: Any
):
    faults.allow("403")
    there = serve("--lan", BICKERN_PASSPHRASE=PASSPHRASE)
    phone.goto(there.at(there.job()))
    assert "/come-in?" in phone.url
    expect(phone.get_by_label("Passphrase")).to_be_focused()
    phone.keyboard.type("mano tibu")
    phone.keyboard.press("Enter")
    expect(phone.get_by_role("alert")).to_have_text("That is not the passphrase.")
    axe(phone)
    assert phone.evaluate("document.documentElement.scrollWidth") == 390
    assert all(
        box["height"] >= 44 for box in (phone.locator(f"main {e}").bounding_box() for e in ("button", "#passphrase"))
    )
    phone.keyboard.type("Mano Tibu-Rado zuli")
    phone.keyboard.press("Tab")
    phone.keyboard.press("Enter")
    phone.wait_for_url(re.compile(r"/job/porch-lantern\.yaml$"))
    phone.wait_for_function("() => window.socket && window.socket.connected")
    assert "bickern-" not in phone.evaluate("document.cookie")  # no script can read what lets this browser in


MARK = """<b class=strange>"' :title="window.ran=1" `${window.ran=1}` {{ran=1}} </script><img src=/x onerror=ran=1>"""
SOUND = """job: MARK
what for: MARK
skill: MARK
units: in
use: [load]
finish: MARK
pieces:
  NAME:
    bar: 1/4 rd
    steel: S235JR
    metal: [{from: 1/16 rd, to: 1/4 rd, over: 1 1/2, name: NAME}, {keep: 8}]
    path: [{straight: 4}, {bend: 180, inside radius: 1/2, turn: left, name: NAME}, {straight: rest}]
"""
FAULTY = (
    SOUND
    + """
  another:
    bar: MARK
    MARK: 3
    metal: [{keep: MARK, name: MARK}]
"""
)
NAME = "<b class=strange>'&amp; onerror=ran=1"
"""As much of it as the name of a piece may hold."""
WAYS = ("", "round", "heats", "stock", "price", "paper")


def written(text: str) -> str:
    """The job with the marks in it, in YAML's single quotes."""
    for word, mark in (("MARK", MARK), ("NAME", NAME)):
        text = text.replace(word, "'" + mark.replace("'", "''") + "'")
    return text


@pytest.mark.parametrize("job", [SOUND, FAULTY], ids=["sound", "faulty"])
def test_markup_in_a_job_is_shown_as_text_in_every_view(served: Served, page: Any, visit: Any, faults: Any, job: str):
    (served.folder / "strange.yaml").write_text(written(job), encoding="utf-8")
    for address in (f"{served.url}/", *(served.at("strange.yaml", way) for way in WAYS)):
        visit(page, address)
        page.get_by_text("class=strange").first.wait_for()
        page.wait_for_timeout(500)  # until what comes later is there, too
        assert page.locator(".strange").count() == 0, address
        assert page.evaluate("window.ran") is None, address
    assert faults.left == []


def test_markup_in_the_rack_is_shown_as_text(served: Served, page: Any, visit: Any, faults: Any):
    (served.folder / "strange.yaml").write_text(written(SOUND), encoding="utf-8")
    cells = ('"' + MARK.replace('"', '""') + '"' for _ in range(2))
    rows = "kind,section,length,count,place,remark\nbar,1/4 sq,60,1,{},{}\nbar,1/4 rd,60,2,rack,\n".format(*cells)
    (served.home / "rack.csv").write_text(rows, encoding="utf-8")
    asked = ["rack", "import", str(served.home / "rack.csv"), "--units", "in", "--rack", str(served.rack)]
    assert run(asked) == 0
    for address in (f"{served.url}/rack", served.at("strange.yaml", "stock"), served.at("strange.yaml", "price")):
        visit(page, address)
        page.get_by_text("class=strange").first.wait_for()
        page.wait_for_timeout(500)
        assert page.locator(".strange").count() == 0, address
        assert page.evaluate("window.ran") is None, address
    assert faults.left == []
