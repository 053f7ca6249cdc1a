"""A job as it is typed: into what is kept, and back into the fields of its form."""

from evenstand.book.kinds.work import Field, Job, Wanted
from evenstand.engine.quantities.phrases import System, say
from evenstand.engine.quantities.units import FIELD

from ..drill.outline import kept_outline
from ..parsing.given import Given
from ..parsing.structs import numbered, read, texts
from ..parsing.writing import Writing
from .calibration import target

MOST_WANTED = 6


def read_job(given: Given) -> Job:
    """Read a job from the fields of its form; its field is read by `read_field`.

    Raises
    ------
    RefusalsError
        Each under the field it was typed in.
    """
    with Writing(given) as form:
        return read(form, Job, wanted=lambda: _wanted(form))


def _wanted(form: Writing) -> tuple[Wanted, ...]:
    """Read a line for each box a rate is wanted from."""
    filled = ("rate", "tolerance", "test_weight", "seed")
    numbers = numbered(form.given, "wanted", filled, most=MOST_WANTED)
    lines = [_one_wanted(form, f"wanted{i}_") for i in numbers]
    boxes = [line.box for line in lines]
    for i, number in enumerate(numbers):
        if boxes[i] in boxes[:i]:
            need = say("this box already has a target rate")
            form.refuse(form.given.refuse(f"wanted{number}_box", need))
    return tuple(lines)


def _one_wanted(form: Writing, line: str) -> Wanted:
    wanted = read(form, Wanted, line=line)

    def fits() -> None:
        with form.given.pointing(target=f"{line}rate", tolerance=f"{line}tolerance"):
            target(wanted)

    form.attempt(fits, otherwise=None)
    return wanted


def job_texts(job: Job) -> dict[str, str]:
    """Return the fields of the form as they were filled in."""
    written = texts(job)
    for i, wanted in enumerate(job.wanted, 1):
        written |= texts(wanted, line=f"wanted{i}_")
    return written


def read_field(given: Given, *, units: System = "us") -> Field | None:
    """Read a new field from its fields in the form; None where none was named.

    Parameters
    ----------
    units : "us" or "metric"
        Of an area that the outline tells, where none was written.

    Raises
    ------
    RefusalsError
        Each under the field it was typed in.
    """
    with Writing(given) as form:
        if not form.text("field_name") and not form.text("field_area"):
            return None
        area, outline = form.amount("field_area", FIELD), ""
        if "field_outline" in given:
            with given.pointing(outline="field_outline"):
                outline, measured = kept_outline(given.text("field_outline"), units=units)
            area = area or measured
        return read(form, Field, line="field_", area=area, outline=outline)
