"""Name the tests of what changed, for `make quick`: python tools/changed.py [SINCE]

Git says what changed since the branch left the one it follows (or since SINCE), new files too. A
changed file of a room leads to the room's tests, which mirror it, and to the examples in its
docstrings; a changed test leads to itself. What drives a browser, a phone or another Python takes
its time and is left to `make test`. Where nothing leads to a test, the engine's are named.
"""

import subprocess
import sys
from collections.abc import Iterable
from pathlib import Path

ROOT = Path(__file__).parents[1]
SOURCE = Path("src/evenstand")
TESTS = Path("tests")
CORE = [TESTS / "engine"]
SLOW = tuple(TESTS / name for name in ("fuzz", "phone", "pyodide", "web/browser"))


def tests_of(changed: Iterable[Path]) -> list[Path]:
    """Return the folders and files to test, none of them inside another."""
    found = {test for path in changed for test in _of(path)}
    wanted = {path for path in found if not any(path.is_relative_to(slow) for slow in SLOW)}
    return sorted(path for path in wanted if not wanted & set(path.parents)) or CORE


def _of(path: Path) -> Iterable[Path]:
    if path.is_relative_to(SOURCE):
        room = path.parent.relative_to(SOURCE)
        mirrors = [TESTS / each for each in (room, *room.parents)][:-1]
        yield next((each for each in mirrors if (ROOT / each).is_dir()), TESTS / "cli")
        if path.suffix == ".py" and (ROOT / path).is_file():
            yield path
    elif path.is_relative_to(TESTS) and path.parent != TESTS:
        if path.name == "conftest.py":
            yield path.parent
        elif path.name.startswith("test_") and (ROOT / path).is_file():
            yield path
    elif path.suffix == ".md":
        yield TESTS / "docs"
    elif path.parts[0] == "tools":
        yield TESTS / "tools"


def changed(since: str) -> list[Path]:
    """Return what differs from where this branch left another, and what git does not know yet."""
    fork = _git("merge-base", since, "HEAD")[0]
    names = _git("diff", "--name-only", fork) + _git("ls-files", "--others", "--exclude-standard")
    return [Path(name) for name in names]


def _git(*words: str) -> list[str]:
    done = subprocess.run(["git", *words], cwd=ROOT, capture_output=True, text=True, check=True)
    return done.stdout.splitlines()


def _followed() -> str:
    try:
        return _git("rev-parse", "--abbrev-ref", "@{upstream}")[0]
    except subprocess.CalledProcessError:
        return "HEAD"  # a branch that follows none


if __name__ == "__main__":
    since = sys.argv[1] if sys.argv[1:] else _followed()
    words = [*map(str, tests_of(changed(since))), *(f"--ignore={slow}" for slow in SLOW)]
    sys.stdout.write(" ".join(words))
