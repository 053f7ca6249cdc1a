"""Take in what `pack.py` packed: modules are imported straight out of it, other files are written.

It lies in the phone's standard library. Nothing is unpacked and no folder is searched for a
module, and what `dataclasses` would write and compile for each class comes compiled: together
a fifth of a start on a slow phone.
"""

import dataclasses
import marshal
import random
import sys
from importlib.machinery import ModuleSpec, SourcelessFileLoader
from importlib.util import spec_from_file_location
from pathlib import Path
from types import CodeType
from typing import Any

COMPILED = ".pyc"
METHODS = "methods.marshal"  # the code of what `dataclasses` writes, by its text

_modules: dict[str, bytes] = {}  # by the path where each would lie
_others: dict[str, bytes] = {}
_methods: dict[str, CodeType] = {}


def take_in(packs: Any, place: str) -> None:
    """Make the files of packs, handed over by JavaScript, appear below a folder."""
    for packed in packs:
        files = marshal.loads(packed.to_bytes())
        _methods.update(marshal.loads(files.pop(METHODS, marshal.dumps({}))))
        for name, content in files.items():
            path = f"{place}/{name}"
            if name.endswith(COMPILED):
                _modules[path] = content
            else:
                _others[path] = content
    _lay_out()
    sys.meta_path.insert(0, Finder)
    dataclasses.exec = _run  # type: ignore[attr-defined]  # it calls the builtin by this name


def wake() -> None:
    """Go on from a memory that was kept: what lies outside of it, and luck, are made anew."""
    _lay_out()
    random.seed()


def _lay_out() -> None:
    """Write the files that are no modules where each lies."""
    for path, content in _others.items():
        Path(path).parent.mkdir(parents=True, exist_ok=True)
        Path(path).write_bytes(content)


class Loader(SourcelessFileLoader):
    """Loads a module that lies in a pack."""

    def get_data(self, path: str) -> bytes:
        """Return the file as the pack held it; a module is imported once."""
        return _modules.pop(path)


class Finder:
    """Finds modules in packs."""

    @staticmethod
    def find_spec(name: str, path: Any = None, _target: Any = None) -> ModuleSpec | None:
        """Return where a module lies; None for one that lies elsewhere."""
        last = name.rpartition(".")[2]
        for folder in sys.path if path is None else path:
            inner = f"{folder}/{last}"
            if (package := f"{inner}/__init__.pyc") in _modules:
                loader = Loader(name, package)
                return spec_from_file_location(
                    name, package, loader=loader, submodule_search_locations=[inner]
                )
            if (module := f"{inner}.pyc") in _modules:
                return spec_from_file_location(name, module, loader=Loader(name, module))
        return None


def _run(text: str, names: dict[str, Any], made: dict[str, Any]) -> None:
    exec(_methods.get(text, text), names, made)
