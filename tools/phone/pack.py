"""Pack the Python of the phone: compiled modules, in zips that a host may compress.

`bundle.mjs` runs this inside Pyodide, whose own compiler must write the
modules: another Python's would not be read there.
"""

import py_compile
from collections.abc import Callable, Iterator
from pathlib import Path
from zipfile import ZIP_STORED, ZipFile, ZipInfo

# Left out of the standard library: what nothing on a phone asks for.
SPARED = {
    *(
        "_pyrepl",
        "ctypes",
        "curses",
        "idlelib",
        "multiprocessing",
        "pydoc_data",
        "test",
        "unittest",
    ),
    *("xmlrpc", "antigravity", "bdb", "cProfile", "cmd", "code", "colorsys", "doctest", "ftplib"),
    *("getpass", "imaplib", "mailbox", "modulefinder", "netrc", "pdb", "pickletools", "poplib"),
    *("profile", "pstats", "pty", "pyclbr", "pydoc", "rlcompleter", "sched", "shelve", "smtplib"),
    *("symtable", "tabnanny", "this", "timeit", "trace", "turtle", "tty", "wave", "webbrowser"),
    *("zipapp", "__phello__", "__hello__", "nturl2path", "optparse", "xml.dom", "xml.etree"),
}
# Character sets that some page reads, or the zip file of a book.
ENCODINGS = {
    *("__init__", "aliases", "ascii", "cp437", "idna", "iso8859_1", "latin_1", "punycode"),
    *("raw_unicode_escape", "unicode_escape", "utf_8", "utf_8_sig"),
}
# Parts of the packages that serve their makers, or another machine.
FOR_MAKERS = {"test", "bin"}
FOREIGN = (".pyi", ".c", ".h", ".txt", ".md", "-linux-gnu.so")
# Parts of the product that stay in the office.
IN_OFFICE = {"cli", "demo", "office", "pool", "compose.py", "__main__.py"}

Keep = Callable[[Path], bool]


def pack(target: Path, folder: Path, keep: Keep, *, below: str = "") -> None:
    """Write a zip of what is kept of a folder; it lies ``below`` a folder of that name there."""
    with ZipFile(target, "w", ZIP_STORED) as packed:
        for path in files(folder, keep):
            packed.writestr(*member(path, Path(below) / path.relative_to(folder)))


def files(folder: Path, keep: Keep) -> Iterator[Path]:
    """Yield the files of a folder that are kept, always in one order."""
    for path in sorted(folder.rglob("*")):
        inside = path.relative_to(folder)
        hidden = any(part == "__pycache__" or part.startswith(".") for part in inside.parts)
        if path.is_file() and not hidden and keep(inside):
            yield path


def member(path: Path, inside: Path) -> tuple[ZipInfo, bytes]:
    """Return a file as it stands in the zip: a module compiled without its docstrings."""
    if path.suffix != ".py":
        return ZipInfo(inside.as_posix()), path.read_bytes()
    compiled = Path("/tmp/compiled.pyc")
    py_compile.compile(
        str(path),
        str(compiled),
        f"/{inside.as_posix()}",
        doraise=True,
        optimize=2,
        invalidation_mode=py_compile.PycInvalidationMode.UNCHECKED_HASH,
    )
    return ZipInfo(inside.with_suffix(".pyc").as_posix()), compiled.read_bytes()


def of_library(inside: Path) -> bool:
    """Whether a file of the standard library is taken along."""
    if inside.parts[0] == "encodings":
        return inside.stem in ENCODINGS
    module = inside.with_suffix("").parts
    names = {".".join(module[:depth]) for depth in (1, 2)}
    return not SPARED.intersection(names) and inside.suffix == ".py"


def of_packages(inside: Path) -> bool:
    """Whether a file of the packages is taken along."""
    if inside.parts[0].endswith(".dist-info"):
        return inside.name == "METADATA"
    return not FOR_MAKERS.intersection(inside.parts) and not inside.name.endswith(FOREIGN)


def of_product(inside: Path) -> bool:
    """Whether a file of Evenstand is taken along: all but the office, and what this writes."""
    office = inside.parts[0] in IN_OFFICE or inside.parts[:2] == ("web", "offline")
    return not office and inside.suffix != ".po"


def main(target: str, library: str, packages: str) -> None:
    """Pack all three; ``/evenstand`` is the product."""
    out = Path(target)
    pack(out / "library.zip", Path(library), of_library)
    pack(out / "packages.zip", Path(packages), of_packages)
    pack(out / "evenstand.zip", Path("/evenstand"), of_product, below="evenstand")
