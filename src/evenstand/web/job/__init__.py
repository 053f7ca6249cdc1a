"""Pages of a job and its steps.

Each step shows where the job is and saves what is entered.

Open to other rooms: boxes, catches, filling, handing_over, jobs, mix, mix_form, mix_goal, now,
order, record, set, sow, sown_entries, stand, stand_counts.
"""
