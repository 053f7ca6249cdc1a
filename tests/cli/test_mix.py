"""``evenstand mix FILE``: members on every basis, and what a file may not hold."""

import pytest

MIX = """\
# invented
[field]
name = "Alder Bench"
area = "38.5 ac"
state = "KY"

[[lots]]
name = "R-26"
species = "cereal rye"
purity = "98%"
germination = "92%"
tested = "2026-08"
seeds_per_lb = 18100
price = "0.28 $/lb"
bags = [["50 lb", "$14"], ["2,000 lb", "$480"]]

[[lots]]
name = "V-26"
species = "hairy vetch"
purity = "97%"
germination = "80%"
hard = "12%"
tested = 2026-09-30
seeds_per_lb = 16500
bags = [["50 lb", "$120"]]

[[mix]]
species = "cereal rye"
share = "50%"
full_rate = "80 lb/ac"

[[mix]]
lot = "V-26"
seeds = "5 seeds/ft2"

[[mix]]
species = "crimson clover"
purity = "98%"
germination = "85%"
seeds_per_lb = 145000
price = "1.9 $/lb"
bulk = "4 lb/ac"
"""


@pytest.fixture
def alder(tmp_path):
    """Write a job file, changed in places, and return its name."""

    def alder(*changes, more=""):
        text = MIX
        for old, new in changes:
            assert old in text, old
            text = text.replace(old, new, 1)
        (tmp_path / "alder.toml").write_text(text + more, encoding="utf-8")
        return "alder.toml"

    return alder


DAY = ("--today", "2026-11")


def by_name(found):
    return {each["name"]: each for each in found["species"]}


def test_the_contract_s_keys(document, alder):
    found = document("mix", alder(), *DAY)
    assert {"species", "total", "say", "warnings"} <= set(found)
    keys = {"name", "pls_rate", "bulk_rate", "seeds", "seed_share", "weight_share", "cost"}
    for each in found["species"]:
        assert keys <= set(each)
        for key in ("pls_rate", "bulk_rate", "seeds"):
            assert set(each[key]) == {"value", "low", "high", "u", "unit"}
    assert {"bulk_rate", "seeds", "cost"} <= set(found["total"])


def test_each_member_on_every_basis(document, alder):
    found = document("mix", alder(), *DAY)
    each = by_name(found)
    rye, vetch, clover = (each[n] for n in ("Cereal rye", "Hairy vetch", "Crimson clover"))
    # Half of 80 lb/ac live; PLS 0.98 × 0.92 = 0.9016; 18,100 ÷ 43,560 seeds/ft² a pound.
    assert rye["pls_rate"]["value"] == pytest.approx(40)
    assert rye["bulk_rate"]["value"] == pytest.approx(40 / 0.9016)
    assert rye["seeds"]["value"] == pytest.approx(40 * 18_100 / 43_560)
    assert rye["cost"] == pytest.approx(40 / 0.9016 * 0.28)
    # An annual's hard seed comes too late: 0.97 × 0.80 = 0.776.
    assert vetch["pls_rate"]["value"] == pytest.approx(5 * 43_560 / 16_500)
    assert vetch["bulk_rate"]["value"] == pytest.approx(5 * 43_560 / 16_500 / 0.776)
    # $120 for 50 lb.
    assert vetch["cost"] == pytest.approx(5 * 43_560 / 16_500 / 0.776 * 2.4)
    assert clover["seeds"]["value"] == pytest.approx(4 * 0.833 * 145_000 / 43_560)
    assert found["total"]["seeds"]["value"] == pytest.approx(
        sum(one["seeds"]["value"] for one in each.values())
    )
    assert found["total"]["cost"] == pytest.approx(sum(one["cost"] for one in each.values()))
    assert sum(one["seed_share"] for one in each.values()) == pytest.approx(1)
    assert sum(one["weight_share"] for one in each.values()) == pytest.approx(1)


def test_the_rest_fills_up_the_whole(document, alder):
    rest = ('bulk = "4 lb/ac"', "rest = true")
    found = document("mix", alder(rest, more='\n[mix_whole]\nseeds = "30 seeds/ft2"\n'), *DAY)
    assert found["total"]["seeds"]["value"] == pytest.approx(30)
    clover = by_name(found)["Crimson clover"]
    assert clover["seeds"]["value"] == pytest.approx(30 - 5 - 40 * 18_100 / 43_560)


def test_the_full_rate_of_the_table_is_said(document, alder):
    found = document("mix", alder(('full_rate = "80 lb/ac"\n', "")), *DAY)
    # NRCS and University of Georgia print 56 to 112 lb/ac of live seed: half of the middle.
    assert by_name(found)["Cereal rye"]["pls_rate"]["value"] == pytest.approx(42)
    assert any("full rate of Cereal rye: 84 lb/ac" in each for each in found["taken_as"])


