"""The seven steps of a job: what each asks, and how far it is."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from evenstand.book.book import Book
from evenstand.engine.quantities.phrases import Phrase
from evenstand.tasks.job.kept import Kept

State = Literal["done", "under way", "open", "later"]


@dataclass(frozen=True)
class StepLine:
    """One line of the job page: how far a step is, and its headline number.

    ``box`` tells the lines of a step that goes box by box apart.
    """

    state: State
    headline: Phrase
    box: str = ""


@dataclass(frozen=True, kw_only=True)
class Step:
    """A step of a job.

    Parameters
    ----------
    key : str
        Its word in the API.
    lines : callable
        Says how far the step is, a line for each box where it goes box by box.
    endpoint : str
        The view of its page; it takes ``job`` and may take ``box``.
    """

    key: str
    title: Phrase
    question: Phrase
    lines: Callable[[Book, Kept], list[StepLine]]
    endpoint: str
