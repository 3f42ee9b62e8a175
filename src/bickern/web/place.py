"""What is served: the folder of the jobs, the rack, and this forge's figures."""

from dataclasses import dataclass
from pathlib import Path

from bickern.desk.job.folder import JobFolder


@dataclass(frozen=True, slots=True)
class Place:
    """`rack`: a file or a database's address (None: this smith's own); `shop`: a shop file for every job (None: none).

    `lan`: whether others on the same net may come in.
    """

    jobs: JobFolder
    rack: str | None = None
    shop: Path | None = None
    lan: bool = False
