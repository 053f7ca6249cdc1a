"""The page that measures ground by position."""

import pytest

from evenstand.book.kinds.work import Field

EDGE = "45, -108 ± 4\n45, -107.9949 ± 4\n45.0036, -107.9949 ± 4\n45.0036, -108 ± 4"
WHEEL = "45, -108 ± 4\n45.0009, -108 ± 4"


def test_a_field_is_worked_out_and_kept(client, book):
    field = book.add(Field(name="Alder Bench")).about
    page = client.post("/position/field", data={"edge": EDGE})
    assert page.status_code == 200
    assert "39.7" in page.text  # 402 m × 400 m = 16.1 ha = 39.7 ac
    kept = client.post("/position/keep", data={"edge": EDGE, "field": field})
    assert kept.status_code == 303
    body = book.get(field).body
    assert "Polygon" in body.outline
    assert body.area.value == pytest.approx(160_900, rel=2e-3)


def test_a_wheel_is_worked_out(client):
    page = client.post("/position/wheel", data={"points": WHEEL, "turns": "40"})
    assert page.status_code == 200
    assert "2.50" in page.text
    assert "Use the tape" in page.text


REFUSED = {
    "edge": ("field", {"edge": "45, -108 ± 4"}),
    "points": ("wheel", {"points": "here", "turns": "4"}),
    "turns": ("wheel", {"points": WHEEL, "turns": ""}),
    "field": ("keep", {"edge": EDGE, "field": "45"}),
}


@pytest.mark.parametrize("field", REFUSED)
def test_refusals_stand_at_their_field(client, book, field):
    address, data = REFUSED[field]
    book.add(Field(name="Alder Bench"))
    page = client.post(f"/position/{address}", data=data)
    assert page.status_code == 422
    assert f'id="f-{field}-wrong"' in page.text
    assert all(typed.split("\n")[0] in page.text for typed in data.values())
