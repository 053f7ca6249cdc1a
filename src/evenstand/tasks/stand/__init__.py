"""Stand counts of a job.

Places counted, read and kept, set beside the seed that went down.

Open to other rooms: count, form, job, kept, seed_down, stand, wish_form.
"""
