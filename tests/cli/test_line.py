"""The command line loads what a command needs, when it is asked for, and lists all without."""

import subprocess
import sys

import pytest
from click import Context, Group

from evenstand.compose import command_line

LINE = command_line()
BOOK = LINE.get_command(Context(LINE), "book")
HEAVY = {"flask", "highspy", "msgspec", "numpy", "openpyxl", "rich", "segno", "sqlite3", "typst"}
TURNS = ("turns", "--rows", "20", "--spacing", "7.5 in", "--rolled", "95 in", "--area", "1/20 ac")


@pytest.mark.parametrize(("group", "name"), [(g, n) for g in (LINE, BOOK) for n in g.places])
def test_a_command_is_listed_as_it_says_of_itself(group, name):
    command = group.get_command(Context(group), name)
    assert command.name == name
    assert command.get_short_help_str(200) == group.places[name][1]


def test_a_command_that_is_nowhere_is_none():
    assert LINE.get_command(Context(LINE), "plough") is None


def test_groups_list_what_they_load_and_what_they_hold():
    assert {"table", "take", "export", "history"} <= set(BOOK.list_commands(Context(BOOK)))
    assert isinstance(BOOK, Group)


@pytest.mark.parametrize(
    ("arguments", "needed"),
    [
        (("--help",), set()),
        ((*TURNS, "--json"), {"msgspec"}),
        (TURNS, {"msgspec", "rich"}),
    ],
)
def test_no_heavy_library_is_loaded_that_is_not_needed(arguments, needed):
    code = "import sys\nfrom evenstand.__main__ import main\ntry:\n    main()\nfinally:\n    "
    code += f"print(*{HEAVY!r} & sys.modules.keys(), file=sys.stderr)"
    done = subprocess.run(
        [sys.executable, "-c", code, *arguments], capture_output=True, encoding="utf-8", check=True
    )
    assert set(done.stderr.split()) == needed


def test_numpy_can_be_loaded_after_all():
    pytest.importorskip("numpy", reason="needs numpy")
    code = "from evenstand.__main__ import main\ntry:\n    main()\nfinally:\n    import numpy"
    subprocess.run([sys.executable, "-c", code, "--version"], check=True, capture_output=True)


@pytest.mark.parametrize(("was", "now"), [("set", "calibrate"), ("sow", "seeding")])
def test_a_command_s_old_name_goes_on_working_and_names_the_new_one(run, was, now):
    old, new = run(was, "nothing.toml"), run(now, "nothing.toml")
    assert old.exit_code == new.exit_code == 2
    assert old.stderr == f'"evenstand {was}" is now "evenstand {now}".\n{new.stderr}'
    assert old.stdout == new.stdout


@pytest.mark.parametrize(("was", "now"), [("set", "calibrate"), ("sow", "seeding")])
def test_a_program_that_asks_by_the_old_name_reads_the_same_json(run, was, now):
    old, new = (run(name, "nothing.toml", "--json") for name in (was, now))
    assert (old.stdout, old.stderr) == (new.stdout, new.stderr)


def test_only_the_new_names_are_listed(run):
    said = run("--help").stdout
    assert "  calibrate " in said
    assert "  seeding " in said
    assert "  set " not in said
    assert "  sow " not in said
