"""A document as JSON, for programs and for setting it in type. Keys stay; more may come."""

import hashlib
from typing import Any

from .document import (
    Block,
    Cell,
    Code,
    Drawing,
    Drawn,
    Fact,
    Facts,
    Picture,
    Points,
    Printable,
    Printed,
    Signatures,
    Table,
    Words,
    Work,
)
from .json import Document as Json


def document_json(document: Printed) -> Json:
    """Write all of a document; of a photo only which it is, with the hash of its bytes."""
    return {
        "document": document.kind,
        "title": document.title,
        "about": document.about,
        "lead": document.lead,
        "facts": [_fact(each) for each in document.facts],
        "sections": [
            {"title": each.title, "blocks": [_block(block) for block in each.blocks]}
            for each in document.sections
        ],
        "foot": list(document.foot),
        "made": document.made.isoformat(timespec="milliseconds"),
        "made_in_words": document.made_in_words,
        "author": document.author,
        "language": document.language,
        "page_of": document.page_of,
        "invented": document.invented,
    }


def _block(block: Block) -> Json:
    if isinstance(block, Drawn):
        raise AssertionError(block)  # in the characters of a terminal alone
    kind = block.kind
    match block:
        case Facts(facts):
            return {"block": kind, "facts": [_fact(each) for each in facts]}
        case Words(text, quiet):
            return {"block": kind, "text": text, "quiet": quiet}
        case Points(points):
            return {"block": kind, "points": list(points)}
        case Signatures(lines, day):
            return {"block": kind, "lines": list(lines), "day": day}
        case _:
            return {"block": kind, **_laid_out(block)}


def _laid_out(block: Printable) -> Json:
    match block:
        case Table():
            return {
                "caption": block.caption,
                "heads": list(block.heads),
                "rows": [[_cell(each) for each in row] for row in block.rows],
                "words": list(block.words),
            }
        case Work(lines, sources):
            written = [
                {"text": line.text, "sum": line.sum, "value": _cell(line.value)} for line in lines
            ]
            return {"lines": written, "sources": sources}
        case Drawing(svg, told, caption):
            return {"svg": svg, "told": told, "caption": caption}
        case Code(svg, told, address):
            return {"svg": svg, "told": told, "address": address}
        case Picture(id, media, data, told):
            digest = hashlib.sha256(data).hexdigest()
            return {"id": id, "media": media, "sha256": digest, "told": told}
        case _:
            raise AssertionError(block)


def _fact(fact: Fact) -> Json:
    return {"name": fact.name, "value": _cell(fact.cell), "missing": fact.missing}


def _cell(cell: Cell) -> dict[str, Any]:
    return {"text": cell.text, **({"quantity": cell.quantity} if cell.quantity else {})}
