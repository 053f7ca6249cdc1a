"""Amounts as they were typed, told to readers of either system."""

from dataclasses import dataclass

import pytest

from evenstand.engine.parsing.retold import retold
from evenstand.engine.parsing.spelling import SPELLINGS, systems
from evenstand.engine.quantities.phrases import Style, say
from evenstand.engine.quantities.units import FIELD, LOAD, SCALE_STEP, SHARE, SPACING, TRAVEL

US, METRIC = Style(), Style(system="metric")
COMMA = Style(system="metric", decimal=",", thousands=".")


@dataclass(frozen=True)
class Typed:
    value: float
    text: str
    give_or_take: float = 0.0


TAPED = Typed(2.413, "95 in ± 1 in", 0.0254)


@pytest.mark.parametrize(
    ("typed", "read_by", "said"),
    [
        # 38.5 × 0.40468564 ha; 7.5 × 2.54 cm; 95 in ± 1 in are 2.413 m ± 2.54 cm.
        (Typed(38.5 * 4046.8564224, "38.5 ac"), (FIELD, METRIC), "15.6 ha (38.5 ac)"),
        (Typed(38.5 * 4046.8564224, "38.5 ac"), (FIELD, US), "38.5 ac"),
        (Typed(0.1905, "7.5 in"), (SPACING, COMMA), "19,1 cm (7,5 in)"),
        (TAPED, (TRAVEL, METRIC), "2.41 ± 0.025 m/turn (95 in ± 1 in)"),
        (Typed(1000.0, "1000 kg"), (LOAD, US), "2,205 lb (1,000 kg)"),
        (Typed(1000.0, "1000 kg"), (LOAD, COMMA), "1.000 kg"),
        (Typed(0.05, "5 %"), (SHARE, METRIC), "5%"),
        # A scale that weighs seeds shows grams everywhere: what was typed is their own unit.
        (Typed(0.02, "20.0 g"), (SCALE_STEP, US), "20.0 g"),
    ],
)
def test_the_other_system_is_written_in_the_reader_s_with_what_was_typed_beside(
    typed, read_by, said
):
    assert retold(typed, *read_by) == said


def test_where_there_is_no_room_the_reader_s_units_stand_alone():
    area = Typed(38.5 * 4046.8564224, "38.5 ac")
    assert retold(area, FIELD, METRIC, beside=False) == "15.6 ha"


def test_every_spelled_unit_of_measure_is_of_one_system():
    """NIST SP 811: what is a power of ten in SI, and km/h, is metric; all the others are US."""
    metric = {each for each in SPELLINGS if systems(each) == {"metric"}}
    us = {each for each in SPELLINGS if systems(each) == {"us"}}
    assert {"mm", "ha", "kg", "t", "hl", "kph", "hectarea"} <= metric
    assert {"in", '"', "ft", "ac", "lb", "#", "bu", "mph", "short ton", "sq ft", "pulg"} <= us
    assert not systems("5%, 20 turns, 2 h")


def test_the_acre_meter_is_a_hectare_meter_to_readers_of_metric_units():
    text = say("check both areas: they differ by more than an acre meter can be off")
    assert METRIC.write(text).endswith("more than a hectare meter can be off")
    assert US.write(text).endswith("more than an acre meter can be off")
