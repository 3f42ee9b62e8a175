"""The guard before every page: who may speak to this server, how much at once, and what a browser is told to refuse.

A page on this machine can be reached by every web site that this machine's browser shows. So nothing is answered
unless the request names this server as its host (a foreign name that was made to point here is turned away), comes
from a page of this server (`Origin`, `Sec-Fetch-Site`), and is no larger than what such a page would send.
"""

import socket
from collections.abc import Mapping
from dataclasses import dataclass, field
from ipaddress import IPv6Address, ip_address

from starlette.types import ASGIApp, Message, Receive, Scope, Send

UPLOAD_MOST = 8 * 2**20
"""Bytes that a request may bring where files are taken in."""
BODY_MOST = 2**20
"""Bytes that any other request may bring; one message of a web socket, too."""
METHODS = frozenset({"GET", "HEAD", "POST"})
READS = frozenset({"GET", "HEAD"})
LOOPBACK = ("localhost", "127.0.0.1", "[::1]")
"""Names under which this machine knows itself."""
FRONT_DOORS = frozenset({"/", "/come-in"})
"""Where a link from elsewhere may lead: they show, and change nothing."""
TRICKS = (b"%2f", b"%5c", b"%2e", b"%00", b"\\")
"""Ways to write a slash, a backslash, a dot and an end of text that no link of ours is written with."""
FORWARDED = (b"x-forwarded-", b"forwarded")
"""Headers that only a server in front of this one might write. There is none: they are not handed on."""
STRAIGHT = {
    b"x-content-type-options": b"nosniff",
    # not no-referrer: with it a browser sends `Origin: null` with a form, which cannot be told from a stranger's
    b"referrer-policy": b"same-origin",
    b"cross-origin-resource-policy": b"same-origin",
    b"x-frame-options": b"DENY",
    b"permissions-policy": b"camera=(), microphone=(), geolocation=(), payment=(), usb=(), serial=()",
}
"""Said with every answer."""
POLICY = (
    "default-src 'none'",
    # The framework writes its page as one inline module and evaluates what the server sends it, so inline scripts and
    # eval cannot be refused. A script in an attribute (what text let into the page would bring) can be, and is.
    "script-src 'self' 'unsafe-inline' 'unsafe-eval'",
    "script-src-attr 'none'",
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "font-src 'self'",
    "worker-src 'self'",
    "manifest-src 'self'",
    "object-src 'none'",
    "frame-src 'none'",
    "frame-ancestors 'none'",
    "base-uri 'none'",
    "form-action 'self'",
)
"""What a browser may load and run for a page of ours; `connect-src` is added, for it names the host."""

DRAWN = b"default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; frame-ancestors 'none'"
"""For a drawing that is opened by itself, which can hold scripts as a page can."""
DRAWINGS = (b"image/svg", b"application/xml", b"text/xml")
"""What such a drawing is called."""

Answer = tuple[int, str]
"""A refusal: the status of HTTP and what is said in plain words."""


@dataclass(frozen=True, slots=True)
class Hosts:
    """Under which names this server may be called: `port`, and with `lan` more than loopback.

    With `lan` that is the machine's own name, as it is and with `.local`, and the very address at which a connection
    came in: no list of addresses that the next lease makes wrong.
    """

    port: int
    lan: bool = False
    names: frozenset[str] = field(default_factory=frozenset)

    def allows(self, host: str, server: str) -> bool:
        """Whether `host`, as a request names it, is this server; `server`: the address the connection came in at."""
        return host in {_with_port(name, self.port) for name in self._known(server)}

    def _known(self, server: str) -> tuple[str, ...]:
        return (*LOOPBACK, *self.names, *_as_host(server)) if self.lan else LOOPBACK


def hosts_at(port: int, *, lan: bool = False) -> Hosts:
    """The names of this machine, asked of it once."""
    own = socket.gethostname().casefold().rstrip(".")
    short = own.partition(".")[0]
    return Hosts(port, lan, frozenset({own, short, f"{short}.local"} - {""}) if lan else frozenset())


def _with_port(name: str, port: int) -> str:
    return name if port == 80 else f"{name}:{port}"


