"""A field for the tests of Sow: 60 lb/ac wanted, levels known to 10 lb, 8 acres a fill."""

from uncertainties import ufloat

from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.catch.target import Target
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import ACRE, POUND, POUND_PER_ACRE
from evenstand.engine.seeding.events import Level, Load
from evenstand.engine.seeding.field_area import AreaMeter
from evenstand.engine.seeding.level import InBox
from evenstand.engine.seeding.steps import Known

RATE = 60 * POUND_PER_ACRE
BOX = Box(name="grain", volume=1.0, seed=BOX_KINDS["grain"])
EXACT = AreaMeter(factor=1.0, known=True, say=say("exact"))


def known(**changed):
    given = {
        "target": Target(rate=RATE),
        "expected": ufloat(RATE, 0.03 * RATE, "calibration"),
        "meter": EXACT,
        "reading_u": 0.0,
        "drift": 0.0,
    }
    return Known(**(given | changed))


def level(acres, pounds, *, u=10.0, by_volume=False):
    return Level(
        at=acres * ACRE, seed=InBox(weight=pounds * POUND, u=u * POUND, by_volume=by_volume)
    )


def load(acres, pounds, *, u=0.0):
    return Load(at=acres * ACRE, weight=pounds * POUND, u=u * POUND)


def field(rates, *, fill=8, full=1000.0):
    """Levels before and after each fill, exactly as the rates in lb/ac make them."""
    events, seed = [load(0, full)], full
    for i, rate in enumerate(rates, start=1):
        seed -= fill * rate
        events += [level(i * fill, seed), load(i * fill, full - seed)]
        seed = full
    return events[:-1]
