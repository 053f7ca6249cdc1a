"""The odds that ordered seed suffices, against draws of area and rate."""

import numpy as np
import pytest
from uncertainties import ufloat

from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.boxes.portion import Portion
from evenstand.engine.boxes.split import splits
from evenstand.engine.order.bags import BagSize
from evenstand.engine.order.need import OrderJob
from evenstand.engine.order.purchase import order
from evenstand.engine.quantities.units import ACRE, POUND, POUND_PER_ACRE


@pytest.mark.parametrize(("overlap", "u_overlap"), [(0.0, 0.001), (0.03, 0.01), (0.06, 0.02)])
def test_odds_agree_with_simulation(overlap, u_overlap):
    """What 24 bags of 50 lb do on 38.5 ± 0.4 ac at 30 lb/ac known to 3%."""
    rng, runs = np.random.default_rng(5), 200_000
    area, rate = rng.normal(38.5, 0.4, runs), 30 * rng.normal(1, 0.03, runs)
    used = area * rate * (1 + rng.normal(overlap, u_overlap, runs))
    rye = Portion(name="rye", rate=30 * POUND_PER_ACRE, seeds_per_kg=40_000.0)
    box = Box(name="grain", volume=1.0, seed=BOX_KINDS["grain"])
    bought = order(
        splits([rye], [box]).best[0],
        OrderJob(area=ufloat(38.5, 0.4) * ACRE, overlap=ufloat(overlap, u_overlap)),
        on_hand={"rye": 1150 * POUND},
        bags={"rye": [BagSize(weight=50 * POUND)]},
    )
    at_hand = 1150 + bought.of("rye").bought / POUND
    assert bought.odds == pytest.approx((used <= at_hand).mean(), abs=0.006)
