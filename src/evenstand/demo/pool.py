"""Drills of the made-up Tamarack Flats pool: what their owners know, and how they truly drop.

Every number here is made up.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from evenstand.engine.quantities.units import POUND_PER_ACRE


@dataclass(frozen=True, kw_only=True)
class Truth:
    """How a drill truly meters, which nobody but the simulator knows.

    Parameters
    ----------
    closed : float
        Setting at which seed begins to flow.
    per_notch : float
        Stationary rate that each notch adds in full gear. [kg/m²]
    rows : tuple of float
        What each row drops, as a share of their mean. [-]
    flow_cv : float
        Scatter of one row's seed from run to run. [-]
    """

    closed: float
    per_notch: float
    rows: tuple[float, ...]
    flow_cv: float


@dataclass(frozen=True, kw_only=True)
class PoolDrill:
    """A drill of the pool with a job for it: tables as in a job file, and the truth.

    ``box`` is the one that is set, empty where the job says its target rate itself.
    """

    name: str
    job: Mapping[str, Any]
    truth: Truth
    box: str = ""


HERON = PoolDrill(
    name="Heron",
    job=MappingProxyType(
        {
            "drill": {
                "name": "Heron",
                "rows": 20,
                "spacing": "7.5 in",
                "taped": "95 in",
                "slip": "3 ± 2%",
                "scale": {"low": 0, "high": 60, "step": 1, "slack": "below"},
                "gears": [{"name": "full", "ratio": 1}, {"name": "half", "ratio": 0.5}],
            },
            "chart": {
                "gear": "full",
                "spacing": "7.5 in",
                "test_weight": "56 lb/bu",
                "points": [
                    [20, "39 lb/ac"],
                    [30, "62 lb/ac"],
                    [40, "86 lb/ac"],
                    [50, "109 lb/ac"],
                ],
            },
            "seed": {"name": "rye and vetch", "test_weight": "57 lb/bu"},
            "field": {"name": "Alder Bench, 38.5 ac"},
            "target": {"rate": "54 lb/ac", "tolerance": "5%", "on": "field", "gear": "full"},
            "weighing": {"resolution": "1 g"},
        }
    ),
    truth=Truth(
        closed=5.5,
        per_notch=1.86 * POUND_PER_ACRE,
        rows=(
            *(1.01, 0.98, 1.03, 1.00, 0.99, 1.02, 1.01, 0.97, 1.02, 1.00),
            *(1.03, 0.99, 0.85, 1.01, 1.02, 0.98, 1.03, 1.01, 1.05, 1.00),
        ),
        flow_cv=0.012,
    ),
)

# Of the boxes in the pool's book; a scale that runs backwards has less to each notch.
TRUTHS: Mapping[tuple[str, str], Truth] = MappingProxyType(
    {
        ("Heron", "grain"): HERON.truth,
        ("Heron", "small seed"): Truth(
            closed=4.0,
            per_notch=0.29 * POUND_PER_ACRE,
            rows=(1.0, 1.02, 0.99, 1.01, 0.98) * 4,
            flow_cv=0.015,
        ),
        ("Plover", "grain"): Truth(
            closed=4.0,
            per_notch=1.93e-4,
            rows=(1.0, 0.99, 1.02, 1.01, 0.98, 1.0) * 4,
            flow_cv=0.012,
        ),
        ("Teal", "fluffy"): Truth(
            closed=31.0,
            per_notch=-0.80 * POUND_PER_ACRE,
            rows=(1.0, 1.03, 0.97, 1.01, 0.99, 1.02, 0.98, 1.0) * 2,
            flow_cv=0.02,
        ),
        ("Teal", "small seed"): Truth(
            closed=30.5,
            per_notch=-0.34 * POUND_PER_ACRE,
            rows=(1.0, 0.98, 1.01, 1.02, 0.99, 1.0, 1.01, 0.99) * 2,
            flow_cv=0.015,
        ),
    }
)
