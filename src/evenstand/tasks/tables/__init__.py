"""Tables in and out.

Columns and what they measure, grids from CSV, spreadsheets and GeoJSON, matched, previewed and
saved whole or not at all.

Open to other rooms: csv, everything, file, geojson, grid, match, model, take.
"""
