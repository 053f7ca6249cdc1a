"""What is handed to be set in type: a document's JSON, its photos, and the template."""

import json
import re
from collections.abc import Container, Mapping
from importlib.resources import files
from typing import Any, Literal

from evenstand.engine.quantities.phrases import Style

from .document import Printed
from .json import Document as Json
from .json import as_json
from .svg import FONT

Paper = Literal["letter", "a4"]
PAPERS: Mapping[Paper, str] = {"letter": "us-letter", "a4": "a4"}
TEMPLATE = "document.typ"
FORMATS = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp"}
LETTERS = "Libertinus Serif"  # comes with the library, so that every machine sets the same
# What the letters above can write: Latin, Greek, Cyrillic and the signs of the pages. All else
# is written by its number, which can be looked up, instead of as an empty box.
_CANNOT = re.compile(
    "[^\\n\u0020-\u007e\u00a0-\u017f\u0386-\u038a\u038c\u038e-\u03a1\u03a3-\u03ce\u0400-\u045f"
    "\u2009\u2010-\u2015\u2018-\u201e\u2020-\u2022\u2026\u202f\u2030\u2032\u2033\u2039\u203a\u2044"
    "\u2070\u2074-\u2079\u2080-\u2089\u20ac\u2116\u2122\u2126\u2153-\u215e\u2190-\u2193\u2212"
    "\u221e\u2248\u2260\u2264\u2265]"
)


def typesetting(
    document: Printed, paper: Paper, *, unreadable: Container[str] = (), instead: str = ""
) -> dict[str, bytes]:
    """Return the files that a document is set from.

    Parameters
    ----------
    paper : "letter" or "a4"
    unreadable : container of str
        Ids of photos that no picture can be made of.
    instead : str
        What stands in their place.
    """
    written = as_json(document, Style()) | {"paper": PAPERS[paper]}
    for section in written["sections"]:
        section["blocks"] = [_block(each, unreadable, instead) for each in section["blocks"]]
    template = (files(__package__) / TEMPLATE).read_bytes()
    text = json.dumps(_writable(written), ensure_ascii=False)
    photos = {f"photo-{photo.id}": photo.data for photo in document.pictures}
    return {"main.typ": template, "document.json": text.encode(), **photos}


def _block(block: Json, unreadable: Container[str], instead: str) -> Json:
    if block["block"] == "picture":
        if block["id"] in unreadable:
            return {"block": "unreadable", "text": f"{block['told']}: {instead}"}
        return block | {"format": FORMATS[block["media"]]}
    if block["block"] == "drawing":
        return block | {"svg": block["svg"].replace(f'"{FONT}"', f'"{LETTERS}"')}
    return block


def _writable(part: Any) -> Any:
    """Write by its number every sign that the letters have not."""
    match part:
        case str():
            plain = part.replace("\r\n", "\n").replace("\t", " ")
            return _CANNOT.sub(lambda sign: f"[U+{ord(sign[0]):04X}]", plain)
        case list():
            return [_writable(each) for each in part]
        case dict():
            return {key: _writable(each) for key, each in part.items()}
        case _:
            return part
