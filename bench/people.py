"""Many people at the bench at once, each with a file of their own: how long the server takes to answer a stroke.

Each is a socket as a browser has it, without the browser: 20 of those on one machine would measure themselves. A stroke
counts from when it is sent until the new drawing has come back.
"""

import asyncio
import html
import json
import re
import time
from typing import Any
from urllib.parse import urlencode

import aiohttp
import socketio

FIELD = "pieces.arm.metal[2].keep"
WIDE = 1238
"""What each tells the page of the width of its window, in dots."""


class Person:
    """One window, open on one job."""

    def __init__(self, url: str, job: str) -> None:
        self.url, self.job = url, job
        self.took: list[float] = []
        self._sent = 0.0
        self._drawn = asyncio.Event()
        self._socket = socketio.AsyncClient(reconnection=False)
        self._client, self._field, self._sheet, self._listener = "", 0, "", ""

    async def come(self) -> None:
        """Opens the page, and waits until it is drawn."""
        self._session = aiohttp.ClientSession(cookie_jar=aiohttp.CookieJar(unsafe=True))
        async with self._session.get(f"{self.url}/job/{self.job}") as got:
            page = await got.text()
        query = self._read(page)
        self._socket.eio.http = self._session
        self._socket.on("run_javascript", self._asked)
        await self._socket.connect(
            f"{self.url}/?{urlencode(query)}",
            headers={"Origin": self.url},
            transports=["websocket"],
            socketio_path="/_nicegui_ws/socket.io",
        )
        await asyncio.wait_for(self._drawn.wait(), 30)

    def _read(self, page: str) -> dict[str, Any]:
        """Who we are to the server, and the numbers of the field and the drawing."""
        found = re.search(r"String\.raw`(.*?)`\)", page, re.DOTALL)
        query = re.search(r"query: \{'client_id': '([^']+)', 'next_message_id': (\d+)", page)
        assert found is not None
        assert query is not None
        elements = json.loads(html.unescape(found[1]))
        for number, one in elements.items():
            if one.get("props", {}).get("name") == FIELD:
                self._field, self._listener = int(number), one["events"][0]["listener_id"]
            if "drawing" in one.get("class", []):
                self._sheet = number
        self._client = query[1]
        return {
            "client_id": self._client, "next_message_id": query[2], "implicit_handshake": "true",
            "document_id": f"d-{self.job}", "tab_id": f"t-{self.job}", "old_tab_id": "",
        }  # fmt: skip

    async def _asked(self, message: dict[str, Any]) -> None:
        """The drawing has come (before the first stroke: we are there), or the page asks something."""
        if f"runMethod({self._sheet}, " in message["code"] and "<svg" in message["code"]:
            if self._sent:
                self.took.append((time.perf_counter() - self._sent) * 1000)
                self._sent = 0.0
            self._drawn.set()
        if message.get("request_id"):
            answer = {"request_id": message["request_id"], "client_id": self._client, "result": WIDE}
            await self._socket.emit("javascript_response", answer)

    async def stroke(self, value: str) -> None:
        """One key, and the answer to it."""
        self._drawn.clear()
        self._sent = time.perf_counter()
        said = {
            "id": self._field,
            "client_id": self._client,
            "listener_id": self._listener,
            "args": [json.dumps(value)],
        }
        await self._socket.emit("event", said)
        try:
            await asyncio.wait_for(self._drawn.wait(), 20)
        except TimeoutError:
            self.took.append(20_000.0)

    async def go(self) -> None:
        """Closes the window."""
        await self._socket.disconnect()
        await self._session.close()


async def together(url: str, jobs: list[str], strokes: int, gap: float) -> list[float]:
    """Milliseconds that each stroke of each took; a stroke every `gap` [s] of each person, evenly between them."""
    people = [Person(url, job) for job in jobs]
    for one in people:
        await one.come()
    await asyncio.sleep(2.0)

    async def works(person: Person, late: float) -> None:
        await asyncio.sleep(late)
        begun = time.perf_counter()
        for n in range(strokes):
            await asyncio.sleep(max(0.0, begun + n * gap - time.perf_counter()))
            await person.stroke(f"16.{(n * 37 + 11) % 1000:03d}")

    await asyncio.gather(*(works(one, gap * n / len(people)) for n, one in enumerate(people)))
    took = [ms for one in people for ms in one.took]
    for one in people:
        await one.go()
    return took
