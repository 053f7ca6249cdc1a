"""Setting in type: from a template and its files to a PDF that lasts and can be read aloud."""

from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory

import typst


def pdf(files: Mapping[str, bytes], *, made: datetime) -> bytes:
    """Set a document in type.

    It is a PDF for keeping (ISO 19005-2, level A) and for everybody (ISO
    14289-1) at once: typst refuses what is not. The same files give the same
    bytes: fonts are the library's own, and the time is the one given.

    Parameters
    ----------
    files : mapping of str to bytes
        By name; ``main.typ`` is the template.
    made : datetime
        When the document was made, of which the PDF tells whole seconds.
    """
    fonts = typst.Fonts(include_system_fonts=False)
    with TemporaryDirectory() as folder:
        for name, data in files.items():
            (Path(folder) / name).write_bytes(data)
        return typst.compile(
            str(Path(folder) / "main.typ"),
            root=folder,
            font_paths=fonts,
            pdf_standards=["a-2a", "ua-1"],
            timestamp=int(made.timestamp()),
        )


def can_be_set(data: bytes, format: str, *, made: datetime) -> bool:
    """Whether a picture can stand in a PDF: a file may be cut short or only begin like one."""
    page = f'#set document(title: "x")\n#image("photo", format: "{format}", alt: "x")\n'
    try:
        pdf({"main.typ": page.encode(), "photo": data}, made=made)
    except typst.TypstError:
        return False
    return True
