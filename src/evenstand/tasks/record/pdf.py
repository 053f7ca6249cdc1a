"""A document as a PDF: at the office, where type can be set."""

from evenstand.engine.quantities.phrases import say
from evenstand.office.pdf import can_be_set, pdf
from evenstand.report.document import Printed
from evenstand.report.pen import Pen
from evenstand.report.typesetting import FORMATS, Paper, typesetting

from ..seed.photo import is_small


def document_pdf(document: Printed, paper: Paper, pen: Pen) -> bytes:
    """Set a document in type; a photo that cannot be read is said to be so in its place.

    Parameters
    ----------
    paper : "letter" or "a4"
    pen : Pen
        Of the document's reader.
    """
    unreadable = frozenset(
        photo.id
        for photo in document.pictures
        if not is_small(photo.data)
        or not can_be_set(photo.data, FORMATS[photo.media], made=document.made)
    )
    instead = pen.write(say("this photo can't be read"))
    files = typesetting(document, paper, unreadable=unreadable, instead=instead)
    return pdf(files, made=document.made)
