"""Questions about inputs that are possible but rarely meant."""

from collections.abc import Iterable
from dataclasses import dataclass

from evenstand.engine.catch.weighing import Catch
from evenstand.engine.parsing.plausible import warn, warn_of_small_catch
from evenstand.engine.quantities.errors import Path
from evenstand.engine.quantities.phrases import Phrase
from evenstand.engine.quantities.units import (
    RATE,
    ROWS,
    SHARE,
    SPACING,
    SPEED,
    TEST_WEIGHT,
    TRAVEL,
    Kind,
)

from .given import Given

KINDS = {
    "rows": ROWS,
    "spacing": SPACING,
    "rolled": TRAVEL,
    "taped": TRAVEL,
    "slip": SHARE,
    "target": RATE,
    "rate": RATE,
    "tolerance": SHARE,
    "test_weight": TEST_WEIGHT,
    "speed": SPEED,
}


MOST = 3  # lines before the others are folded


@dataclass(frozen=True)
class Warned:
    """A question, the path to the input it is about, and whose that is: a lot, a line of a mix."""

    KEYS = ("field", "say")

    path: Path
    say: Phrase
    about: Phrase | str = ""

    @property
    def field(self) -> str:
        """The path as it is written where the input stands."""
        return str(self.path)


@dataclass(frozen=True)
class Notice:
    """A question said once, and each input it is about."""

    say: Phrase
    about: tuple[Warned, ...] = ()


def noticed(said: Iterable[Warned | Phrase]) -> tuple[Notice, ...]:
    """Gather questions, each said once for everything it is about."""
    found: list[Notice] = []
    for each in said:
        text, about = (each, ()) if isinstance(each, Phrase) else (each.say, (each,))
        earlier = next((notice for notice in found if notice.say == text), None)
        if earlier is None:
            found.append(Notice(text, about))
        elif not any(each == warned for warned in earlier.about):
            found[found.index(earlier)] = Notice(text, (*earlier.about, *about))
    return tuple(found)


def ask_about(given: Given, *, test_weight: float | None = None) -> tuple[Warned, ...]:
    """Ask about every input of a known kind; all of them were read before."""
    asked: list[Warned] = []
    for key, kind in KINDS.items():
        if key in given:
            value = given.reading(key, kind, test_weight=test_weight).value
            asked += about(given.path(key), value, kind, word=key)
    return tuple(asked)


def about(path: Path, value: float, kind: Kind, *, word: str = "") -> list[Warned]:
    """Ask about one value; ``word`` tells shares apart."""
    return [Warned(path, text) for text in warn(word, value, kind)]


def about_small(path: Path, catches: Iterable[Catch], *, resolution: float) -> list[Warned]:
    """Ask for more seed where a bag holds few steps of the scale."""
    smallest = min((bag.weight for catch in catches for bag in catch), default=0.0)
    return [Warned(path, text) for text in warn_of_small_catch(smallest, resolution=resolution)]
