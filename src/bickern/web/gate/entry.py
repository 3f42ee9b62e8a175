"""Who may come in where others on the net can knock: a passphrase, asked for on a plain page before everything else.

Without `--lan` nobody but this machine is listened to, and none of this stands before the page.
"""

import asyncio
import hashlib
import hmac
import math
import re
import secrets
import time
import unicodedata
from collections import OrderedDict
from dataclasses import dataclass
from urllib.parse import parse_qs, quote

from starlette.requests import cookie_parser
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from bickern.measure.finding import Finding, stop
from bickern.web.gate.come_in import POLICY, page
from bickern.web.gate.guard import READS, said, turn_away
from bickern.web.gate.patience import HERE, Clock, Patience, forget, whose

ENVIRONMENT = "BICKERN_PASSPHRASE"
"""Names the passphrase where none shall be made up."""
DOOR = "/come-in"
"""The one page that is shown to somebody who is not in."""
SHORTEST = 10
"""Signs of a passphrase of one's own: ten small letters drawn at random hold 47 bits."""
LONGEST = 200
"""Signs of a passphrase that are looked at."""
FORM_MOST = 4096
"""Bytes of the form."""
STAYS = 12 * 3600.0
"""Seconds until the passphrase is asked for again: a long day at the forge."""
KEY_LIVES = 120.0
"""Seconds within which the browser that bickern opened must have come in."""
SESSIONS_MOST = 200
"""Browsers that can be in at once; the one longest in goes first."""
CONSONANTS, VOWELS = "bdghjlmnprstvwyz", "aiou"
"""Sixteen and four: a syllable is six bits, told and typed without a mistake (no c or k, no e that is spoken as i)."""
WORDS, SYLLABLES = 4, 2
"""Four words of two syllables: 48 bits."""


def made_up() -> str:
    """A passphrase drawn from the system's own source of chance: `mano tibu rado zuli`, 48 bits."""
    return " ".join("".join(_syllable() for _ in range(SYLLABLES)) for _ in range(WORDS))


def _syllable() -> str:
    return secrets.choice(CONSONANTS) + secrets.choice(VOWELS)


def too_short(passphrase: str) -> Finding | None:
    """A passphrase of one's own that would soon be guessed."""
    if len(_plain(passphrase)) >= SHORTEST and len(set(_plain(passphrase))) > 3:
        return None
    says = f"the passphrase in {ENVIRONMENT} is too short to keep anybody out"
    return stop("short-passphrase", says, f"give it {SHORTEST} signs or more, or leave it out and have one made up")


def _plain(passphrase: str) -> str:
    """As it is compared: a tablet's capital first letter, and hyphens or more spaces between words, do not matter."""
    return re.sub(r"[\s\-]+", " ", unicodedata.normalize("NFKC", passphrase).casefold()).strip()


@dataclass(frozen=True, slots=True)
class Lock:
    """A passphrase as it is kept: never itself, only what it becomes with this salt."""

    salt: bytes
    digest: bytes

    def opens(self, passphrase: str) -> bool:
        """Whether it is this one; as long for a wrong one as for the right one, some 50 ms."""
        return hmac.compare_digest(_digest(passphrase, self.salt), self.digest)


def locked(passphrase: str) -> Lock:
    """The lock that a passphrase opens."""
    salt = secrets.token_bytes(16)
    return Lock(salt, _digest(passphrase, salt))


def _digest(passphrase: str, salt: bytes) -> bytes:
    return hashlib.scrypt(_plain(passphrase[:LONGEST]).encode("utf-8", "replace"), salt=salt, n=2**14, r=8, p=1)


class Inside:
    """The browsers that are in: each by the sum of a token that only it knows. A restart shows all of them out."""

    def __init__(self, clock: Clock = time.monotonic) -> None:
        self._clock = clock
        self._until: OrderedDict[bytes, float] = OrderedDict()
        self._keys: OrderedDict[bytes, float] = OrderedDict()

    def let_in(self) -> str:
        """A new token: 256 bits by chance."""
        return self._drawn(self._until, STAYS)

    def holds(self, token: str) -> bool:
        """Whether a token is one of ours and its time is not over."""
        return self._until.get(_sum(token), 0.0) > self._clock()

    def key(self) -> str:
        """A key for the one browser that bickern opens itself: good once, and soon."""
        return self._drawn(self._keys, KEY_LIVES)

    def uses(self, key: str) -> bool:
        """Whether a key is good; it is not again."""
        return self._keys.pop(_sum(key), 0.0) > self._clock()

    def _drawn(self, kept: OrderedDict[bytes, float], lives: float) -> str:
        token = secrets.token_urlsafe(32)
        kept[_sum(token)] = self._clock() + lives
        forget(kept, SESSIONS_MOST)
        return token


def _sum(token: str) -> bytes:
    """What a token is looked up by: how long the look-up takes then tells nothing of it."""
    return hashlib.sha256(token.encode("utf-8", "replace")).digest()


def local(to: str) -> str:
    """Where to go after coming in: a page of ours, and never another site."""
    plain = to.startswith("/") and not to.startswith(("//", DOOR)) and "\\" not in to and len(to) <= 300
    return to if plain and all(c.isprintable() and not c.isspace() for c in to) else "/"


