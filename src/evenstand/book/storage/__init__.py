"""Where entries lie.

One SQLite file or memory, its tables and their releases, what it remembers of each thing, its
marks, copies and checks. Only this room speaks SQL.

Open to other rooms: check, copies, files, many, marks, projection, store, thing.
"""
