"""``evenstand order FILE``: by hand for Alder Bench, and what cannot be ordered."""

import pytest

DAY = ("--today", "2026-11")


@pytest.fixture
def ordered(document, bench):
    return document("order", bench(), *DAY)


def of(found, name):
    return next(each for each in found["species"] if each["name"] == name)


def test_rye_by_hand(ordered):
    """45 × 38.5 = 1,732.5 lb, 4% of it 69.3; three quarters of 20 lb that stay and 6 lb caught."""
    rye = of(ordered, "Cereal rye")
    weights = {key: rye[key]["value"] for key in ("field", "overlap", "heel", "catches", "need")}
    assert weights == {
        "field": pytest.approx(1732.5),
        "overlap": pytest.approx(69.3),
        "heel": pytest.approx(15),
        "catches": pytest.approx(4.5),
        "need": pytest.approx(1821.3),
    }
    # 37 bags of 50 lb at $18.
    assert [(bag["count"], bag["weight"]["value"]) for bag in rye["bags"]] == [(37, 50)]
    assert rye["cost"] == pytest.approx(666)
    assert rye["left"]["value"] == pytest.approx(1850 - 1821.3)
    assert rye["need"]["low"] < 1821.3 < rye["need"]["high"]


def test_seed_on_hand_and_bags_of_two_sizes(ordered):
    """Vetch 607.1 lb less 75 is 532.1: 11 bags. Clover 240.24 lb in bags of 50 or 25."""
    vetch, clover = of(ordered, "Hairy vetch"), of(ordered, "Crimson clover")
    assert vetch["to_buy"]["value"] == pytest.approx(532.1)
    assert [bag["count"] for bag in vetch["bags"]] == [11]
    # 5 × 50 lb at $85 are $425; 4 × 50 + 2 × 25 are $430; 9 × 25 + 1 × 50 cost more.
    assert [(bag["count"], bag["price"]) for bag in clover["bags"]] == [(5, 85)]
    assert ordered["total"]["cost"] == pytest.approx(37 * 18 + 11 * 92 + 5 * 85)


def test_odds_asked_for_buy_more(document, bench):
    sure = document("order", bench(("[order]\n", '[order]\nsure = "95%"\n')), *DAY)
    rye = of(sure, "Cereal rye")
    # 3 % of 1,801.8 lb is 54.1 lb; 1.645 of that more than 1,821.3 is 1,910.
    assert rye["wanted"]["value"] == pytest.approx(1910.2, abs=1)
    assert min(each["odds"] for each in sure["species"]) >= 0.95
    assert sure["total"]["odds_at_least"] <= sure["total"]["odds"]


def test_batches_by_hand(ordered):
    """60 × 40.04 + 6 + 20 = 2,428.4 lb at most 600 at once: five batches of 485.68 lb."""
    grain, small = ordered["batches"]
    assert (grain["batches"], grain["weight"]["value"]) == (5, pytest.approx(485.68))
    layers = {each["name"]: each["weight"]["value"] for each in grain["layers"]}
    assert layers == {
        "Cereal rye": pytest.approx(364.26),
        "Hairy vetch": pytest.approx(121.42),
    }
    assert small["batches"] == 1
    assert small["steps"] == ["no mixing needed: fill small seed straight from the bag"]


def test_inoculant_by_its_label(ordered, document, bench):
    """607.1 lb at 6 oz for 100 lb: 36.4 oz, 7 packs of 6 oz, 7.285 oz in each of 5 batches."""
    vetch = ordered["inoculants"][0]
    assert vetch["amount"]["value"] == pytest.approx(36.426)
    assert (vetch["packs"], vetch["times"]) == (7, 5)
    assert vetch["each_time"]["value"] == pytest.approx(7.2852)
    assert "dampen Hairy vetch and mix in 7.29 oz of inoculant" in ordered["batches"][0]["steps"][0]
    assert any("48 h" in each for each in ordered["inoculant_rules"])
    more = '[[inoculant]]\nspecies = "clover"\namount = "8 oz"\nseed = "50 lb"\n'
    steps = document("order", bench(more=more), *DAY)["batches"][1]["steps"]
    assert steps[0].startswith("dampen Crimson clover and mix in 38.4 oz of inoculant")
    assert steps[1] == "no more mixing needed: fill small seed with it"


