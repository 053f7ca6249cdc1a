"""Entries, and what those about one thing add up to.

When each was made and from which other it was made, which fields it changes, and where two
people changed one field apart.

Open to other rooms: carrying, edit, editing, entries, merging, nesting, said, schema, stamp.
"""
