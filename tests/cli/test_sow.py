"""``evenstand seeding FILE``: a box, two boxes, a field that is done, and what cannot be."""

import pytest

BOX = """\
[target]
rate = "60 lb/ac"

[field]
area = "38.5 ac"

[sow]
promised = "60 ± 3 lb/ac"
known = "40 ac"
shown = "40 ac"
at_edge = "2000 lb"

[[loads]]
at = "0 ac"
bags = 20
bag = "50 lb"

[[loads]]
at = "8 ac"
left = "520 ± 5 lb"
bags = 9
bag = "50 lb"

[[loads]]
at = "16 ac"
left = "490 ± 5 lb"
weight = "500 lb"
"""
METER = """
[drill]
name = "Heron"
rows = 20
spacing = "7.5 in"

[drill.scale]
low = 0
high = 60

[chart]
points = [[10, "20 lb/ac"], [20, "40 lb/ac"], [30, "60 lb/ac"], [40, "80 lb/ac"]]
"""
TWO = """\
[field]
area = "38.5 ac"

[[sow]]
box = "grain"
rate = "60 lb/ac"
volume = "20 bu"
test_weight = "58 lb/bu"

[[sow]]
box = "small seed"
rate = "8 lb/ac"

[[loads]]
box = "grain"
at = "0 ac"
mark = "90%"

[[loads]]
box = "small seed"
at = "0 ac"
tote = "200 lb"

[[loads]]
box = "grain"
at = "8 ac"
level = "49 ± 1%"
mark = "90%"

[[loads]]
box = "small seed"
at = "12 ac"
left = "104 lb"
"""


@pytest.fixture
def field(tmp_path):
    """Write a file with some of its text replaced."""

    def write(text=BOX, *changes, more=""):
        for old, new in changes:
            assert old in text
            text = text.replace(old, new)
        (tmp_path / "field.toml").write_text(text + more, encoding="utf-8")
        return "field.toml"

    return write


def test_a_box_by_hand(document, field):
    """1000 − 520 on 8 ac are 60; 970 − 490 on 8 more are 60."""
    (box,) = document("seeding", field())["boxes"]
    assert box["rate"]["value"] == pytest.approx(60, abs=0.3)
    assert [s["rate"]["value"] for s in box["stretches"]] == pytest.approx([60, 60])
    assert box["verdict"] == "on target"
    assert not box["alarm"]
    assert box["run_out"]["short"]["value"] < 0
    assert box["say"].startswith("Fill the box at 32.5 ac on the acre meter; start checking it at ")
    assert sum(share["share"] for share in box["budget"]) == pytest.approx(1)


def test_metric_units_and_a_page(document, run, field):
    (box,) = document("seeding", field(), "--units", "metric")["boxes"]
    assert box["rate"]["unit"] == "kg/ha"
    assert box["rate"]["value"] == pytest.approx(60 * 1.12085, abs=0.3)
    page = run("seeding", field(), "--working").stdout
    assert "Rate between readings" in page
    assert "1,950 lb − 990" in page
    assert "Assumptions: the rate drifts 0.2% over an acre" in page


def test_a_heavy_box_moves_the_lever(document, field):
    """The chart's own 2 lb/ac a notch: 66 lb/ac at 30 wants 27."""
    heavy = (('left = "520', 'left = "472'), ('left = "490', 'left = "394'))
    name = field(BOX, *heavy, ("[sow]", "[sow]\nsetting = 30"), more=METER)
    (box,) = document("seeding", name)["boxes"]
    assert box["verdict"] == "heavy"
    assert box["lever"]["setting"] == 27
    assert box["say"].startswith("Move the lever from 30 to 27")


def test_a_lever_moved_on_the_way(document, field):
    """From 30 to 33 at 8 ac: 66 lb/ac from there, 528 on 8 ac."""
    name = field(
        BOX,
        ("[sow]", "[sow]\nsetting = 30"),
        ('left = "520 ± 5 lb"', 'left = "520 ± 5 lb"\nsetting = 33'),
        ('left = "490', 'left = "442'),
        more=METER,
    )
    (box,) = document("seeding", name)["boxes"]
    assert box["rate"]["value"] == pytest.approx(66, abs=0.6)
    assert box["change"] is None
    unknown = field(BOX, ('left = "520 ± 5 lb"', 'left = "520 ± 5 lb"\nsetting = 33'))
    (box,) = document("seeding", unknown)["boxes"]
    assert "the lever change" in {share["name"] for share in box["budget"]}


