"""What every amount that is kept measures, and which may be 0."""

from collections.abc import Callable, Mapping
from typing import Any

from msgspec import Struct

from evenstand.book.machine import Box, Chart, ChartPoint, Drill
from evenstand.book.seed import BagSize, Lot, Member, Mix, Noxious, Sample, SeedCount
from evenstand.book.sown import Check, Dug, Finished, Ground, Left, Level, Load, Moved
from evenstand.book.work import (
    Bag,
    Catch,
    Field,
    InBox,
    Inoculant,
    Job,
    Live,
    OfBox,
    Order,
    Place,
    Record,
    StandCount,
    StandWish,
    Used,
    Wanted,
)
from evenstand.engine.quantities.units import (
    CATCH,
    DENSITY,
    FIELD,
    GROUND,
    HOURS,
    LENGTH,
    LOAD,
    MINUTES,
    MONEY,
    NUMBER,
    PLANTS,
    PRICE,
    RATE,
    SCALE_STEP,
    SEED_COUNT,
    SEED_WEIGHT,
    SHARE,
    SPACING,
    SPEED,
    TEST_WEIGHT,
    TRAVEL,
    TURNS,
    VOLUME,
    Kind,
)

# Amounts that may be 0; all others are above it.
ZERO = frozenset(
    (
        *("slip", "scale_tolerance", "tare", "on_hand", "price", "per_kg", "uplift", "overlap"),
        *("weight", "low", "carrier_rate", "refill", "biomass", "loaded", "left"),
        *("at", "level", "edge", "lap", "depths"),
    )
)

Siblings = Mapping[str, Any]
Chosen = Callable[[Siblings], Kind]


def _by(name: str) -> Chosen:
    """Let the basis that stands in a field beside it say what an amount measures."""
    kinds = {"of full rate": SHARE, "live seeds": DENSITY}
    return lambda siblings: kinds.get(str(siblings.get(name)), RATE)


def _ratio(siblings: Siblings) -> Kind:
    """A ratio may be written in per cent."""
    text = siblings["field_ratio"].get("text")
    return SHARE if "%" in str(text) else NUMBER


# What each amount of what is kept measures, by its type and field.
KINDS: Mapping[type[Struct], Mapping[str, Kind | Chosen]] = {
    Box: {"volume": VOLUME, "least": RATE, "most": RATE},
    Drill: {
        "spacing": SPACING,
        **dict.fromkeys(("rolled", "taped"), TRAVEL),
        **dict.fromkeys(("slip", "row_cv"), SHARE),
        "crank_per_wheel": NUMBER,
    },
    ChartPoint: {"rate": RATE},
    Chart: {"spacing": SPACING, "test_weight": TEST_WEIGHT},
    Noxious: {"per_kg": SEED_COUNT},
    BagSize: {"weight": LOAD, "price": MONEY},
    Lot: {
        **dict.fromkeys(("seeds_per_kg", "coated_per_kg"), SEED_COUNT),
        "thousand_seed_weight": SEED_WEIGHT,
        "price": PRICE,
        "on_hand": LOAD,
        "test_weight": TEST_WEIGHT,
    },
    Sample: {"weight": SCALE_STEP},
    SeedCount: {"resolution": SCALE_STEP},
    Member: {
        "rate": _by("basis"),
        "full": _by("full_basis"),
        "in_mix": RATE,
        "depth": SPACING,
        "cn": NUMBER,
        "biomass": RATE,
        "price": PRICE,
        "test_weight": TEST_WEIGHT,
    },
    Mix: {"whole": _by("whole_basis"), "uplift": SHARE},
    Field: {"area": FIELD},
    Wanted: {"rate": RATE, "test_weight": TEST_WEIGHT, "tolerance": SHARE},
    Job: {
        **dict.fromkeys(("rolled", "taped"), TRAVEL),
        "slip": SHARE,
        "field_ratio": _ratio,
        "speed": SPEED,
        **dict.fromkeys(("resolution", "scale_tolerance"), SCALE_STEP),
    },
    InBox: {
        "carrier_rate": RATE,
        "test_weight": TEST_WEIGHT,
        "measure": VOLUME,
        "sample": LOAD,
        "full": SHARE,
    },
    OfBox: {"weight": LOAD},
    Inoculant: {**dict.fromkeys(("amount", "seed", "pack"), LOAD), "within": HOURS},
    Order: {
        "area": FIELD,
        "pass_length": LENGTH,
        **dict.fromkeys(("overlap", "spread", "efficiency"), SHARE),
        "batch": LOAD,
        "speed": SPEED,
        "refill": MINUTES,
    },
    Bag: {"weight": CATCH},
    Catch: {
        **dict.fromkeys(("turns", "crank_turns"), TURNS),
        "crank_per_wheel": NUMBER,
        "per_turn": TRAVEL,
        "distance": LENGTH,
        "area": FIELD,
        **dict.fromkeys(("gross", "tare"), CATCH),
        "resolution": SCALE_STEP,
    },
    Place: {
        **dict.fromkeys(("length", "sides"), LENGTH),
        **dict.fromkeys(("hoop", "around", "gaps"), SPACING),
        "area": GROUND,
    },
    StandCount: {"spacing": SPACING},
    Live: {"seeds": DENSITY},
    StandWish: {"wish": PLANTS},
    Load: {
        "at": FIELD,
        "bags": NUMBER,
        **dict.fromkeys(("bag", "weight", "tote", "left", "edge"), LOAD),
        **dict.fromkeys(("mark", "level"), SHARE),
    },
    Level: {"at": FIELD, "left": LOAD, "level": SHARE},
    Ground: {
        **dict.fromkeys(("shown", "known"), FIELD),
        "passes": NUMBER,
        "length": LENGTH,
        "lap": SPACING,
    },
    Moved: {"at": FIELD},
    Dug: {"depths": SPACING},
    Check: {"at": FIELD, "length": LENGTH, "seeds_per_kg": SEED_COUNT, "wanted": SPACING},
    Left: {"weight": LOAD},
    Finished: {"at": FIELD, "area": FIELD},
    Used: {"loaded": LOAD, "left": LOAD},
    Record: {"area": FIELD, "depth": SPACING},
}
