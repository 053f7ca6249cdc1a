"""The order of a job.

Bags, batches, hours and the day's plan from what the boxes need.

Open to other rooms: day, form, order, said.
"""