def test_oats_by_weight_and_by_seed(document, tmp_path):
    """Minnesota Board of Water and Soil Resources, pilot pollinator mix.

    Oats are 89.5% of it by weight and 25.12% by seed: 37.88 lb/ac are 11.13 seeds/ft². What
    is left, 4.44 lb/ac and 33.17 seeds/ft², stands here as one species.
    """
    text = """
[[mix]]
species = "oats"
own_name = true
purity = "100%"
germination = "100%"
seeds_per_lb = 12800
pls = "37.88 lb/ac"

[[mix]]
species = "all others"
own_name = true
purity = "100%"
germination = "100%"
seeds_per_lb = 325400
pls = "4.44 lb/ac"
"""
    (tmp_path / "pilot.toml").write_text(text, encoding="utf-8")
    oats = document("mix", "pilot.toml", *DAY)["species"][0]
    assert oats["weight_share"] == pytest.approx(0.895, abs=5e-4)
    assert oats["seed_share"] == pytest.approx(0.2512, abs=5e-4)
    assert oats["seeds"]["value"] == pytest.approx(11.13, abs=5e-3)


def test_two_lots_of_one_species_say_how_they_share(document, run, alder):
    second = """
[[mix]]
lot = "R-27"
bulk = "10 lb/ac"

[[lots]]
name = "R-27"
species = "Secale cereale"
purity = "98%"
germination = "80%"
seeds_per_lb = 17000
"""
    lots = alder(('species = "cereal rye"\nshare', 'lot = "R-26"\nshare'), more=second)
    found = document("mix", lots, *DAY)
    # 40 × 18,100 live seeds against 10 × 0.784 × 17,000: 84 % and 16 %.
    said = next(each for each in found["notes"] if "2 lots" in each)
    assert "84.5% from R-26" in said
    assert "15.5% from R-27" in said
    assert [each["lot"] for each in found["species"]] == ["R-26", "V-26", None, "R-27"]
    assert "D Cereal rye (R-27)" in run("mix", lots, *DAY).stdout


def test_a_carrier_changes_no_live_seed(document, alder):
    hulls = '\n[[mix]]\ncarrier = true\nname = "rice hulls"\nbulk = "10 lb/ac"\n'
    bare, found = document("mix", alder(), *DAY), document("mix", alder(more=hulls), *DAY)
    assert found["total"]["seeds"] == bare["total"]["seeds"]
    extra = found["total"]["bulk_rate"]["value"] - bare["total"]["bulk_rate"]["value"]
    assert extra == pytest.approx(10)
    assert found["species"][3]["carrier"] is True


def test_uplift_stand_and_c_n(document, alder):
    cn = [("share =", 'cn = 37\nbiomass = "2 t/ha"\nshare ='), ("seeds =", f"{CN}seeds =")]
    cn.append(("bulk =", f"{CN}bulk ="))
    whole = '\n[mix_whole]\nuplift = "25%"\nstand = "small grain"\n'
    found = document("mix", alder(*cn, more=whole), *DAY)
    assert by_name(found)["Hairy vetch"]["seeds"]["value"] == pytest.approx(6.25)
    # 2 t at 37 and twice 1 t at 11, carbon over nitrogen: 4 ÷ (2/37 + 2/11).
    assert found["carbon_nitrogen"]["value"] == pytest.approx(4 / (2 / 37 + 2 / 11))
    assert any("(University of Kentucky, for 25 to 30 plants)" in each for each in found["notes"])


CN = 'cn = 11\nbiomass = "1 t/ha"\n'


def test_what_to_beware_of_names_its_species(document, run, alder):
    found = document("mix", alder(), *DAY)
    horses = [each for each in found["cautions"] if "horses" in each]
    assert any(each.startswith("Hairy vetch: ") for each in horses)
    assert "local extension office" in found["cautions"][-1]
    assert "Beware" in run("mix", alder(), *DAY).stdout


def test_old_tests_are_asked_about_under_the_lot(document, alder):
    old = ('tested = "2026-08"', 'tested = "2025-06"')
    asked = document("mix", alder(old), *DAY)["warnings"]
    said = {each["field"]: each["say"] for each in asked}
    # Kentucky gives cool-season grasses 15 months.
    assert "17 months old; Kentucky allows 15 months" in said["[[lots]] 1 tested"]
    assert "[[mix]] 3 tested" in said


