"""Errors in a file find their line."""

import pytest

from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import say
from evenstand.tasks.job.lines import FileError, in_file, locate, parse
from evenstand.tasks.job.tables import InTables

TEXT = """\
# A file
[drill]  # with a remark
rows = 20
[drill.scale]
low = 0

[[drill.gears]]
name = "full"
[[drill.gears]]
name = "half"
[chart]
points = [
  [20, "38 lb/ac"],
  [30, "8 ft"],
]
gear = "full"
[[ catch ]]
net = "8 oz"
[[catch]]
"net" = "9 oz"
"""


@pytest.mark.parametrize(
    ("path", "given", "line"),
    [
        (InTables("drill", "rows"), 20, 3),
        (InTables("drill", "spacing"), None, 2),
        (InTables("drill", "scale", "low"), 0, 5),
        (InTables("drill", "gears", 2, "name"), "half", 10),
        (InTables("chart", "points"), None, 12),
        (InTables("chart", "points"), "8 ft", 14),
        (InTables("chart", "points"), "full", 12),
        (InTables("catch", 1, "net"), "8 oz", 18),
        (InTables("catch", 2, "gear"), None, 19),
        (InTables("catch", 3, "net"), None, None),
        (InTables("target", "rate"), None, None),
        (Path("--rows"), None, None),
    ],
)
def test_fields_are_located(path, given, line):
    assert locate(TEXT, path, given) == line


def test_tables_written_in_one_line_are_located():
    text = "[drill]\nscale = {low = 0, high = 1}\n"
    assert locate(text, InTables("drill", "scale", "low")) == 2


def test_what_is_refused_inside_names_file_and_line():
    with pytest.raises(FileError) as refusal, in_file(TEXT, file="a.toml"):
        raise MeasurementError(InTables("catch", 1, "net"), "8 oz", say("no"))
    assert (refusal.value.file, refusal.value.line) == ("a.toml", 18)


def test_a_file_error_passes_as_it_is():
    error = FileError(MeasurementError("x", 1, say("no")), file="b.toml", line=3)
    with pytest.raises(FileError) as refusal, in_file(TEXT, file="a.toml"):
        raise error
    assert refusal.value is error


@pytest.mark.parametrize(
    ("text", "line", "field"),
    [
        ("[a]\nb = 1\nc = 60 lb", 3, "[a] c"),
        ("b = ", 1, "b"),
        ('[a]\nb = """x', 2, "[a] b"),
        ("[[a]]\n[[a]]\nb = 1\nb = 2", 4, "[[a]] 2 b"),
    ],
)
def test_what_is_not_toml_names_line_and_key(text, line, field):
    with pytest.raises(FileError) as refusal:
        parse(text, file="a.toml")
    assert (refusal.value.line, refusal.value.field) == (line, field)
