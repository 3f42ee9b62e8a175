"""The JSON Schema of a job file."""

from bickern.book.job.schema import schema


def job_schema() -> dict[str, object]:
    """Draft 2020-12, made from the same table of words that the reader uses."""
    return schema()
