"""Gather every sentence that readers meet, for translators; `make words` runs it.

A sentence is the template of a `say` in Python, or of a `_` in a page. Where `say` is given a
name instead of a text, the texts that the name can stand for are looked up in its module. The
cautions of the table of species are sentences too.
"""

import ast
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import get_args

from babel.messages.catalog import Catalog
from babel.messages.extract import extract
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from evenstand.engine.catch.target import Word
from evenstand.engine.parsing.spelling import NAMES
from evenstand.engine.quantities.phrases import CITED, DAY, MONTH, MONTHS, SINGULAR, WORDED

ROOT = Path(__file__).parents[1]
SOURCE = ROOT / "src/evenstand"
DATA = SOURCE / "engine/data"
PAGES = SOURCE / "web/templates"
WORDS = SOURCE / "web/words"
LANGUAGES = ("es",)
MARKS = ("say", "_")
ALWAYS = datetime(2026, 1, 1, tzinfo=UTC)  # a date that says nothing new would only stir the file

Places = dict[str, set[str]]


def messages() -> Places:
    """Return every template, with the files in which it stands."""
    found: Places = {}
    for path in sorted(SOURCE.rglob("*.py")):
        for text in spoken(path.read_text(encoding="utf-8")):
            found.setdefault(text, set()).add(_short(path))
    for path in sorted(PAGES.rglob("*.html")):
        with path.open("rb") as page:
            for _, text, _, _ in extract("jinja2", page, keywords={"_": None}):
                found.setdefault(str(text), set()).add(_short(path))
    for path in sorted(DATA.glob("*.tsv")):
        for text in told(path.read_text(encoding="utf-8")):
            found.setdefault(text, set()).add(_short(path))
    dates = (DAY, MONTH, *MONTHS, *NAMES.values(), *get_args(Word))
    named = (*dates, *SINGULAR, *SINGULAR.values(), *WORDED, *CITED)
    for text in named:
        found.setdefault(text, set()).add("src/evenstand/engine/quantities/phrases.py")
    return found


def _short(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def told(table: str) -> Iterator[str]:
    """Yield the sentences in a table of the package: what stands in its column ``text``."""
    lines = [line.split("\t") for line in table.splitlines() if not line.startswith("#")]
    if lines and "text" in lines[0]:
        column = lines[0].index("text")
        yield from (line[column] for line in lines[1:] if line[column])


def spoken(source: str) -> Iterator[str]:
    """Yield the templates of a module: what its `say` are given, and the names of its shares."""
    module = Module(ast.parse(source))
    for call in module.calls(*MARKS):
        if call.args:
            yield from module.texts(call.args[0])
    for call in module.calls("uncertain", "give_or_take", "quantity", "share", "ratio"):
        for given in [*call.args[2:], *(k.value for k in call.keywords if k.arg == "tag")]:
            yield from module.texts(given)


class Module:
    """A module's syntax tree, and what the names in it can stand for."""

    def __init__(self, tree: ast.Module) -> None:
        self.tree = tree
        self.assigned: dict[str, list[ast.expr]] = {}
        for node in ast.walk(tree):
            if isinstance(node, ast.Assign | ast.AnnAssign | ast.AugAssign | ast.NamedExpr):
                self._assign(node)
            elif isinstance(node, ast.keyword) and node.arg:
                self.assigned.setdefault(node.arg, []).append(node.value)
            elif isinstance(node, ast.For):
                for name in ast.walk(node.target):
                    if isinstance(name, ast.Name):
                        self.assigned.setdefault(name.id, []).append(node.iter)
        self._pass_on()

    def _assign(self, node: ast.AST) -> None:
        targets = getattr(node, "targets", None) or [getattr(node, "target", None)]
        value = getattr(node, "value", None)
        for target in targets:
            for name in ast.walk(target) if target and value else ():
                if isinstance(name, ast.Name):
                    self.assigned.setdefault(name.id, []).append(value)

    def _pass_on(self) -> None:
        """What a function of the module is called with is what its parameters stand for."""
        for function in ast.walk(self.tree):
            if isinstance(function, ast.FunctionDef):
                names = [each.arg for each in function.args.args if each.arg != "self"]
                for call in self.calls(function.name):
                    for name, given in zip(names, call.args, strict=False):
                        self.assigned.setdefault(name, []).append(given)

    def calls(self, *names: str) -> Iterator[ast.Call]:
        """Yield the calls of functions and methods of these names."""
        for node in ast.walk(self.tree):
            if isinstance(node, ast.Call):
                method = isinstance(node.func, ast.Attribute)
                called = getattr(node.func, "attr" if method else "id", None)
                if called in names and not (method and called == "say"):
                    yield node

    def texts(self, node: ast.expr, seen: frozenset[str] = frozenset()) -> Iterator[str]:
        """Yield every text that an expression can be; one with its values in it is none."""
        if isinstance(node, ast.Constant):
            yield from [node.value] if _is_text(node.value) else []
        elif isinstance(node, ast.BinOp):
            yield from self._joined(node, seen)
        elif name := getattr(node, "id", getattr(node, "attr", None)):
            for value in self.assigned.get(name, ()) if name not in seen else ():
                yield from self.texts(value, seen | {name})
        elif not isinstance(node, ast.JoinedStr):
            for part in _parts(node):
                yield from self.texts(part, seen)

    def _joined(self, node: ast.BinOp, seen: frozenset[str]) -> Iterator[str]:
        left, right = list(self.texts(node.left, seen)), list(self.texts(node.right, seen))
        yield from (a + b for a in left for b in right) if left and right else left + right


def _is_text(value: object) -> bool:
    return isinstance(value, str) and any(map(str.isalpha, value))


def _parts(node: ast.expr) -> Iterator[ast.expr]:
    """Yield what may be a text in an expression: of a table its values, of a choice its ways."""
    parts = node.values if isinstance(node, ast.Dict) else ast.iter_child_nodes(node)
    for part in parts:
        if isinstance(part, ast.expr) and not isinstance(part, ast.Call | ast.Compare):
            yield part


def template() -> Catalog:
    """Return an empty catalogue of all messages."""
    catalog = Catalog(project="Evenstand", creation_date=ALWAYS, charset="utf-8")
    for text, places in sorted(messages().items()):
        catalog.add(text, locations=[(place, 0) for place in sorted(places)])
    return catalog


def update(language: str) -> Catalog:
    """Bring a catalogue up to date: new messages come in untranslated, old ones go."""
    path = WORDS / f"{language}.po"
    catalog = Catalog(locale=language)
    if path.exists():
        with path.open("rb") as file:
            catalog = read_po(file, locale=language)
    catalog.update(template(), no_fuzzy_matching=True)
    catalog.obsolete.clear()
    catalog.creation_date = catalog.revision_date = ALWAYS
    return catalog


def main() -> None:
    """Write the catalogues, and what the pages read of them."""
    for language in LANGUAGES:
        catalog = update(language)
        with (WORDS / f"{language}.po").open("wb") as file:
            write_po(file, catalog, include_lineno=False, sort_output=True, width=100)
        with (WORDS / f"{language}.mo").open("wb") as file:
            write_mo(file, catalog)


if __name__ == "__main__":
    main()
