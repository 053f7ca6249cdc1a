"""Pack the Python of the phone: compiled modules and pages, left for a host to compress.

`bundle.mjs` runs this inside Pyodide, whose own compiler must write the
modules: another Python's would not be read there.
"""

import ast
import dataclasses
import marshal
import sys
from collections.abc import Callable, Iterator
from importlib._bootstrap_external import _code_to_hash_pyc
from importlib.util import source_hash
from pathlib import Path
from types import CodeType
from typing import Any
from zipfile import ZIP_STORED, ZipFile, ZipInfo

from packed import COMPILED, METHODS  # beside this file

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
    *(
        "_pydatetime",
        "_pyio",
        "argparse",
        "_ast_unparse",
        "compileall",
        "configparser",
        "fileinput",
    ),
    *("filecmp", "plistlib", "py_compile", "statistics", "tarfile", "tracemalloc", "tomllib"),
    *("asyncio.__main__", "asyncio.proactor_events", "asyncio.tools", "asyncio.windows_events"),
    *("asyncio.windows_utils", "concurrent.futures.process", "concurrent.interpreters"),
    *("email._header_value_parser", "email.contentmanager", "email.headerregistry", "email.mime"),
    *("email.policy", "email.generator", "http.cookiejar", "html.parser"),
    *("_markupbase", "logging.config", "logging.handlers", "pyodide.console", "urllib.robotparser"),
    *("sqlite3.__main__", "sqlite3.dump", "sysconfig.__main__", "wsgiref.handlers"),
    *(
        "wsgiref.simple_server",
        "wsgiref.validate",
        "zipfile.__main__",
        "json.__main__",
        "json.tool",
    ),
}
# Character sets that some page reads, or the zip file of a book.
ENCODINGS = {
    *("__init__", "aliases", "ascii", "cp437", "idna", "iso8859_1", "latin_1", "punycode"),
    *("raw_unicode_escape", "unicode_escape", "utf_8", "utf_8_sig"),
}
# Parts of the packages that serve their makers, or another machine.
FOR_MAKERS = {"test", "tests", "bin", "middleware", "unumpy"}
UNCALLED = {
    *("jinja2/ext", "jinja2/sandbox", "jinja2/nativetypes", "jinja2/meta", "click/_termui_impl"),
    *("click/testing", "click/shell_completion", "click/_winconsole", "flask/testing", "segno/cli"),
    *("flask/__main__", "segno/helpers", "werkzeug/testapp", "werkzeug/_reloader"),
    *("werkzeug/debug/console", "werkzeug/debug/repr"),
}
FOREIGN = (".pyi", ".c", ".h", ".txt", ".md", ".so")
# Parts of the product that stay in the office: what a terminal shows is no part of a page.
IN_OFFICE = {"cli", "demo", "office", "pool", "compose.py", "__main__.py"}
IN_OFFICE |= {"report/terminal", "tasks/documents"}
PAGES = "pages"  # compiled from templates, where `web.phone` looks for them: lines are no help
# What the service worker answers itself, and what the compiled pages are made of.
BY_FILE = {"offline", "static", "templates"}

DESCRIBED = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)

Keep = Callable[[Path], bool]


def packed(*parts: tuple[Path, Keep, str]) -> dict[str, bytes]:
    """Return what is kept of some folders, by its path below a folder of that name each.

    A folder of modules is made a package, where it is one only by what lies in it.
    """
    kept = dict(
        member(path.read_bytes(), Path(below) / path.relative_to(folder))
        for folder, keep, below in parts
        for path in files(folder, keep)
    )
    for folder in {Path(name).parent for name in kept if name.endswith(COMPILED)} - {Path()}:
        name, content = member(b"", folder / "__init__.py")
        kept.setdefault(name, content)
    return kept


def files(folder: Path, keep: Keep) -> Iterator[Path]:
    """Yield the files of a folder that are kept, always in one order."""
    for path in sorted(folder.rglob("*")):
        inside = path.relative_to(folder)
        hidden = any(part == "__pycache__" or part.startswith(".") for part in inside.parts)
        if path.is_file() and not hidden and keep(inside):
            yield path


def member(source: bytes, inside: Path) -> tuple[str, bytes]:
    """Return a file by its path in the pack: a module compiled without its docstrings."""
    if inside.suffix != ".py":
        return inside.as_posix(), source
    tree = described_in_short(ast.parse(source))
    code = compile(tree, f"/{inside.as_posix()}", "exec", dont_inherit=True, optimize=1)
    if inside.parts[0] != "evenstand" or PAGES in inside.parts:
        code = without_lines(code)
    compiled = _code_to_hash_pyc(code, source_hash(source), checked=False)
    return inside.with_suffix(COMPILED).as_posix(), bytes(compiled)