def _as_host(address: str) -> tuple[str, ...]:
    """An address as it stands in a host header; nothing where it is no address."""
    try:
        known = ip_address(address.partition("%")[0])
    except ValueError:
        return ()
    if isinstance(known, IPv6Address):
        return (str(known.ipv4_mapped),) if known.ipv4_mapped else (f"[{known}]",)
    return (str(known),)


class Guard:
    """Stands before an application (`app`) and lets through what may be asked of it; start and end pass untouched."""

    def __init__(self, app: ASGIApp, hosts: Hosts) -> None:
        self.app = app
        self.hosts = hosts

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuses in plain text, or hands on with a measure on what comes in and the policy on what goes out."""
        if scope["type"] not in {"http", "websocket"}:
            await self.app(scope, receive, send)
            return
        refused = refusal(scope, self.hosts)
        if refused is not None:
            await turn_away(scope, send, refused)
            return
        inside = {**scope, "headers": [h for h in scope["headers"] if not h[0].lower().startswith(FORWARDED)]}
        if scope["type"] == "websocket":
            await self.app(inside, receive, send)
        else:
            await _measured(self.app, inside, receive, _told(send, said(scope)["host"]))


def said(scope: Scope) -> dict[str, str]:
    """The headers of a request by their names in small letters; one that stands twice is joined, and fits nothing."""
    found: dict[str, str] = {}
    for name, value in scope["headers"]:
        key = name.decode("latin-1").lower()
        found[key] = f"{found[key]},{value.decode('latin-1')}" if key in found else value.decode("latin-1")
    return found


def refusal(scope: Scope, hosts: Hosts) -> Answer | None:
    """Why a request is turned away, or None."""
    headers = said(scope)
    host = headers.get("host", "").lower()
    if not host:
        return 400, "A request must name the host it is for."
    if not hosts.allows(host, (scope.get("server") or ("",))[0] or ""):
        return 421, f"This is not {_short(host)}. Open the address that bickern printed in the terminal."
    return _wrong_method(scope) or _wrong_path(scope) or _foreign(scope, headers, host) or _too_long(scope, headers)


def _short(host: str) -> str:
    return "".join(c for c in host[:80] if c.isascii() and c.isprintable())


def _wrong_method(scope: Scope) -> Answer | None:
    if scope["type"] == "http" and scope["method"] not in METHODS:
        return 405, "Nothing here is asked in that way."
    return None


def _wrong_path(scope: Scope) -> Answer | None:
    """No path of ours climbs, hides a slash or a dot in other signs, or has an empty step."""
    path: str = scope["path"]
    written = (scope.get("raw_path") or path.encode("utf-8", "replace")).partition(b"?")[0].lower()
    steps = path.split("/")
    climbs = not path.startswith("/") or bool({".", ".."} & set(steps)) or "" in steps[1:-1] or "\\" in path
    if climbs or any(trick in written for trick in TRICKS) or any(ord(c) < 32 or ord(c) == 127 for c in path):
        return 400, "There is no such page."
    return None


def _foreign(scope: Scope, headers: Mapping[str, str], host: str) -> Answer | None:
    """Whether another web site, or something that is no page of ours, is asking."""
    origin = headers.get("origin", "")
    if scope["type"] == "websocket" and not origin:
        # every browser names the origin of a web socket (RFC 6455, 4.1); what does not is no page, and a program on
        # this machine that means well can say it too
        return 403, "A web socket must say which page opened it."
    if origin and origin.lower() != f"http://{host}":
        return 403, "Another web site asked for this. Only a page of bickern's own may."
    # Browsers say this to loopback and to https alone: over the net it is missing, and Origin and cookie must do.
    # "same-site" is another port of this machine, which may be anybody's.
    if headers.get("sec-fetch-site", "none") not in {"same-origin", "none"} and not _link_to_front(scope, headers):
        return 403, "Another web site led here. Open the front page by its address, and go on from there."
    return None


def _link_to_front(scope: Scope, headers: Mapping[str, str]) -> bool:
    to_read = scope["type"] == "http" and scope["method"] in READS and scope["path"] in FRONT_DOORS
    as_page = headers.get("sec-fetch-mode") == "navigate" and headers.get("sec-fetch-dest") == "document"
    return to_read and as_page


def body_most(path: str) -> int:
    """Bytes that a request to a path may bring: more only where files are taken in."""
    taken_in = path.startswith("/_nicegui/client/") and "/upload/" in path
    return UPLOAD_MOST if taken_in else BODY_MOST


def _too_long(scope: Scope, headers: Mapping[str, str]) -> Answer | None:
    length = headers.get("content-length", "0")
    if not (length.isascii() and length.isdigit()):
        return 400, "The length of what was sent is not a number."
    return TOO_MUCH if len(length) > 12 or int(length) > body_most(scope["path"]) else None


TOO_MUCH: Answer = (413, "That is more than is taken in at once: 8 MB of a file, 1 MB of anything else.")
GONE: Message = {"type": "http.disconnect"}


async def _measured(app: ASGIApp, scope: Scope, receive: Receive, send: Send) -> None:
    """Counts what really comes in, whatever length was said: at the limit it is refused and the rest is not read."""
    come, begun, refused = 0, False, False

    async def counted() -> Message:
        nonlocal come, refused
        message = GONE if refused else await receive()
        come += len(message.get("body", b""))
        if come > body_most(scope["path"]) and not refused:
            refused = True
            if not begun:
                await turn_away(scope, send, TOO_MUCH)
        return GONE if refused else message

    async def unless_refused(message: Message) -> None:
        nonlocal begun
        begun = True
        if not refused:
            await send(message)

    try:
        await app(scope, counted, unless_refused)
    except Exception:
        if not refused:  # what an application makes of a visitor who was cut off is no fault of ours
            raise


def _told(send: Send, host: str) -> Send:
    """Adds the policy to the head of an answer, and takes out what would open it to other sites."""
    # browsers heed this one, and do not grumble at it, only where they trust the line: on this machine
    here = host.startswith(LOOPBACK)
    alone = {b"cross-origin-opener-policy": b"same-origin"} if here else {}

    async def with_policy(message: Message) -> None:
        if message["type"] == "http.response.start":
            given = [(n, v) for n, v in message.get("headers", ()) if not n.lower().startswith(b"access-control-")]
            found = {name.lower(): value for name, value in given}
            held = DRAWN if found.get(b"content-type", b"").startswith(DRAWINGS) else policy(host).encode("latin-1")
            own = {**STRAIGHT, **alone, b"content-security-policy": held, b"cache-control": b"no-store"}
            message = {**message, "headers": given + [(n, v) for n, v in own.items() if n not in found]}
        await send(message)

    return with_policy


def policy(host: str) -> str:
    """The content security policy of a page on `host` (already found to be ours)."""
    # 'self' is http alone to some browsers: the socket of this very host is named besides
    return "; ".join((*POLICY, f"connect-src 'self' ws://{host}"))


async def turn_away(scope: Scope, send: Send, refused: Answer) -> None:
    """Answers a refusal in plain words and lets the connection end; a web socket is closed before it was opened."""
    if scope["type"] == "websocket":
        await send({"type": "websocket.close", "code": 1008, "reason": refused[1][:100]})
        return
    status, words = refused
    text = f"{words}\n".encode()
    length = str(len(text)).encode()
    plain = {b"content-type": b"text/plain; charset=utf-8", b"content-length": length, b"connection": b"close"}
    strict = {b"content-security-policy": b"default-src 'none'; frame-ancestors 'none'", b"cache-control": b"no-store"}
    more = {b"allow": b"GET, HEAD, POST"} if status == 405 else {}
    headers = list({**STRAIGHT, **plain, **strict, **more}.items())
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": b"" if scope["method"] == "HEAD" else text})


def close_to_others() -> None:
    """The framework's socket lets every web site in as it comes: from here on its own page alone.

    None means "the host that was asked for"; the guard has found that host to be ours before.
    """
    from nicegui import core

    core.sio.eio.cors_allowed_origins = None
    core.sio.eio.max_http_buffer_size = BODY_MOST
