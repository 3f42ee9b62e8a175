"""What is said of an open job that others change, too, or that a crash cut off."""

from bickern.book.text import LARGEST
from bickern.measure.finding import Finding, Where, note, stop, warn


def too_large(text: str) -> Finding:
    """A text that no job file may have."""
    says = f"this text is {len(text) / 1e6:.1f} MB; a job file may have {LARGEST / 1e6:.0f} MB"
    return stop("too-large", says, "is it the right text?")


def meanwhile(number: int) -> Finding:
    """The same lines were changed by two; the text that did not come in is state `number`."""
    says = f"the same lines were changed elsewhere meanwhile; your text is kept as state {number}"
    return stop("changed-meanwhile", says, "look at both, and put in what you want to keep")


def by_another(name: str) -> Finding:
    """Another program wrote the file."""
    says = f"another program has changed `{name}`; its version is shown now"
    return note("changed-by-another", says, "earlier states are all kept")


def look_first(what: str) -> Finding:
    """A step is not undone over what somebody has not seen yet."""
    return note("changed-by-another", "the job was changed elsewhere just now", f"look at it, then {what}")


def put_back() -> Finding:
    """A crash cut off the last edit; it stands again."""
    return note("put-back", "the last change had not reached the file; it is put back", "look whether all is there")


def written_again(name: str) -> Finding:
    """Somebody took the file away or gave it another name while it was open."""
    return note("written-again", f"`{name}` was gone and is written again", "was it moved, or given another name?")


def spoilt(number: int) -> Finding:
    """No text of that number can be read."""
    return stop("no-such-state", f"there is no state {number} that can be read", "choose another one")


def not_ours(why: Finding) -> Finding:
    """The file is no job file any more, so it is not written over."""
    says = f"the file is left as it is: {why.says}; what you typed is kept in its states"
    return warn("file-not-ours", says, why.try_this, Where(why.where.file))
