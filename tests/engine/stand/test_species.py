"""Parts of a mix: Mendel's peas as a stand, simulated mixes with and without a short species."""

import random
import re

import pytest

import labels
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.stand.place import Place
from evenstand.engine.stand.species import SownSpecies, composition, in_words
from evenstand.engine.stand.usual import USUAL, Usual

SURE = Usual(name="sure", a=8e6, b=2e6, low=0.8, high=0.8, source="an invented seed")
MIX = [
    SownSpecies(name="rye", seeds=200.0, usual=USUAL["small grain"]),
    SownSpecies(name="vetch", seeds=120.0, usual=USUAL["pea"]),
    SownSpecies(name="clover", seeds=180.0, usual=USUAL["alfalfa"]),
]


def verdicts(found):
    return {part.name: part.verdict for part in found.parts}


def poisson(rng, mean):
    count, left = 0, rng.expovariate(1.0)
    while left < mean:
        count += 1
        left += rng.expovariate(1.0)
    return count


def field(rng, *, places=10, gone=(), sure=False, k=None):
    """Places of half a square metre in a field whose emergence is drawn from what is usual."""
    share = {
        each.name: 0.8 if sure else rng.betavariate(each.usual.a, each.usual.b) for each in MIX
    }
    for name in gone:
        share[name] *= 0.35
    return [
        Place(
            area=0.5,
            plants={
                each.name: poisson(
                    rng,
                    0.5 * each.seeds * share[each.name] * (rng.gammavariate(k, 1 / k) if k else 1),
                )
                for each in MIX
            },
        )
        for _ in range(places)
    ]


def test_mendels_peas_as_one_place_in_many(published):
    """The counts of his garden over 9 : 3 : 3 : 1: nothing is short, χ² gives p 0.925."""
    rows = published("mendel_peas.csv")
    sown = [SownSpecies(name=row["kind"], seeds=row["ratio"], usual=SURE) for row in rows]
    garden = Place(area=1.0, plants={row["kind"]: int(row["count"]) for row in rows})
    found = composition([garden], sown, clumping=1e12)
    assert set(verdicts(found).values()) == {"as sown"}
    assert found.as_usual == pytest.approx(0.9254, abs=5e-3)
    round_yellow = found.parts[0]
    assert round_yellow.seen.value == pytest.approx(315 / 556)
    # √(9/16 × 7/16 ÷ 556) = 0.02104, 1.96 of it
    assert round_yellow.seen.u == pytest.approx(0.02104, abs=5e-6)
    assert round_yellow.seen.high == pytest.approx(315 / 556 + 1.96 * 0.02104, abs=1e-4)


@pytest.mark.simulated
def test_a_sound_mix_is_called_short_once_in_twenty_at_most():
    rng, alarms = random.Random(20), 0
    for _ in range(400):
        alarms += set(verdicts(composition(field(rng), MIX)).values()) != {"as sown"}
    assert alarms / 400 <= 0.05 + 0.02


@pytest.mark.simulated
def test_clumps_raise_no_alarm():
    rng, alarms = random.Random(21), 0
    for _ in range(300):
        alarms += set(verdicts(composition(field(rng, k=5), MIX)).values()) != {"as sown"}
    assert alarms / 300 <= 0.05 + 0.02


@pytest.mark.parametrize("places", [1, 3])
def test_few_places_raise_no_alarm(places):
    rng, alarms = random.Random(22), 0
    for _ in range(300):
        found = composition(field(rng, places=places, k=7), MIX)
        alarms += set(verdicts(found).values()) != {"as sown"}
    assert alarms / 300 <= 0.05 + 0.02


def test_a_species_that_stayed_away_is_found():
    rng, found = random.Random(23), 0
    for _ in range(100):
        found += verdicts(composition(field(rng, gone=("vetch",)), MIX))["vetch"] == "short"
    assert found >= 90


def test_plenty_is_said_where_none_is_short():
    names = ("rye", "vetch", "clover", "flax", "radish", "phacelia")
    sown = [SownSpecies(name=n, seeds=100.0, usual=USUAL["alfalfa"]) for n in names]
    places = [Place(area=1.0, plants=dict.fromkeys(names, 40) | {"rye": 120}) for _ in range(6)]
    found = composition(places, sown)
    assert re.match(labels.PLENTY_PLANTS_WHERE.like(name="rye", seen="38%"), str(in_words(found)))


def test_words_name_the_short_one():
    sown = [SownSpecies(name=n, seeds=100.0, usual=SURE) for n in ("rye", "vetch")]
    places = [Place(area=1.0, plants={"rye": 80 + i, "vetch": 20 + i}) for i in range(6)]
    found = composition(places, sown)
    assert verdicts(found) == {"rye": "more", "vetch": "short"}
    assert str(in_words(found)) == (
        labels.SHORT_PLANTS_WHERE(name="vetch", seen="21%", low="50%", high="50%")
    )
    assert found.as_usual < 0.001
    even = composition([Place(area=1.0, plants={"rye": 50, "vetch": 50})] * 6, sown)
    assert labels.NO_SPECIES_SHORT in str(in_words(even))
    few = composition([Place(area=1.0, plants={"rye": 3, "vetch": 1})], sown)
    assert str(in_words(few)).startswith(labels.ONLY_PLANTS_COUNTED(n=4))
    assert few.as_usual is None


def test_clumps_of_one_species_make_the_whole_less_odd():
    """330 to 270 of 300 each: χ² 6, p 0.014 for plants that fell by chance.

    Places of 75 to 25 and 35 to 65 differ far more than that: the whole tells nothing.
    """
    sown = [SownSpecies(name=n, seeds=100.0, usual=SURE) for n in ("rye", "vetch")]
    pairs = [(75, 25), (35, 65)] * 3
    places = [Place(area=1.0, plants={"rye": rye, "vetch": vetch}) for rye, vetch in pairs]
    assert composition(places, sown).as_usual > 0.3


def test_a_species_with_no_plant_at_all():
    sown = [SownSpecies(name=n, seeds=100.0, usual=SURE) for n in ("rye", "vetch")]
    found = composition([Place(area=1.0, plants={"rye": 30, "vetch": 0})] * 6, sown)
    assert found.parts[1].verdict == "short"
    assert found.parts[1].seen.low == 0


def test_order_and_ground_do_not_matter():
    places = field(random.Random(5))
    once = composition(places, MIX)
    again = composition(list(reversed(places)), MIX)
    assert [p.p for p in again.parts] == pytest.approx([p.p for p in once.parts])
    larger = [Place(area=5.0, plants=place.plants) for place in places]
    assert composition(larger, MIX).parts == once.parts


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: composition([Place(area=1.0, plants={"rye": 1})], MIX[:1]), "sown"),
        (lambda: composition([Place(area=1.0, plants={"rye": 1})], MIX), "plants of vetch"),
        (lambda: composition([], MIX), "plants of rye"),
        (
            lambda: composition([Place(area=1.0, plants={each.name: 0 for each in MIX})], MIX),
            "plants",
        ),
        (lambda: SownSpecies(name="rye", seeds=0.0), "seeds of rye"),
    ],
)
def test_what_cannot_be_is_refused_under_its_field(call, field):
    with pytest.raises(MeasurementError) as refused:
        call()
    assert refused.value.field == field
