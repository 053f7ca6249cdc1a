"""Who may do what with a book where it lies.

People and their passwords, who is signed in, attempts that failed, and devices that carry the
book along.

Open to other rooms: attempts, devices, people, sessions.
"""
