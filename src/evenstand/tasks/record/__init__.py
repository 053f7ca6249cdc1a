"""What is printed: the record, worksheet, drill card and season.

Each is one document made of results.

Open to other rooms: drill_card, form, frame, frozen, pdf, printed, record, season, worksheet.
"""
