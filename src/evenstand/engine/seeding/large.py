"""An advice whose one number is told large, to be read at arm's length."""

from dataclasses import dataclass

from ..quantities.phrases import Phrase, Value


@dataclass(frozen=True, slots=True)
class Large:
    """The number, what goes before it, and what follows."""

    heading: Phrase
    number: Value
    after: tuple[Phrase, ...]
