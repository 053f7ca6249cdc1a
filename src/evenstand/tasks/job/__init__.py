"""A job as a file and in the book.

Its tables, their lines and keys, and which entries of the book make it up.

Open to other rooms: about, calibration, file, form, kept, lines, said, tables,
writer.
"""