def described_in_short(tree: ast.Module) -> ast.Module:
    """Return a module without docstrings, but that a class keeps a dash for one.

    `dataclasses` writes the signature of a class that has none: a tenth of a
    millisecond each on a fast phone (CPython 3.14, `dataclasses._process_class`).
    """
    for node in ast.walk(tree):
        if not isinstance(node, DESCRIBED) or ast.get_docstring(node) is None:
            continue
        if isinstance(node, ast.ClassDef):
            node.body[0] = ast.Expr(ast.Constant("-"))
        else:
            node.body = node.body[1:] or [ast.Pass()]
    return ast.fix_missing_locations(tree)


def without_lines(code: CodeType) -> CodeType:
    """Return code that names no lines: a tenth smaller, and only a traceback misses them.

    Its table of places says "nowhere" for each instruction, eight at a time
    (CPython, `InternalDocs/code_objects.md`, from memory).
    """
    inner = [without_lines(each) if isinstance(each, CodeType) else each for each in code.co_consts]
    eights, rest = divmod(len(code.co_code) // 2, 8)
    nowhere = bytes([0xFF] * eights + ([0xF8 + rest - 1] if rest else []))
    return code.replace(co_consts=tuple(inner), co_linetable=nowhere)


def of_library(inside: Path) -> bool:
    """Whether a file of the standard library is taken along."""
    if inside.parts[0] == "encodings":
        return inside.stem in ENCODINGS
    module = inside.with_suffix("").parts
    names = {".".join(module[:depth]) for depth in (1, 2)}
    return not SPARED.intersection(names) and inside.suffix == ".py"


def of_phone(inside: Path) -> bool:
    """Whether a file beside this one is taken along."""
    return inside.name == "packed.py"


def of_packages(inside: Path) -> bool:
    """Whether a file of the packages is taken along."""
    if inside.parts[0].endswith(".dist-info"):
        return inside.name == "METADATA"
    if FOR_MAKERS.intersection(inside.parts) or inside.name.endswith(FOREIGN):
        return False
    return inside.with_suffix("").as_posix() not in UNCALLED


def of_product(inside: Path) -> bool:
    """Whether a file of Evenstand is taken along: all but the office, and what this writes."""
    by_file = inside.parts[0] == "web" and inside.parts[1] in BY_FILE
    in_office = inside.parts[0] in IN_OFFICE or "/".join(inside.parts[:2]) in IN_OFFICE
    return not (in_office or by_file or inside.suffix in (".po", ".pyi"))


def compile_pages(target: Path) -> dict[str, CodeType]:
    """Let Jinja write each page as a module; gives what `dataclasses` wrote meanwhile, compiled.

    It writes the methods of each class as text and runs that (CPython 3.14,
    `dataclasses._FuncBuilder.add_fns_to_class`): half of the time of an import.
    """
    methods: dict[str, CodeType] = {}

    def run(text: str, names: dict[str, Any], made: dict[str, Any]) -> None:
        code = compile(text, "<dataclass>", "exec", dont_inherit=True, optimize=1)
        methods[text] = without_lines(code)
        exec(code, names, made)

    dataclasses.exec = run  # type: ignore[attr-defined]
    from evenstand.book.opening import open_book
    from evenstand.book.storage.store import MEMORY
    from evenstand.web.run.app import create_app

    with open_book(MEMORY, device="pack", who="") as book:
        pages = create_app(book).jinja_env
        pages.compile_templates(target, zip=None, ignore_errors=False)
    if not methods:
        raise RuntimeError("dataclasses no longer calls exec by its name: see packed.py")
    return methods


def main(target: str, library: str, packages: str) -> None:
    """Pack all three; ``/evenstand`` is the product."""
    out, pages = Path(target), Path("/pages")
    sys.path[:0] = [packages, "/"]
    own = packed((Path(library), of_library, ""), (Path(__file__).parent, of_phone, ""))
    with ZipFile(out / "library.zip", "w", ZIP_STORED) as zipped:
        for name, content in own.items():
            zipped.writestr(ZipInfo(name), content)
    methods = marshal.dumps(compile_pages(pages))
    product = (Path("/evenstand"), of_product, "evenstand")
    written = (pages, lambda _: True, f"evenstand/web/{PAGES}")
    [native] = Path(packages).rglob("*-emscripten.so")  # `phone/python.js` puts it in its place
    (out / "native.so").write_bytes(native.read_bytes())
    write(out / "packages.pack", packed((Path(packages), of_packages, "")))
    write(out / "evenstand.pack", packed(product, written) | {METHODS: methods})


def write(target: Path, files: dict[str, bytes]) -> None:
    """Write a pack, in the form that every Python from 3.4 on reads."""
    target.write_bytes(marshal.dumps(files, 4))
