"""A document in the characters of a terminal: a field notebook with ruled lines and a seed tag.

The only place that knows of rich.

Open to other rooms: notebook, pages.
"""
