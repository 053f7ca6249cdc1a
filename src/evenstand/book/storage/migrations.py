"""The tables of a book in SQLite, as numbered steps that only go forward.

A step that has been released is never changed: a later need is a later step.
"""

APPLICATION = 0x45767374  # marks the file as a book of Evenstand

STEPS: tuple[tuple[str, ...], ...] = (
    (
        """
        CREATE TABLE entry (
            seq INTEGER PRIMARY KEY AUTOINCREMENT,
            id TEXT NOT NULL UNIQUE,
            about TEXT NOT NULL,
            kind TEXT NOT NULL,
            made TEXT NOT NULL,
            sha256 BLOB NOT NULL,
            text TEXT NOT NULL
        )
        """,
        "CREATE INDEX entry_about ON entry (about, made, id, kind)",
        # What the entries add up to; it can be made anew from them.
        """
        CREATE TABLE thing (
            id TEXT PRIMARY KEY,
            kind TEXT NOT NULL,
            removed INTEGER NOT NULL,
            born TEXT NOT NULL,
            entry INTEGER NOT NULL REFERENCES entry (seq)
        ) WITHOUT ROWID
        """,
        "CREATE INDEX thing_kind ON thing (kind, removed, born, id)",
        """
        CREATE TABLE link (
            target TEXT NOT NULL,
            kind TEXT NOT NULL,
            removed INTEGER NOT NULL,
            born TEXT NOT NULL,
            thing TEXT NOT NULL REFERENCES thing (id),
            PRIMARY KEY (target, kind, removed, born, thing)
        ) WITHOUT ROWID
        """,
        "CREATE INDEX link_thing ON link (thing)",
        "CREATE TABLE state (name TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID",
    ),
    (  # Who may do what with this book where it lies: never entries, never exchanged.
        """
        CREATE TABLE account (
            id TEXT PRIMARY KEY,
            name TEXT NOT NULL,
            folded TEXT NOT NULL UNIQUE,
            role TEXT NOT NULL,
            password TEXT NOT NULL
        ) WITHOUT ROWID
        """,
        """
        CREATE TABLE session (
            sha256 BLOB PRIMARY KEY,
            account TEXT NOT NULL REFERENCES account (id) ON DELETE CASCADE,
            ends INTEGER NOT NULL
        ) WITHOUT ROWID
        """,
        "CREATE INDEX session_account ON session (account)",
        """
        CREATE TABLE attempt (
            who TEXT PRIMARY KEY,
            failed INTEGER NOT NULL,
            last INTEGER NOT NULL
        ) WITHOUT ROWID
        """,
    ),
    (  # Devices that carry the book along: never entries, never exchanged.
        """
        CREATE TABLE device (
            id TEXT PRIMARY KEY,
            name TEXT NOT NULL,
            sha256 BLOB NOT NULL UNIQUE,
            account TEXT REFERENCES account (id) ON DELETE CASCADE,
            who TEXT NOT NULL,
            role TEXT NOT NULL,
            made INTEGER NOT NULL,
            seen INTEGER
        ) WITHOUT ROWID
        """,
        """
        CREATE TABLE pairing (
            sha256 BLOB PRIMARY KEY,
            account TEXT REFERENCES account (id) ON DELETE CASCADE,
            who TEXT NOT NULL,
            ends INTEGER NOT NULL,
            tries INTEGER NOT NULL
        ) WITHOUT ROWID
        """,
    ),
    (  # What several entries add up to together, where the newest alone does not say it.
        "ALTER TABLE thing ADD COLUMN body TEXT",
        "ALTER TABLE thing ADD COLUMN heads TEXT",
        "ALTER TABLE thing ADD COLUMN clashes INTEGER NOT NULL DEFAULT 0",
        "CREATE INDEX thing_clashes ON thing (id) WHERE clashes > 0",
    ),
    (  # Which device brought an entry that names another person or device.
        "CREATE TABLE handed (entry TEXT PRIMARY KEY, device TEXT NOT NULL) WITHOUT ROWID",
    ),
    (  # When a session was last used; by which browsers people signed in before.
        "ALTER TABLE session ADD COLUMN seen INTEGER NOT NULL DEFAULT 0",
        "UPDATE session SET seen = 1000 * CAST(strftime('%s', 'now') AS INTEGER)",
        """
        CREATE TABLE browser (
            sha256 BLOB PRIMARY KEY,
            account TEXT NOT NULL REFERENCES account (id) ON DELETE CASCADE,
            ends INTEGER NOT NULL
        ) WITHOUT ROWID
        """,
        "CREATE INDEX browser_account ON browser (account)",
        "ALTER TABLE pairing DROP COLUMN tries",
    ),
)
