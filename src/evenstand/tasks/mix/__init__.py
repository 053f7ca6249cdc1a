"""The mix of a job.

Its species and carriers read and worked out, its goal solved for, its warnings told.

Open to other rooms: best, form, goal_form, kept, lines, members, mix, said,
solving.
"""
