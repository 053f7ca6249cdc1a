"""The drill and the distance it has covered.

Rows, width, gears and scale; wheel, crank, course or weigh-back, turned into meters with slip
counted once.

Open to other rooms: course, drill, safety, travel.
"""