def test_loads_and_where_they_run_out(ordered):
    """1,120 − 20 lb at 60 lb/ac: 18.33 ac; a pass of 12.5 × 1,290 ft is 0.37018 ac."""
    grain, small = ordered["loads"]
    assert grain["per_load"]["value"] == pytest.approx(1100 / 60)
    assert [each["number"] for each in grain["loads"]] == [1, 2, 3]
    first = grain["loads"][0]
    assert first["weight"]["value"] == pytest.approx(1120)
    assert first["ends"]["value"] == pytest.approx(18.333, abs=0.001)
    assert first["field_done"]["value"] == pytest.approx(18.333 / 1.04, abs=0.001)
    # 18.333 ÷ 0.370179 is 49.526 passes.
    assert first["pass"] == 50
    assert first["along"]["value"] == pytest.approx(0.5257 * 1290, abs=2)
    assert grain["loads"][-1]["field_done"]["value"] == pytest.approx(38.5)
    assert len(small["loads"]) == 2


def test_a_box_that_is_filled_half(document, bench):
    """560 − 20 lb at 60 lb/ac: 9 ac."""
    half = document("order", bench(('heel = "20 lb"', 'heel = "20 lb"\nfull = "50%"')), *DAY)
    assert half["loads"][0]["per_load"]["value"] == pytest.approx(9)


def test_treated_seed_and_inoculant(document, bench):
    treated = bench(("seeds_per_lb = 16500", "seeds_per_lb = 16500\ntreated = true"))
    notes = document("order", treated, *DAY)["notes"]
    assert any("Hairy vetch is treated: check both labels" in each for each in notes)


def test_hours_by_the_extension_s_formula(ordered):
    """Iowa State A3-24: 5 mph × 12.5 ft × 0.7 ÷ 8.25 = 5.303 ac/h; 40.04 ac take 7.55 h."""
    assert ordered["time"]["hours"]["value"] == pytest.approx(40.04 / (5 * 12.5 * 0.7 / 8.25))
    assert ordered["time"]["stops"] == 2
    assert ordered["time"]["refilling"]["value"] == pytest.approx(0.5)


def test_without_bags_the_need_itself_is_bought_and_bags_are_asked_for(document, bench):
    found = document("order", bench(('bags = [["50 lb", "$18"]]\n', "")), *DAY)
    rye = of(found, "Cereal rye")
    assert (rye["bags"], rye["cost"], found["total"]["cost"]) == (None, None, None)
    assert rye["bought"]["value"] == pytest.approx(1821.3)
    assert any(each["field"] == "[[lots]] 1 bags" for each in found["warnings"])


def test_a_carrier_is_bought_too(document, bench):
    hulls = (
        '[[mix]]\ncarrier = true\nname = "rice hulls"\nbulk = "10 lb/ac"\nbox = "small seed"\n'
        'price = "0.3 $/lb"\nbags = ["50 lb"]\non_hand = "30 lb"\n'
    )
    found = of(document("order", bench(more=hulls), *DAY), "rice hulls")
    # 10 × 40.04 less 30 is 370.4 lb: 8 bags at $15.
    assert (found["bags"][0]["count"], found["cost"]) == (8, pytest.approx(120))
    by_bag = hulls.replace('price = "0.3 $/lb"\nbags = ["50 lb"]', 'bags = [["50 lb", "$9"]]')
    assert of(document("order", bench(more=by_bag), *DAY), "rice hulls")["cost"] == 8 * 9


def test_what_a_box_holds_must_be_known_for_stops(document, bench):
    found = document("order", bench(('test_weight = "60 lb/bu"\n', "")), *DAY)
    # The table has a legal bushel for crimson clover: taken within 15 %.
    assert found["loads"][1]["per_load"]["u"] > 1
    own = (
        ('species = "crimson clover"\npurity', 'species = "my clover"\nown_name = true\npurity'),
        ('species = "crimson clover"\nbulk', 'species = "my clover"\nown_name = true\nbulk'),
        ('test_weight = "60 lb/bu"\n', ""),
    )
    unknown = document("order", bench(*own), *DAY)
    assert [each["box"] for each in unknown["loads"]] == ["grain"]
    assert "stop" not in unknown["time"]["say"]
    assert any("weigh a full measure of my clover" in each for each in unknown["notes"])


