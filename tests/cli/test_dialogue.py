"""``evenstand calibrate``: questions one by one, back, wrong input, leaving, going on."""

import tomllib

import pytest

from evenstand.cli.questions import SETUP, plain

DRILL = ["20", "7.5 in", "", "95 in"]
SCALE = ["", "60", "", "", "", "full 1, half 0.5"]
CHART = ["20: 36 lb/ac", "30 54 lb/ac", "40: 72 lb/ac", "", "", "", ""]
TARGET = ["54 lb/ac", "", "", "full", "", ""]
SETTING = [*DRILL, *SCALE, *CHART, *TARGET]
# 48.6 and 53.5 lb/ac on the ground of 20 turns of 95 in under 20 rows at 7.5 in.
CATCHES = ["", "", "20", "20", "35.33 oz", "", "", "", "", "38.89 oz"]


@pytest.fixture
def talk(run, tmp_path):
    """Answer questions; what was said, and what the file holds after."""

    def talk(answers, *arguments, file="heron.toml"):
        first = [] if arguments else ["heron"]
        done = run("calibrate", *arguments, answers="".join(f"{a}\n" for a in [*first, *answers]))
        text = (tmp_path / file).read_text(encoding="utf-8")
        return done, tomllib.loads(text)

    return talk


def test_from_the_first_question_to_an_accepted_notch(talk, document):
    done, file = talk([*SETTING, *CATCHES])
    assert done.exit_code == 0
    assert "accepted: start seeding" in done.stdout
    assert "Saved in heron.toml" in done.stdout
    assert [each["setting"] for each in file["catch"]] == [30, 33]
    assert file["drill"] == {
        "rows": 20,
        "spacing": "7.5 in",
        "blocked": 0,
        "rolled": "95 in",
        "scale": {"low": 0, "high": 60, "step": 1, "reversed": "no", "slack": "below"},
        "gears": [{"name": "full", "ratio": 1}, {"name": "half", "ratio": 0.5}],
    }
    assert file["target"]["tolerance"] == "5%"
    assert document("calibrate", "heron.toml")["ending"] == "accepted"


def test_after_each_catch_it_says_what_to_do_next(talk):
    said = talk([*SETTING, *CATCHES[:5]])[0].stdout
    assert "Set the lever to 30" in said
    assert "Move the lever from 30 to 33" in said


def test_wrong_input_is_explained_and_asked_again(talk):
    done, file = talk(["many", "20", "7.5 ozz", "7.5 in", "20", "2"])
    assert "enter a number of rows, such as 10 rows" in done.stdout
    assert "did you mean oz?" in done.stdout
    assert "enter 0 up to one less than the number of rows" in done.stdout
    assert file["drill"] == {"rows": 20, "spacing": "7.5 in", "blocked": 2}


def test_a_question_without_a_default_is_needed(talk):
    done, file = talk(["", "20"])
    assert "An answer is needed." in done.stdout
    assert file == {"drill": {"rows": 20}}


def test_b_goes_back_and_offers_what_was_answered(talk):
    done, file = talk(["20", "7.5 in", "b", "b", "24", "", "0"])
    assert "[20]" in done.stdout
    assert "[7.5 in]" in done.stdout
    assert file["drill"] == {"rows": 24, "spacing": "7.5 in", "blocked": 0}


def test_back_from_the_first_question_stays(talk):
    done, _ = talk(["b", "20"])
    assert "This is the first question." in done.stdout


def test_back_over_a_catch(talk):
    done, file = talk([*SETTING, *CATCHES[:5], "b", "36 oz"])
    assert "[35.33 oz]" in done.stdout
    assert [each["net"] for each in file["catch"]] == ["36 oz"]


def test_leaving_keeps_every_answer_and_going_on_asks_the_rest(talk):
    half, file = talk(DRILL)
    assert half.exit_code == 130
    assert "To continue: evenstand calibrate heron.toml --continue" in half.stdout
    assert file["drill"]["rolled"] == "95 in"
    rest, _ = talk([*SCALE, *CHART, *TARGET, *CATCHES], "heron.toml", "--continue")
    assert rest.exit_code == 0
    assert "Rows on the drill" not in rest.stdout


