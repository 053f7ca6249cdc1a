"""Pages of drills, their charts, positions and the pool.

They show and save what outlives a job of the machine.

Open to other rooms: charts, drills, pool, position.
"""
