"""What was given, read field by field.

A table of texts with its place, so that whatever is refused names its field; dates, repeats and
warnings.

Open to other rooms: changes, dates, given, keys, reading, repeats, structs, told, warned, writing,
written.
"""
