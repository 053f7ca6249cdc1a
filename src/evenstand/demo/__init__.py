"""The invented Tamarack Flats drill pool, and a simulator of its drills. No drill here exists."""