def test_two_boxes_each_by_its_own_loads(document, field):
    """Grain by marks: 41% of 20 bu × 58 lb on 8 ac are 59.45; small seed 96 lb on 12 ac are 8."""
    grain, small = document("seeding", field(TWO))["boxes"]
    assert grain["stretches"][0]["rate"]["value"] == pytest.approx(59.45)
    assert small["stretches"][0]["rate"]["value"] == pytest.approx(8)
    assert (grain["box"], small["box"]) == ("grain", "small seed")
    assert "a level reading is good to ± 3% of the box" in " ".join(grain["taken_as"])


def test_a_field_that_is_done_teaches_its_ratio(document, field):
    """1950 + 500 − 140 = 2310 lb on 38.5 ac of the map are 60, of 64 at the stand 93.75%."""
    more = '\n[[loads]]\nat = "40 ac"\nbags = 10\nbag = "50 lb"\n\n'
    more += '[[loads]]\nat = "40 ac"\nleft = "140 ± 1 lb"\n'
    name = field(BOX, ("[sow]", '[sow]\ndone = true\nstatic = "64 ± 1 lb/ac"'), more=more)
    (box,) = document("seeding", name)["boxes"]
    closed = box["closed"]
    assert closed["used"]["value"] == pytest.approx(2310)
    assert closed["rate"]["value"] == pytest.approx(60)
    assert closed["field_ratio"]["value"] == pytest.approx(0.9375)
    assert closed["area_meter"]["value"] == pytest.approx(0.9625)
    assert "The field got 93.8% of the stationary rate." in box["say"]


def test_where_the_seed_ends(document, field):
    """22.5 ac left ask for 1350 lb; 990 in the box and 60 at the edge: 17.5 ac, at 33.5."""
    name = field(
        BOX,
        ('at_edge = "2000 lb"', 'at_edge = "60 lb"'),
        ('area = "38.5 ac"', 'area = "38.5 ac"\npass_length = "1320 ft"'),
        more='\n[drill]\nrows = 24\nspacing = "7.5 in"\n',
    )
    (box,) = document("seeding", name)["boxes"]
    said = "You will run out at about 33.5 ac on the acre meter, 300 lb short."
    assert box["say"].startswith(said)
    assert "That is in pass 74" in box["say"]  # 15 ft × 1320 ft are 0.4545 ac


@pytest.mark.parametrize(
    ("change", "place"),
    [
        (('at = "16 ac"', 'at = "6 ac"'), ("[[loads]] 3 at", 25)),
        (('left = "490 ± 5 lb"', 'left = "4900 lb"'), ("[[loads]] 3 left", 26)),
        (('left = "490 ± 5 lb"', 'level = "30%"'), ("[[loads]] 3 level", 26)),
        (('weight = "500 lb"', 'weight = "0 lb"'), ("[[loads]] 3 weight", 27)),
        (('bags = 9\nbag = "50 lb"', "bags = 9"), ("[[loads]] 2 bag", None)),
        (('left = "520 ± 5 lb"\nbags = 9\nbag = "50 lb"', ""), ("[[loads]] 2 level", None)),
        (("± 3 lb/ac", "lb/ac"), ("[sow] promised", 8)),
        (('rate = "60 lb/ac"', 'rate = "60 ± 1 lb/ac"'), ("[target] rate", 2)),
        (('shown = "40 ac"', 'shown = "4 ac"'), ("[sow] shown", 10)),
    ],
)
def test_refuses_and_names_the_line(refusal, field, *, change, place):
    error = refusal("seeding", field(BOX, change))
    assert error["field"] == place[0]
    if place[1]:
        assert error["line"] == place[1]


def test_ground_for_which_the_loads_cannot_have_sufficed(refusal, field):
    """970 lb for 62 acres more, and nothing written down between."""
    error = refusal(
        "seeding", field(BOX, ('left = "490 ± 5 lb"', ""), ('at = "16 ac"', 'at = "70 ac"'))
    )
    assert error["field"] == "[[loads]]"
    assert "is a load missing?" in error["need"]


@pytest.mark.parametrize(
    ("written", "field_"),
    [
        ((BOX, ("[sow]", "[sown]")), "[sown]"),
        (('[target]\nrate = "60 lb/ac"\n',), "[sow]"),
        (('[target]\nrate = "60 lb/ac"\n[sow]\n',), "[[loads]]"),
        ((TWO, ('box = "small seed"\nrate', 'box = "grain"\nrate')), "[[sow]] 2 box"),
        (
            (TWO, ('box = "small seed"\nat = "12 ac"', 'box = "other"\nat = "12 ac"')),
            "[[loads]] 4 box",
        ),
    ],
)
def test_refuses_tables_that_do_not_go_together(refusal, field, *, written, field_):
    assert refusal("seeding", field(*written))["field"] == field_
