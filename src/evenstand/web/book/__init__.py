"""Pages of the book itself.

Settings, people, tables in and out, history, export and import.

Open to other rooms: book, changes, people, reading, tables.
"""
