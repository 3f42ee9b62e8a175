"""Opens a rack: makes it where there is none, brings it up to date, and says in words why not."""

from dataclasses import replace
from pathlib import Path

from bickern.book.database import age, engine
from bickern.book.database.faults import finding_of, no_driver, no_folder, not_there, unknown_place
from bickern.book.database.place import is_url, own_rack, rack_place, shown
from bickern.book.database.work import Book
from bickern.measure.finding import Finding, note


def open_book(
    where: str | Path | None = None, *, make: bool = True, patience: float = engine.PATIENCE
) -> Book | Finding:
    """The database at `where` (None: the environment's, or the user's own), up to date and ready to work with.

    `make`: a rack that is not there is made. `patience` [s]: how long to wait for somebody who is writing.
    """
    place = rack_place(where)
    opened = _server(place, patience) if is_url(place) else _file(place, make, patience)
    return opened if isinstance(opened, Finding) else _looked_at(opened, make)


def _file(place: str, make: bool, patience: float) -> Book | Finding:
    path = Path(place)
    try:
        if "\0" in place:
            return no_folder("", "a name cannot hold a nought")
        there = path.exists()
        if not there and not make:
            return not_there(place)
        if there and not path.is_file():
            return no_folder(place, "it is a folder" if path.is_dir() else "it is no plain file")
        if not path.parent.is_dir():
            if path != own_rack():
                return no_folder(place, f"there is no folder {path.parent}")
            path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        return no_folder(place, fault.strerror or str(fault))
    return Book(engine.file_engine(str(path.absolute()), patience), place, True)


def _server(place: str, patience: float) -> Book | Finding:
    from sqlalchemy.engine import make_url
    from sqlalchemy.exc import ArgumentError

    try:
        url = make_url(place)
        name = shown(url)
    except (ArgumentError, ValueError):
        return unknown_place(f"{place.partition(':')[0]}:...")  # no more of it: who knows what is the password here
    if url.get_backend_name() not in ("postgresql", "postgres"):
        return unknown_place(name)
    try:
        return Book(engine.server_engine(url.set(drivername="postgresql+psycopg"), patience), name, False)
    except ImportError:
        return no_driver(name)


def _looked_at(book: Book, make: bool) -> Book | Finding:
    """The book where it is up to date, or once it has been brought there; let go of where it cannot be used."""
    from sqlalchemy.exc import DBAPIError

    try:
        ready = _made_ready(book, make)
    except DBAPIError as said:
        ready = finding_of(said, book.name)
    if isinstance(ready, Finding):
        book.close()
    return ready


def _made_ready(book: Book, make: bool) -> Book | Finding:
    with engine.connected(book.engine, changes=False) as looking, looking.begin():
        wrong = age.wrong_age(looking, book.name)
        step = age.step_of(looking)
    if wrong is not None:
        return wrong
    if not step and not make:
        return not_there(book.name)
    if step != age.steps()[-1]:
        with engine.connected(book.engine, changes=True) as changing, changing.begin():
            wrong = age.bring_up_to_date(changing, book.name)
    made = () if step else (note("rack-made", f"a new rack was made: {book.name}"),)
    return replace(book, found=made) if wrong is None else wrong
