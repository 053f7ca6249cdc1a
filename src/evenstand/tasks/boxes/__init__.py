"""The split of a mix among a drill's boxes.

What goes where, what is mixed into each box, and the rates they hand over to calibrate by.

Open to other rooms: boxes, form, handed_over, job, kept, part, portions, said, tables,
words.
"""
