"""Which rack is meant: the one told, the one that the environment names, or the user's own."""

import os
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sqlalchemy import URL

ENVIRONMENT = "BICKERN_RACK"
"""Names a rack, a file or a URL, where none is told."""
_SERVERS = ("postgresql:", "postgres:", "postgresql+")
"""Begin an address even where its slashes are forgotten: it may hold a password, and is no name for a file."""
_SECRET = ("password", "sslpassword", "passfile", "sslkey")
"""Words behind the `?` of an address that are not shown."""


def rack_place(told: str | Path | None = None) -> str:
    """The file or the URL of the rack."""
    named = str(told) if told is not None else os.environ.get(ENVIRONMENT, "")
    return named or str(own_rack())


def own_rack() -> Path:
    """The rack in the user's data folder."""
    from platformdirs import user_data_path

    return user_data_path("bickern", appauthor=False) / "rack.sqlite"


def is_url(place: str) -> bool:
    """Whether a place is a server's address and not a file."""
    return "://" in place or place.casefold().startswith(_SERVERS)


def shown(url: "URL") -> str:
    """An address without what nobody else should read."""
    return url.difference_update_query(_SECRET).render_as_string(hide_password=True)
