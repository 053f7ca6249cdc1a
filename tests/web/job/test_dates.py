"""A person reads dates as their country writes them; forms and files keep ISO 8601."""


def test_days_and_months_are_written_for_the_reader(visitor, book):
    job = visitor.job()
    count = {"day": "2026-10-14", "length": "3 ft", "plants": "20 22 19 25 21", "at_once": "1"}
    visitor.send(f"{job}/stand-count", count)
    assert "Oct 14, 2026" in visitor.read(f"{job}/stand-count").text
    visitor.send("/settings/reading", {"language": "es", "units": "metric", "decimal": "point"})
    text = visitor.read(f"{job}/stand-count").text
    assert "14 oct 2026" in text
    assert "Oct 14" not in text