def test_page_metric_and_working(run, document, bench):
    page = run("order", bench(), *DAY, "--working").stdout
    for part in ("Seed needed", "To buy", "Batches for grain", "Inoculant", "Loads of grain"):
        assert part in page
    assert "Cereal rye on the field: rate × area" in page
    metric = document("order", bench(), *DAY, "--units", "metric")
    assert of(metric, "Cereal rye")["need"]["value"] == pytest.approx(1821.3 * 0.45359237)


@pytest.mark.parametrize("columns", [60, 80])
def test_it_keeps_to_its_paper(run, bench, columns):
    page = run("order", bench(), *DAY, "--working", columns=columns).stdout
    assert max(map(len, page.splitlines())) <= columns


@pytest.mark.parametrize(
    ("old", "new", "field", "need"),
    [
        ('area = "38.5 ac"\n', "", "[field] area", "this is missing"),
        ('area = "38.5 ac"', 'area = "-38.5 ac"', "[field] area", "above 0"),
        ('area = "38.5 ac"', 'area = "38.5 ft"', "[field] area", "this needs an area"),
        ('overlap = "4%"', 'overlap = "100%"', "[order] overlap", "less than 100%"),
        ('overlap = "4%"', 'overlap = "4"', "[order] overlap", "percent sign"),
        ("[order]\n", '[order]\nsure = "40%"\n', "[order] sure", "from 50%"),
        ("[order]\n", '[order]\nspread = "100%"\n', "[order] spread", "less than 100%"),
        ('batch = "600 lb"', 'batch = "0 lb"', "[order] batch", "above 0"),
        ('batch = "600 lb"', 'batch = "0.001 lb"', "[order] batch", "how much the mixer holds"),
        ('speed = "5 mph"', 'speed = "0 mph"', "[order] speed", "above 0"),
        ('speed = "5 mph"', 'efficiency = "80%"', "[order] efficiency", "use it together with"),
        ("[order]\n", '[order]\nefficiency = "120%"\n', "[order] efficiency", "enter a share"),
        ('refill = "15 min"', 'refill = "0 min"', "[order] refill", "above 0"),
        ('["50 lb", "$18"]', '["0 lb", "$18"]', "[[lots]] 1 bags", "above 0"),
        ('["50 lb", "$18"]', '["50 lb", "-$18"]', "[[lots]] 1 bags", "0 or more"),
        ('on_hand = "75 lb"', 'on_hand = "-75 lb"', "[[lots]] 2 on_hand", "0 or more"),
        ('heel = "20 lb"', 'heel = "-20 lb"', "[[boxes]] 1 heel", "0 or more"),
        (
            'heel = "20 lb"',
            'heel = "1200 lb"',
            "[[boxes]] 1 full",
            "fill grain above the level that has to stay in it",
        ),
        ('catches = "6 lb"', 'catches = "-6 lb"', "[[boxes]] 1 catches", "0 or more"),
        ('volume = "20 bu"', 'volume = "2 in3"', "[[boxes]] 1", ""),
        ('species = "vetch"', 'species = "rye"', "[[inoculant]] 1 species", "not a legume"),
        ('species = "vetch"', 'species = "pea"', "[[inoculant]] 1 species", "is not one of"),
        ('amount = "6 oz"', 'amount = "0 oz"', "[[inoculant]] 1 amount", "above 0"),
        ('seed = "100 lb"\n', "", "[[inoculant]] 1 seed", "this is missing"),
        ("rows = 20\n", "", "[drill] rows", "width"),
    ],
)
def test_orders_that_cannot_be(refusal, bench, *, old, new, field, need):
    error = refusal("order", bench((old, new)), *DAY)
    assert error["field"].startswith(field)
    assert need in error["need"]


def test_an_inoculant_once(refusal, bench):
    more = '[[inoculant]]\nspecies = "vetch"\namount = "8 oz"\nseed = "50 lb"\n'
    error = refusal("order", bench(more=more), *DAY)
    assert error["field"] == "[[inoculant]] 2 species"
    assert "already" in error["need"]
