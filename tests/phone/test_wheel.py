"""The wheel alone, with no source, no make and no Node.js near: it serves, and pairs a phone."""

import json
import os
import runpy
import shutil
import subprocess
import sys
import venv
from hashlib import sha256
from importlib import metadata
from pathlib import Path
from urllib.request import Request, urlopen
from zipfile import ZipFile

import pytest

from evenstand.book.kinds.machine import Drill
from evenstand.book.kinds.shape import Typed
from evenstand.book.opening import open_book

ROOT = Path(__file__).parents[2]
STEPS = runpy.run_path(str(Path(__file__).parent / "steps.py"))
CARRIED = runpy.run_path(str(Path(__file__).parent / "conftest.py"))
TAKEN = ("pyproject.toml", "README.md", "LICENSE", ".gitignore")  # of the source, by a build
HERON = Drill(name="Heron", rows=20, spacing=Typed(value=0.1905, text="7.5 in"))


def python(*words, **options):
    done = subprocess.run(
        [sys.executable, "-m", *map(str, words)],
        capture_output=True,
        text=True,
        check=False,
        **options,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def wheel(bundle, tmp_path_factory):
    """The wheel as `make dist` builds it, of a copy of the source with its part for phones."""
    pytest.importorskip("hatchling", reason="needs hatchling")
    source = tmp_path_factory.mktemp("source")
    for name in TAKEN:
        shutil.copy(ROOT / name, source)
    leave = shutil.ignore_patterns("__pycache__", "offline")
    shutil.copytree(ROOT / "src", source / "src", ignore=leave)
    shutil.copytree(bundle, source / "src/evenstand/web/offline")
    python("hatchling", "build", "--target", "wheel", cwd=source)
    [built] = (source / "dist").iterdir()
    return built


def needed(site):
    """What is installed here of all that the program in ``site`` asks for, at any depth."""
    packaging = pytest.importorskip("packaging.requirements")
    [program] = metadata.distributions(path=[str(site)])
    found, waiting = {}, list(program.requires)
    while waiting:
        asked = packaging.Requirement(waiting.pop())
        name = asked.name.lower().replace("_", "-")
        if name in found or (asked.marker and not asked.marker.evaluate({"extra": ""})):
            continue
        found[name] = metadata.distribution(name)
        waiting += found[name].requires or []
    return found.values()


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory):
    """A fresh environment with the wheel and, as links, what it asks for; gives its folder."""
    folder = tmp_path_factory.mktemp("installed")
    venv.create(folder, symlinks=True)
    pip = ("pip", "--python", folder / "bin/python", "--no-input", "--disable-pip-version-check")
    python(*pip, "install", "--quiet", "--no-index", "--no-deps", "--no-compile", wheel)
    [site] = folder.glob("lib/python*/site-packages")
    for each in needed(site):
        for name in {file.parts[0] for file in each.files} - {"..", "__pycache__"}:
            (site / name).symlink_to(each.locate_file(name))
    python(*pip, "check")
    return folder


class Installed(CARRIED["Office"]):
    """What the wheel serves, with no other program in reach."""

    def __init__(self, folder, environment):
        super().__init__(folder, None, CARRIED["free_port"]())
        self.env = {"PATH": str(environment / "bin"), "HOME": str(folder)}
        self.env |= {name: os.environ[name] for name in ("LANG",) if name in os.environ}

    def program(self):
        return [self.env["PATH"] + "/evenstand"]

    def ask(self, path, sent=None, **headers):
        body = None if sent is None else json.dumps(sent).encode()
        with urlopen(Request(self.address + path, data=body, headers=headers)) as answer:
            return answer.read()


@pytest.fixture
def office(installed, tmp_path):
    served = Installed(tmp_path, installed)
    served.start()
    yield served
    served.stop()


def test_it_holds_the_program_and_nothing_else(wheel):
    with ZipFile(wheel) as packed:
        tops = {name.partition("/")[0] for name in packed.namelist()}
    assert {top.partition("-")[0] for top in tops} == {"evenstand"}


def test_all_that_a_phone_loads_is_served(office):
    assets = json.loads(office.ask("/phone/assets.json"))["assets"]
    assert len(assets) > 20
    for each in assets:
        assert sha256(office.ask("/" + each["address"])).hexdigest() == each["sha256"], each


def test_a_phone_is_paired_and_hands_over(office):
    paired = json.loads(office.ask("/exchange/pair", {"code": office.code(), "name": "Kim's"}))
    with open_book(":memory:", device="phone", who="Kim") as book:
        entry = book.add(HERON)
    key = {"Authorization": f"Bearer {paired['key']}"}
    office.ask("/exchange", {"cursor": 0, "entries": [entry.text]}, **key)
    assert office.entries()[entry.id].body == HERON


def test_a_browser_takes_the_book_along(office, playwright, tmp_path):
    phone = CARRIED["Carried"](playwright, tmp_path / "profile", office.address)
    try:
        page = phone.open()
        phone.install(page, office.code())
        phone.cut()
        office.stop()
        STEPS["new_drill"](page)
        STEPS["saved"](page)
        office.start()
        phone.cut(False)
        STEPS["handed_over"](page)
    finally:
        phone.close()
    assert [entry.body.name for entry in office.entries().values()] == ["Plover"]
