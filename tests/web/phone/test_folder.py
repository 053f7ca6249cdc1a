"""The phone's part as a folder of files."""

import json
import zipfile
from importlib.util import find_spec
from pathlib import Path
from subprocess import run
from sys import executable

import pytest
from click.testing import CliRunner

from evenstand.cli.office import Office
from evenstand.cli.phone import phone
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.web.phone.files import FOLDER
from evenstand.web.phone.folder import write_folder

ROOT = Path(__file__).parents[3]
SHELL = '<!doctype html><html lang="en"><meta charset="utf-8"><script src="{base}phone/boot.js">'


@pytest.fixture
def built(tmp_path):
    """The least that a build leaves."""
    folder = tmp_path / "built"
    folder.mkdir()
    for name in ("sw.js", "boot.js", "boot.js.br", "boot.js.gz", "worker.js"):
        (folder / name).write_text(name)
    (folder / "shell.html").write_text(SHELL)
    (folder / "assets.json").write_text(json.dumps({"version": "1", "assets": []}))
    return folder


def test_all_lies_where_a_phone_looks_for_it(built, tmp_path):
    target = tmp_path / "new" / "site"
    count = write_folder(target, base="/field/log/", bundle=built)
    found = {p.relative_to(target).as_posix() for p in target.rglob("*") if p.is_file()}
    assert len(found) == count
    assert found >= {"index.html", "404.html", "sw.js", "phone/boot.js", "static/notebook.css"}
    assert not [name for name in found if name.endswith((".br", ".gz")) or name == "phone/sw.js"]
    page = (target / "index.html").read_text()
    assert page == (target / "404.html").read_text()
    assert '<script src="/field/log/phone/boot.js">' in page
    assert '<html data-shell lang="en">' in page
    assert "default-src 'none'; script-src 'self';" in page
    assert "frame-ancestors" not in page  # a browser would complain: it counts in headers alone


def test_it_is_written_again(built, tmp_path):
    for text in ("one", "two"):
        (built / "boot.js").write_text(text)
        write_folder(tmp_path / "site", base="/", bundle=built)
    assert (tmp_path / "site/phone/boot.js").read_text() == "two"


@pytest.mark.parametrize("base", ["", "field/", "/field", "//", "https://a.example/", '/"/'])
def test_a_base_that_is_no_path_is_refused(built, tmp_path, base):
    with pytest.raises(MeasurementError) as refused:
        write_folder(tmp_path / "site", base=base, bundle=built)
    assert refused.value.field == "--base"


def test_a_folder_of_something_else_is_left_alone(built, tmp_path):
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine/notes.txt").write_text("rye")
    for target in (tmp_path / "mine", tmp_path / "mine/notes.txt"):
        with pytest.raises(MeasurementError) as refused:
            write_folder(target, base="/", bundle=built)
        assert refused.value.field == "DIR"
    assert [path.name for path in (tmp_path / "mine").iterdir()] == ["notes.txt"]


def test_without_a_build_it_is_said_how(tmp_path):
    write = lambda target, *, base: write_folder(target, base=base, bundle=tmp_path)  # noqa: E731
    done = CliRunner().invoke(phone, ["build", str(tmp_path / "site")], obj=Office(None, write))
    assert done.exit_code == 2
    assert "make phone" in done.output
    assert not (tmp_path / "site").exists()


def test_the_command_says_what_it_wrote(tmp_path):
    given = []
    write = lambda target, *, base: given.append((target.name, base)) or 7  # noqa: E731
    asked = ["build", str(tmp_path / "site"), "--base", "/x/"]
    done = CliRunner().invoke(phone, asked, obj=Office(None, write))
    assert (done.exit_code, given) == (0, [("site", "/x/")])
    assert "7 files" in done.output


@pytest.mark.skipif(not (FOLDER / "assets.json").is_file(), reason="needs make phone")
@pytest.mark.skipif(not find_spec("hatchling"), reason="needs hatchling")
def test_a_wheel_carries_what_was_built(tmp_path):
    command = [executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(tmp_path)]
    done = run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    [wheel] = tmp_path.glob("*.whl")
    with zipfile.ZipFile(wheel) as packed:
        names = {name.removeprefix("evenstand/web/offline/") for name in packed.namelist()}
    assert names >= {path.name for path in FOLDER.iterdir()}
