"""The phone's part as a folder of files, for a host that runs no program."""

import re
from pathlib import Path
from shutil import copyfile

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say

from ..site.security import POLICY
from .files import FOLDER, PACKED

STATIC = Path(__file__).parents[1] / "static"
SHELL, SERVICE_WORKER, LIST = "shell.html", "sw.js", "assets.json"
PAGES = ("index.html", "404.html")  # a host shows the second one for every other address
_BASE = re.compile(r"/(?:[\w.~-]+/)*")
_ONLY_IN_HEADERS = "; frame-ancestors 'none'"


def write_folder(target: Path, *, base: str, bundle: Path = FOLDER) -> int:
    """Write everything that a phone loads.

    Parameters
    ----------
    target : Path
        New or empty, or written by this before.
    base : str
        Path below which the host shows it: ``/``, or ``/field/log/``.
    bundle : Path, optional
        What was built for phones.

    Returns
    -------
    int
        Files written.

    Raises
    ------
    MeasurementError
        Where nothing was built, for a base that is no path, and for a folder
        that holds something else.
    """
    _check(target, base, bundle)
    files = dict(_files(bundle))
    for name, path in files.items():
        place = target / name
        place.parent.mkdir(parents=True, exist_ok=True)
        copyfile(path, place)
    page = _page((bundle / SHELL).read_text(encoding="utf-8"), base)
    for name in PAGES:
        (target / name).write_text(page, encoding="utf-8")
    return len(files) + len(PAGES)


def _check(target: Path, base: str, bundle: Path) -> None:
    if not (bundle / LIST).is_file():
        need = say("build the phone part first, in the program's source: make phone")
        raise MeasurementError("DIR", str(target), need)
    if not _BASE.fullmatch(base):
        need = say("start and end it with /, such as /field/log/")
        raise MeasurementError("--base", base, need)
    foreign = target.is_dir() and any(target.iterdir()) and not (target / "phone" / LIST).is_file()
    if foreign or target.is_file():
        raise MeasurementError("DIR", str(target), say("choose a new folder, or an empty one"))


def _files(bundle: Path) -> list[tuple[str, Path]]:
    built = [path for path in sorted(bundle.iterdir()) if path.suffix not in PACKED.values()]
    own = [(f"phone/{path.name}", path) for path in built if path.name != SERVICE_WORKER]
    fixed = [(f"static/{path.name}", path) for path in sorted(STATIC.iterdir())]
    return [(SERVICE_WORKER, bundle / SERVICE_WORKER), *own, *fixed]


def _page(shell: str, base: str) -> str:
    """Return the shell as a page of its own, which says itself what it may load."""
    policy = POLICY.replace(_ONLY_IN_HEADERS, "")
    meta = f'<meta charset="utf-8">\n<meta http-equiv="Content-Security-Policy" content="{policy}">'
    page = shell.replace("<html", "<html data-shell", 1).replace("{base}", base)
    return page.replace('<meta charset="utf-8">', meta, 1)
