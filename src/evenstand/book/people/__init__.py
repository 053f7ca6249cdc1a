"""Who may do what with a book where it lies.

People and their passwords, who is signed in, attempts that failed, and devices that carry the
book along; the log of all that.

Open to other rooms: attempts, devices, people, security_log,
sessions.
"""