def test_a_terminal_names_the_lots_and_says_three_things_at_most(run, document, alder):
    """The mix's own clover has no test month; then two old tests of one month."""
    lots = "".join(
        f"""[[lots]]
name = "X-{n}"
species = "oats"
purity = "98%"
germination = "92%"
tested = "{month}"
[[mix]]
lot = "X-{n}"
bulk = "4 lb/ac"
"""
        for n, month in enumerate(("2024-01", "2024-01", "2024-02", "2024-03", "2024-04"), 1)
    )
    [*said, last] = run("mix", alder(more=lots), *DAY).stderr.splitlines()
    every = {each["say"] for each in document("mix", alder(more=lots), *DAY)["warnings"]}
    both = "[[lots]] 3 tested (Oats X-1), [[lots]] 4 tested (Oats X-2)"
    assert said[1].startswith(f"Please check {both}: The germination test from Jan 2024 is")
    assert (len(said), last) == (3, f"{len(every) - 3} more: use --json to read them all.")


@pytest.mark.parametrize(
    ("old", "new", "field", "line", "need"),
    [
        ('purity = "98%"', 'purity = "108%"', "[[lots]] 1 purity", 10, "to 100%"),
        ('purity = "98%"\n', "", "[[lots]] 1 purity", 7, "this is missing"),
        ('germination = "92%"\n', "", "[[lots]] 1 germination", 7, "this is missing"),
        (
            'hard = "12%"',
            'hard = "12%"\ntotal_viable = true',
            "[[lots]] 2 hard",
            22,
            "the total on this tag already includes hard and dormant seed",
        ),
        ('tested = "2026-08"', 'tested = "2027-08"', "[[lots]] 1 tested", 12, "after Nov 2026"),
        ("tested = 2026-09-30", "tested = 2026-99", "[[lots]] 2 tested", 23, "TOML"),
        ('full_rate = "80 lb/ac"', 'full_seeds = "0 seeds/ft2"', "[[mix]] 1 full_seeds", 30, "0"),
        ('species = "cereal rye"\npur', 'species = "rye"\npur', "[[lots]] 1 species", 9, "Which"),
        ('lot = "V-26"', 'lot = "V-27"', "[[mix]] 2 lot", 33, "R-26, V-26"),
        ('lot = "V-26"', 'species = "oats"', "[[mix]] 2 purity", 32, "no lot"),
        ('lot = "V-26"', 'lot = "V-26"\nspecies = "oats"', "[[mix]] 2 species", 34, "Hairy vetch"),
        ('lot = "V-26"', 'lot = "V-26"\npurity = "97%"', "[[mix]] 2 purity", 34, "leave it out"),
        ('seeds = "5 seeds/ft2"\n', "", "[[mix]] 2 share", 32, "one of share, seeds, pls"),
        ('share = "50%"', 'share = "0%"', "[[mix]] 1 share", 29, "above 0"),
        ('share = "50%"', 'share = "50%"\npls = "9 lb/ac"', "[[mix]] 1 pls", 30, "leave"),
        ('share = "50%"', "rest = true", "[[mix]] 1 rest", 29, "leave nothing"),
        ('seeds = "5 seeds/ft2"', 'seed = "5 seeds/ft2"', "[[mix]] 2 seed", 34, "seeds?"),
        ('[[mix]]\nlot', '[[mixx]]\nlot', "[mixx]", 32, "did you mean mix?"),
        ('["50 lb", "$14"]', '["0 lb", "$14"]', "[[lots]] 1 bags", 15, "above 0"),
        ('["50 lb", "$14"]', '["50 lb", "$14", 3]', "[[lots]] 1 bags", 15, "weight and price"),
        ('"$14"', '"14"', "[[lots]] 1 bags", 15, "unit"),
        ('price = "0.28 $/lb"', 'price = "-1 $/lb"', "[[lots]] 1 price", 14, "0 or more"),
        ('name = "V-26"', 'name = "R-26"', "[[lots]] 2 name", 18, "a different name for each lot"),
        ("seeds_per_lb = 145000\n", "", None, None, ""),
        ('state = "KY"', 'state = "KY"\nage_limit = 3', "[field] age_limit", 6, "not known here"),
        ('share = "50%"', 'share = "50%"\nin_mix = ["9 lb/ac", "3 lb/ac"]', "[[mix]] 1 in_mix",
         30, "lower"),
        ('share = "50%"', 'share = "50%"\ngroup = "gravel"', "[[mix]] 1 group", 30, "grass"),
        ('share = "50%"', 'share = "50%"\ncn = 30', "[[mix]] 2 cn", 33, "every species"),
    ],
)  # fmt: skip
def test_bad_input_names_line_key_and_remedy(refusal, alder, run, *, old, new, field, line, need):
    lines = alder((old, new))
    if not need:
        assert run("mix", lines, *DAY).exit_code == 0
        return
    error = refusal("mix", lines, *DAY)
    assert error["field"] == field
    assert need in error["need"]
    assert error["file"] == "alder.toml"
    if line:
        assert error["line"] == line


