"""The best mix within all limits, as programs are given it: without the solver itself."""

from dataclasses import dataclass
from typing import Annotated, Literal

from evenstand.engine.order.purchase import Purchase
from evenstand.engine.quantities.phrases import Phrase
from evenstand.engine.quantities.written import AS_TEXT, put

from .mix import Mixed


@dataclass(frozen=True, slots=True, kw_only=True)
class Binding:
    """A side of a limit that holds the mix back, and what it costs."""

    KEYS = ("on", "side", "say")

    on: Literal["limit", "seed on hand"]
    side: Literal["low", "high"]
    say: Phrase


@dataclass(frozen=True, kw_only=True)
class BestMix:
    """A mix, in which way it is the best, and what to buy for it.

    ``gap`` is how far from the least it may be, as a share: 0 where that is proven.
    """

    KEYS = (put("mixed", added=True), put("say", "advice"), "proven", "gap", "limits", "purchases")

    mixed: Mixed
    advice: Annotated[tuple[Phrase, ...], AS_TEXT]
    gap: float
    limits: tuple[Binding, ...]
    purchases: tuple[Purchase, ...]

    @property
    def proven(self) -> bool:
        """Whether no mix within the limits is better."""
        return not self.gap
