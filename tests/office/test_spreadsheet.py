"""Workbooks: what a cell cannot hold is refused, not cut."""

import pytest

from evenstand.engine.quantities.errors import MeasurementError

write_xlsx = pytest.importorskip("evenstand.office.spreadsheet", reason="needs openpyxl").write_xlsx


def test_a_text_too_long_for_a_cell_is_refused():
    """32,767 signs: the limit that spreadsheets print of themselves (not read)."""
    write_xlsx([("fields", ["outline"], [["x" * 32_767]])])
    with pytest.raises(MeasurementError) as refused:
        write_xlsx([("fields", ["outline"], [["x" * 32_768]])])
    assert refused.value.field == "cell"


def _with_part(data, name, change):
    import io
    from zipfile import ZipFile

    out = io.BytesIO()
    with ZipFile(io.BytesIO(data)) as old, ZipFile(out, "w", 8) as new:
        for part in old.namelist():
            text = old.read(part)
            new.writestr(part, change(text) if part.endswith(name) else text)
    return out.getvalue()


@pytest.mark.parametrize(
    ("name", "change", "said"),
    [
        ("sheet1.xml", lambda text: text.decode().encode("utf-16"), "UTF-8"),
        ("sheet1.xml", lambda text: b'<?xml version="1.0" encoding="utf-7"?>' + text, "UTF-8"),
        (
            "sheet1.xml",
            lambda text: text.replace(
                b"</sheetData>", b'<row><c s="1"/></row>' * 9 + b"</sheetData>"
            ),
            "formatted cells",
        ),
        (
            "styles.xml",
            lambda text: text.replace(b"</cellXfs>", b"<xf/>" * 9 + b"</cellXfs>"),
            "cells",
        ),
    ],
)
def test_a_workbook_that_would_work_too_long_is_refused(monkeypatch, *, name, change, said):
    import io

    from evenstand.engine.quantities.errors import MeasurementError
    from evenstand.office import spreadsheet_read
    from evenstand.office.spreadsheet_read import Limits, read_xlsx

    book = pytest.importorskip("openpyxl").Workbook()
    book.active["A1"] = "name"
    out = io.BytesIO()
    book.save(out)
    limits = Limits(rows=10, seen=10, columns=10, cell=100)
    assert read_xlsx(out.getvalue(), sheet="", limits=limits).rows == (("name",),)
    monkeypatch.setattr(spreadsheet_read, "MOST_CELLS", 8)
    with pytest.raises(MeasurementError, match=said):
        read_xlsx(_with_part(out.getvalue(), name, change), sheet="", limits=limits)
