"""Turns told by a phone on the wheel: within 0.02 turn of the truth, or a reason why not.

What the sensors of a phone say is made up in worlds.mjs by mechanics, with what goes wrong in
them: what they are off and how they drift, knocks, samples that are lost or late.
"""

import json
import shutil
import subprocess
from itertools import chain
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[3]
CHROMIUM = Path("/usr/bin/chromium")
FILES = {
    "worlds.mjs": Path(__file__).parent / "worlds.mjs",
    "motion.js": ROOT / "src/evenstand/web/static/motion.js",
}
TRIED = "import('{}').then(({{tried}}) => tried({}))"
MANY = 15  # of each world
CLOSE = 0.02  # turns
MOST_FAR = 0.01  # share that may be further off, or have no count
# Each with a bias of up to 1°/s, a scale that is off by up to 3% on each axis, an accelerometer
# off by up to 2% of gravity, a wheel's plane up to 3° off, and a tenth of the samples lost.
WORLDS = {
    "plain": {},
    "knocked": {"knocks": True},
    "paused": {"pause": [0.5, 8]},
    "turned back": {"back": True},
    "swinging": {"swing": True},
    "uneven": {"uneven": 0.5},
    "fast": {"speed": [1, 2.5]},
    "a long pause, with a large bias": {"pause": [30, 40], "bias": 3.5, "turns": [1, 5]},
    "few samples": {"hertz": [20, 20.1], "dropped": 0.2, "jitter": 10},
    "many samples": {"hertz": [100, 100.1]},
    "tilted": {"tilt": 10},
    "few turns": {"turns": [0.4, 3]},
    "many turns": {"turns": [20, 60]},
    "put on and taken off": {"handled": True, "turns": [1.2, 60]},
    "rounded by the browser": {"rounded": True},  # to 0.1 m/s² and 0.1°/s
    "signs of another browser": {"mirrored": True},
    "axes of another browser": {"renamed": True},
    "all at once": dict.fromkeys(("knocks", "back", "swing"), True)
    | {"pause": [0.5, 8], "uneven": 0.4, "tilt": 8, "speed": [0.3, 1.5], "turns": [1, 60]},
}
NO_COUNT = {
    "gap": ({"gap": True}, {"gap", "rest"}),
    "no rest at the end": ({"noRest": True}, {"rest"}),
    "no gyroscope": ({"stuck": True}, {"disagree", "rest"}),
}
DOUBTFUL = {
    "a gyroscope that clips": {"clipped": 3, "speed": [0.8, 1.2]},
    "a scale far off": {"scale": 0.2},
}


def in_node(folder):
    for name, file in FILES.items():
        shutil.copy(file, folder / name)
    (folder / "package.json").write_text('{"type": "module"}')

    def run(*given):
        asked = TRIED.format("./worlds.mjs", json.dumps(given)[1:-1])
        written = f"{asked}.then((all) => console.log(JSON.stringify(all)))"
        command = ["node", "--input-type=module", "--eval", written]
        done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stderr
        return json.loads(done.stdout)

    return run


def in_chromium(browser):
    page = browser.new_page()

    def answer(route):
        name = route.request.url.rpartition("/")[2]
        text = FILES[name].read_text(encoding="utf-8") if name in FILES else ""
        route.fulfill(body=text, content_type="text/javascript" if text else "text/html")

    page.route("**/*", answer)
    page.goto("http://phone.example/")

    def run(*given):
        return page.evaluate(TRIED.format("/worlds.mjs", json.dumps(given)[1:-1]))

    return run


@pytest.fixture(scope="module")
def tried(request, tmp_path_factory):
    """Try worlds in Node.js, where it is found, else in Chromium."""
    if shutil.which("node"):
        yield in_node(tmp_path_factory.mktemp("motion"))
        return
    if not CHROMIUM.exists():
        pytest.skip("needs Node.js or Chromium")
    playwright = request.getfixturevalue("playwright")
    with playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"]) as browser:
        yield in_chromium(browser)


def far(each):
    return each["found"] is None or abs(each["found"] - each["turns"]) > CLOSE


@pytest.fixture(scope="module")
def found(tried):
    return {name: tried(world, 1000, MANY) for name, world in WORLDS.items()}


@pytest.mark.simulated
def test_turns_are_told_to_a_fiftieth(found):
    every = list(chain.from_iterable(found.values()))
    missed = {name: [each for each in all_ if far(each)] for name, all_ in found.items()}
    assert sum(map(len, missed.values())) <= MOST_FAR * len(every), missed


@pytest.mark.simulated
def test_what_is_told_is_within_its_error(found):
    for name, every in found.items():
        for each in every:
            if each["found"] is not None:
                assert abs(each["found"] - each["turns"]) <= each["error"] <= CLOSE, (name, each)


@pytest.mark.simulated
@pytest.mark.parametrize("name", NO_COUNT)
def test_what_cannot_be_told_is_said(tried, name):
    world, reasons = NO_COUNT[name]
    every = tried(world, 1000, MANY)
    assert {each["found"] for each in every} == {None}
    assert {each["problem"] for each in every} <= reasons


@pytest.mark.simulated
@pytest.mark.parametrize("name", DOUBTFUL)
def test_sensors_that_are_wrong_give_no_wrong_count(tried, name):
    every = tried(DOUBTFUL[name], 1000, MANY)
    assert [each for each in every if each["found"] is not None and far(each)] == []
    assert {each["problem"] for each in every} > {None}