@pytest.mark.parametrize("stop", range(1, len(SETTING + CATCHES)))
def test_it_can_be_left_and_gone_on_with_anywhere(talk, run, stop):
    """The job comes out the same wherever it was left.

    Only an answer left out with Enter is asked for again: it left nothing in the file.
    """
    answers = [*SETTING, *CATCHES]
    talk(answers[:stop])
    again = [""] if answers[stop - 1] == "" and stop in LEFT_OUT else []
    _, file = talk([*again, *answers[stop:]], "heron.toml", "--continue")
    whole = tomllib.loads(LEFT_NOWHERE)
    assert file == whole


LEFT_OUT = (14, 17)  # no more points of the chart, no test weight
LEFT_NOWHERE = """
[drill]
rows = 20
spacing = "7.5 in"
blocked = 0
rolled = "95 in"
scale = {low = 0, high = 60, step = 1, reversed = "no", slack = "below"}
gears = [{name = "full", ratio = 1}, {name = "half", ratio = 0.5}]
[chart]
points = [[20, "36 lb/ac"], [30, "54 lb/ac"], [40, "72 lb/ac"]]
gear = "full"
spacing = "7.5 in"
[target]
rate = "54 lb/ac"
tolerance = "5%"
on = "field"
gear = "full"
dearer = "neither"
[weighing]
resolution = "1 g"
[[catch]]
setting = 30
gear = "full"
turns = 20
rows_caught = 20
net = "35.33 oz"
[[catch]]
setting = 33
gear = "full"
turns = 20
rows_caught = 20
net = "38.89 oz"
"""


def test_a_file_written_by_hand_keeps_its_own_text(heron, talk, tmp_path):
    name = heron(catch="")
    before = (tmp_path / name).read_text(encoding="utf-8")
    answers = ["", "", "", "", "20", "20", "35.33 oz"]
    done, file = talk(answers, name, "--continue")
    assert "Which costs you more" in done.stdout
    after = (tmp_path / name).read_text(encoding="utf-8")
    assert set(before.splitlines()) <= set(after.splitlines())
    assert len(file["catch"]) == 1


def test_a_catch_that_is_only_begun_is_finished(heron, talk):
    name = heron(catch='\n[[catch]]\nsetting = 31\ngear = "full"\nturns = 20\n')
    said, file = talk(["20", "39 oz"], name, "--continue")
    assert "Where is the lever?" not in said.stdout.partition("Catch 2")[0]
    assert file["catch"][0]["net"] == "39 oz"
    _, file = talk(["", "", "20", "20", "39 oz"], heron(catch="\n[[catch]]\n"), "--continue")
    assert len(file["catch"]) == 1


def test_catches_are_added_below_what_was_written_by_hand(heron, talk, tmp_path):
    name = heron()
    before = (tmp_path / name).read_text(encoding="utf-8")
    talk(["", "", "20", "20", "39 oz"], name, "--continue")
    after = (tmp_path / name).read_text(encoding="utf-8")
    assert after.startswith(before)


def test_catches_as_they_are_made_in_the_field(talk):
    """A crank, a pull, an area; bags with their tare; each row apart."""
    crank = ["", "", "60 crank", "3", "20", "37 oz - 1.7 oz"]
    pull = ["", "", "150 ft", "20", ", ".join(["1.9 oz"] * 20)]
    file = talk([*SETTING, *crank, *pull])[1]
    first, second = file["catch"][:2]
    assert (first["crank_turns"], first["per_turn"]) == (60, 3)
    assert (first["gross"], first["tare"]) == ("37 oz", "1.7 oz")
    assert (second["distance"], len(second["weights"])) == ("150 ft", 20)