def test_a_share_without_a_full_rate(refusal, alder):
    teff = ('species = "crimson clover"', 'species = "Canada milkvetch"')
    error = refusal("mix", alder(teff, ('bulk = "4 lb/ac"', 'share = "10%"')), *DAY)
    assert error["field"] == "[[mix]] 3 share"
    assert "enter its full rate" in error["need"]


@pytest.mark.parametrize(
    ("more", "field"),
    [
        ('[mix_whole]\nseeds = "30 seeds/ft2"\n', "[mix_whole] seeds"),
        ('[mix_whole]\nuplift = "900%"\n', "[mix_whole] uplift"),
        ('[mix_whole]\nstand = "lawn"\n', "[mix_whole] stand"),
        ('[mix_whole]\nseeds = "30 seeds/ft2"\npls = "9 lb/ac"\n', "[mix_whole] pls"),
        ("[[mix]]\ncarrier = true\nbulk = \"9 lb/ac\"\n", "[[mix]] 4 name"),
        ('[[mix]]\ncarrier = true\nname = "hulls"\npls = "9 lb/ac"\n', "[[mix]] 4 pls"),
        ('[[mix]]\ncarrier = true\nname = "hulls"\npurity = "9%"\n', "[[mix]] 4 purity"),
        ('[[mix]]\nspecies = "emmer"\nown_name = true\npurity = "9%"\ngermination = "9%"\n',
         "[[mix]] 4 seeds_per_lb"),
        ('[[mix]]\nspecies = "quux"\npurity = "9%"\ngermination = "9%"\n', "[[mix]] 4 species"),
        ('[[mix]]\nspecies = "hairy vetch"\nfull_basis = "pls"\npls = "1 lb/ac"\n',
         "[[mix]] 4 full_basis"),
        ('[[mix]]\nspecies = "hairy vetch"\nbulk = "1 bu/ac"\n', "[[mix]] 4 bulk"),
    ],
)  # fmt: skip
def test_what_stands_alone_or_too_much(refusal, alder, *, more, field):
    assert refusal("mix", alder(more="\n" + more), *DAY)["field"] == field


def test_two_lots_ask_which(refusal, alder):
    again = '\n[[lots]]\nspecies = "cereal rye"\npurity = "98%"\ngermination = "92%"\n'
    error = refusal("mix", alder(more=again), *DAY)
    assert error["field"] == "[[mix]] 1 lot"
    assert "R-26 or an unnamed lot" in error["need"]


def test_no_mix_at_all(refusal, tmp_path):
    (tmp_path / "bare.toml").write_text('[field]\nname = "x"\n', encoding="utf-8")
    error = refusal("mix", "bare.toml")
    assert (error["field"], error["given"]) == ("[[mix]]", None)


@pytest.mark.parametrize("columns", [60, 80, 120])
@pytest.mark.parametrize("units", ["us", "metric"])
def test_the_page_keeps_to_its_paper(run, alder, *, columns, units):
    done = run("mix", alder(), *DAY, "--working", "--units", units, columns=columns)
    assert done.exit_code == 0
    assert max(map(len, done.stdout.splitlines())) <= min(columns, 80)
    for part in ("Seed ", "A Cereal rye", "by weight", "by seed", "Assumptions", "Worksheet"):
        assert part in done.stdout
    assert "\x1b" not in done.stdout


def test_what_is_not_known_is_a_question_mark(run, document, alder):
    unpriced = ('bags = [["50 lb", "$120"]]\n', "")
    assert document("mix", alder(unpriced), *DAY)["total"]["cost"] is None
    page = run("mix", alder(unpriced), *DAY)
    assert "?" in next(line for line in page.stdout.splitlines() if "B Hairy vetch" in line)
    assert "No price for Hairy vetch" in page.stderr


def test_a_state_without_a_limit_is_asked_about(document, alder):
    asked = document("mix", alder(('state = "KY"', 'state = "OR"')), *DAY)["warnings"]
    assert "[field] state" in [each["field"] for each in asked]


def test_a_lot_may_have_an_age_limit_of_its_own(document, alder):
    own = ('tested = "2026-08"', 'tested = "2026-08"\nage_limit = 2')
    asked = document("mix", alder(own), *DAY)["warnings"]
    said = {each["field"]: each["say"] for each in asked}
    assert "the limit you entered allows 2 months" in said["[[lots]] 1 tested"]
