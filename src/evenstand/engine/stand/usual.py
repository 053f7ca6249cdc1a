"""How much of live seed usually comes up, by the kind of seed: published ranges as a start.

A published range is read as about one standard deviation either way; that
reading is a judgement. What is counted on the farm soon outweighs it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import sqrt
from types import MappingProxyType

from ..statistics.budget import Quantity, uncertain


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """A beta distribution of what usually comes up, of live seed.

    ``low`` and ``high`` are what the source prints. [-] ``read`` is false
    where the range is common practice.
    """

    name: str
    a: float
    b: float
    low: float
    high: float
    source: str
    read: bool = True

    @property
    def mean(self) -> float:
        """Share expected to come up. [-]"""
        return self.a / (self.a + self.b)

    @property
    def sd(self) -> float:
        """Its standard deviation from field to field. [-]"""
        return sqrt(self.a * self.b / (self.a + self.b + 1)) / (self.a + self.b)

    def quantity(self, species: str) -> Quantity:
        """The share with its uncertainty, tagged for one species. [-]"""
        return uncertain(self.mean, self.sd, f"usual emergence of {species}")


UNKNOWN = Usual(name="unknown", a=2.0, b=2.0, low=0.2, high=0.8, source="nothing known", read=False)
_LISTED = (
    Usual(
        name="small grain",
        a=17.0,
        b=3.0,
        low=0.80,
        high=0.90,
        source="NDSU: stand loss 10 to 20% in a good seedbed; Kansas State uses 80%",
    ),
    Usual(
        name="pea",
        a=31.5,
        b=3.5,
        low=0.85,
        high=0.95,
        source="Saskatchewan Pulse Growers and Agriculture: germination less 5 to 15 points",
    ),
    Usual(
        name="canola",
        a=11.0,
        b=9.0,
        low=0.45,
        high=0.65,
        source="Canola Council: 50 to 60% usual, 40 to 70% elsewhere",
    ),
    Usual(
        name="alfalfa",
        a=13.8,
        b=9.2,
        low=0.50,
        high=0.70,
        source="University of Wisconsin: 50 to 70%, 60% used",
    ),
    Usual(
        name="native grass",
        a=3.0,
        b=12.0,
        low=0.10,
        high=0.30,
        source="rule of thumb",
        read=False,
    ),
    UNKNOWN,
)
USUAL: Mapping[str, Usual] = MappingProxyType({each.name: each for each in _LISTED})
