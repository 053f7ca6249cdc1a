"""Workbooks: what a cell cannot hold is refused, not cut."""

import pytest

from evenstand.engine.quantities.errors import MeasurementError

write_xlsx = pytest.importorskip("evenstand.office.spreadsheet", reason="needs openpyxl").write_xlsx


def test_a_text_too_long_for_a_cell_is_refused():
    """32,767 signs: the limit that spreadsheets print of themselves (from memory)."""
    write_xlsx([("fields", ["outline"], [["x" * 32_767]])])
    with pytest.raises(MeasurementError) as refused:
        write_xlsx([("fields", ["outline"], [["x" * 32_768]])])
    assert refused.value.field == "cell"