class Gate:
    """Stands before an application (`app`): pages, files and sockets alike are for those who have come in."""

    def __init__(self, app: ASGIApp, lock: Lock, port: int, clock: Clock = time.monotonic) -> None:
        self.app = app
        self.inside = Inside(clock)
        self.patience = Patience(clock)
        self._lock = lock
        self._cookie = f"bickern-{port}"  # cookies know no ports: two servers on one machine must not mix theirs
        self._looking = asyncio.Semaphore(1)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Hands on what comes from inside; shows everybody else the door."""
        if scope["type"] not in {"http", "websocket"}:
            await self.app(scope, receive, send)
        elif scope["path"] == DOOR and scope["type"] == "http":
            await self._door(scope, receive, send)
        elif self._is_in(scope):
            await (self._socket if scope["type"] == "websocket" else self.app)(scope, receive, send)
        elif scope["type"] == "http" and _wants_page(scope):
            asked = quote(scope["path"]) + (
                f"?{scope['query_string'].decode('latin-1')}" if scope["query_string"] else ""
            )
            await _answer(send, 303, location=f"{DOOR}?to={quote(local(asked), safe='')}")
        else:
            await turn_away(scope, send, (401, "Come in first: open the front page and give the passphrase."))

    def _token(self, scope: Scope) -> str:
        return cookie_parser(said(scope).get("cookie", "")).get(self._cookie, "")

    def _is_in(self, scope: Scope) -> bool:
        return self.inside.holds(self._token(scope))

    async def _socket(self, scope: Scope, receive: Receive, send: Send) -> None:
        """A socket stays open for hours: when the time is over, it is closed and nothing more is taken from it."""
        closed = False

        async def heard() -> Message:
            nonlocal closed
            message = await receive()
            if closed or self._is_in(scope):
                return message
            closed = True
            await send({"type": "websocket.close", "code": 1008, "reason": "Come in again."})
            return {"type": "websocket.disconnect", "code": 1008, "reason": "Come in again."}

        async def unless_closed(message: Message) -> None:
            if not closed:
                await send(message)

        await self.app(scope, heard, unless_closed)

    async def _door(self, scope: Scope, receive: Receive, send: Send) -> None:
        asked = _fields(scope["query_string"])
        if scope["method"] == "POST":
            await self._try(scope, receive, send)
        elif self._is_in(scope):
            await _answer(send, 303, location=local(asked.get("to", "/")))
        elif "key" in asked and whose(_address(scope)) == HERE and self.inside.uses(asked["key"]):
            await self._let_in(send, asked.get("to", "/"))
        else:
            await _answer(send, 200, page(local(asked.get("to", "/"))))

    async def _try(self, scope: Scope, receive: Receive, send: Send) -> None:
        body = await _body(receive)
        given = _fields(body) if body is not None else {}
        to, wait = local(given.get("to", "/")), self.patience.wait(_address(scope))
        if wait:
            says = f"Too many wrong ones. Try again in {_spoken(wait)}."
            await _answer(send, 429, page(to, says), wait=wait)
            return
        async with self._looking:  # one at a time: each takes 16 MB and 50 ms
            right = await asyncio.to_thread(self._lock.opens, given.get("passphrase", ""))
        if right:
            self.patience.right(_address(scope))
            await self._let_in(send, to)
        else:
            await _answer(send, 403, page(to, "That is not the passphrase."))

    async def _let_in(self, send: Send, to: str) -> None:
        kept = f"{self._cookie}={self.inside.let_in()}; Path=/; Max-Age={int(STAYS)}; HttpOnly; SameSite=Strict"
        await _answer(send, 303, location=local(to), cookie=kept)


def _address(scope: Scope) -> str:
    return str((scope.get("client") or ("",))[0])


def _wants_page(scope: Scope) -> bool:
    return scope["method"] in READS and "text/html" in said(scope).get("accept", "")


def _fields(text: bytes) -> dict[str, str]:
    """The fields of a form or a query; where one stands twice, its first."""
    try:
        found = parse_qs(text.decode("latin-1"), max_num_fields=10, encoding="utf-8", errors="replace")
    except ValueError:
        return {}
    return {name: values[0] for name, values in found.items()}


async def _body(receive: Receive) -> bytes | None:
    """What was sent with a form; None where it is more than the form can hold, or was broken off."""
    text: bytes = b""
    while True:
        message = await receive()
        if message["type"] != "http.request":
            return None
        text += message.get("body", b"")
        if len(text) > FORM_MOST:
            return None
        if not message.get("more_body"):
            return text


def _spoken(seconds: float) -> str:
    whole = math.ceil(seconds)
    return f"{whole} seconds" if whole < 100 else f"{math.ceil(whole / 60)} minutes"


async def _answer(
    send: Send, status: int, html: str = "", *, location: str = "", cookie: str = "", wait: float = 0.0
) -> None:
    text = html.encode()
    told = {
        "content-type": "text/html; charset=utf-8", "content-length": str(len(text)), "content-security-policy": POLICY,
        "location": location, "set-cookie": cookie, "retry-after": str(math.ceil(wait)) if wait else "",
    }  # fmt: skip
    headers = [(name.encode(), value.encode("latin-1")) for name, value in told.items() if value]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": text})