def test_going_back_offers_what_was_caught_as_it_was_typed(talk):
    area = [*SETTING, "", "", "0.5 ac", "b", "", "20", "20 lb - 3 lb"]
    done, file = talk([*area, "b", "", "b", ", ".join(["1 lb"] * 20), "b", ""])
    assert "[0.5 ac]" in done.stdout
    assert "[20 lb - 3 lb]" in done.stdout
    assert "[1 lb, 1 lb, 1 lb" in done.stdout
    assert file["catch"][0]["area"] == "0.5 ac"
    # 17 lb on half an acre.
    assert "34 lb/ac" in done.stdout


def test_a_tape_asks_for_slip(talk):
    taped = ["20", "7.5 in", "", "", "95 in", ""]
    _, file = talk(taped)
    assert (file["drill"]["taped"], file["drill"]["slip"]) == ("95 in", "5 ± 4%")


def test_a_target_out_of_reach_is_asked_again(talk):
    done, file = talk([*DRILL, *SCALE, *CHART, "900 lb/ac", "", "", "full", "", "", "54 lb/ac"])
    assert "That can't be done: no notch comes close" in done.stdout
    assert "900 lb/ac is above 300 lb/ac" in done.stdout
    assert file["target"]["rate"] == "54 lb/ac"


def test_chart_and_seed_of_known_test_weight(talk):
    chart = [*CHART[:6], "60 lb/bu", "58 lb/bu"]
    _, file = talk([*DRILL, *SCALE, *chart, "0.9 bu/ac"])
    assert file["chart"]["test_weight"] == "60 lb/bu"
    assert file["seed"]["test_weight"] == "58 lb/bu"
    assert file["target"]["rate"] == "0.9 bu/ac"


def test_gears_and_points_that_cannot_be_read(talk):
    done, _ = talk([*DRILL, *SCALE[:5], "full", "full 1, half 0.5", "30", "30: 54 lb/ac"])
    assert "enter each gear with its ratio" in done.stdout
    assert "enter a setting and its rate, such as 30: 48 lb/ac" in done.stdout


def test_more_after_the_end_only_if_wanted(talk, heron):
    talk([*SETTING, *CATCHES])
    no, file = talk(["no"], "heron.toml", "--continue")
    assert (no.exit_code, len(file["catch"])) == (0, 2)
    yes, file = talk(["what", "yes", "", "", "", "", "39 oz"], "heron.toml", "--continue")
    assert "Answer yes or no." in yes.stdout
    assert len(file["catch"]) == 3
    _, file = talk(["b"], "heron.toml", "--continue")
    assert len(file["catch"]) == 3


def test_a_file_that_is_there_is_not_overwritten(run, tmp_path):
    (tmp_path / "heron.toml").write_text("# mine\n")
    done = run("calibrate", answers="heron\nno/such/place\nother\n20\n")
    assert "heron.toml is there already" in done.stdout
    assert "there is no folder no/such" in done.stdout
    assert (tmp_path / "heron.toml").read_text() == "# mine\n"
    assert (tmp_path / "other.toml").exists()


def test_a_free_name_is_offered(run, tmp_path):
    (tmp_path / "job.toml").write_text("")
    assert "[job-2.toml]" in run("calibrate", answers="").stdout


def test_questions_are_no_json(run):
    done = run("calibrate", "--json")
    assert done.exit_code == 2
    assert '"field": "--json"' in done.stderr


def test_a_bad_answer_in_a_file_is_refused_before_any_question(run, heron):
    done = run("calibrate", heron(("rows = 20", "rows = 0")), "--continue")
    assert done.exit_code == 2
    assert "heron.toml, line 4, [drill] rows" in done.stderr


def test_every_question_is_asked_in_words():
    for question in SETUP:
        assert question.ask[0].isupper()


def test_plain_numbers_stay_numbers():
    assert [plain(text) for text in ("20", "0.5", "-3", "7.5 in", "1/2", "nan")] == [
        *(20, 0.5, -3.0),
        *("7.5 in", "1/2", "nan"),
    ]
