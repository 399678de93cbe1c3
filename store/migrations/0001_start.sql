-- Builds, their revisions, drafts, records, issued papers and the workshop text.
-- A text is the canonical form of a build. Times are RFC 3339 in UTC.

CREATE TABLE builds (
    id       TEXT PRIMARY KEY,
    name     TEXT NOT NULL,
    customer TEXT NOT NULL,
    stage    TEXT NOT NULL,
    items    INTEGER NOT NULL,
    revision INTEGER NOT NULL,           -- of text
    text     TEXT NOT NULL,
    hash     TEXT NOT NULL,              -- SHA-256 of text, hexadecimal
    changed  TEXT NOT NULL,
    deleted  TEXT,                       -- when; absent while it is in use
    summary  TEXT NOT NULL DEFAULT ''    -- what the caller keeps for the list of builds
) STRICT;

CREATE TABLE revisions (
    build   TEXT NOT NULL REFERENCES builds (id),
    number  INTEGER NOT NULL,
    change  TEXT NOT NULL,               -- id made by the client; applied once
    client  TEXT NOT NULL,
    kind    TEXT NOT NULL,
    undoes  INTEGER NOT NULL,            -- the revision an undo or redo takes back; 0 for none
    title   TEXT NOT NULL,
    at      TEXT NOT NULL,
    ops     TEXT NOT NULL,
    inverse TEXT NOT NULL,
    paths   TEXT NOT NULL,               -- JSON array
    head    INTEGER NOT NULL,            -- bytes kept from the start of the text before
    tail    INTEGER NOT NULL,            -- bytes kept from its end
    middle  TEXT NOT NULL,               -- what stands between them now
    whole   TEXT,                        -- the whole text, at the first revision and at every hundredth
    hash    TEXT NOT NULL,
    PRIMARY KEY (build, number),
    UNIQUE (build, change)
) STRICT, WITHOUT ROWID;

CREATE INDEX revisions_by_client ON revisions (build, client, number);

CREATE TABLE drafts (
    build  TEXT PRIMARY KEY REFERENCES builds (id),
    base   INTEGER NOT NULL,
    client TEXT NOT NULL,
    text   TEXT NOT NULL,
    at     TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE records (
    build    TEXT NOT NULL REFERENCES builds (id),
    number   INTEGER NOT NULL,
    id       TEXT NOT NULL,              -- made by the client; kept once
    kind     TEXT NOT NULL,
    revision INTEGER NOT NULL,
    body     TEXT NOT NULL,
    at       TEXT NOT NULL,
    PRIMARY KEY (build, number),
    UNIQUE (build, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE papers (
    build    TEXT NOT NULL REFERENCES builds (id),
    number   INTEGER NOT NULL,
    name     TEXT NOT NULL,
    status   TEXT NOT NULL,
    revision INTEGER NOT NULL,
    hash     TEXT NOT NULL,              -- of the build's text
    bytes    BLOB NOT NULL,
    at       TEXT NOT NULL,
    PRIMARY KEY (build, number)
) STRICT;

CREATE TABLE workshop (
    number INTEGER PRIMARY KEY,
    client TEXT NOT NULL,
    text   TEXT NOT NULL,
    at     TEXT NOT NULL
) STRICT;

CREATE TRIGGER revisions_stay   BEFORE UPDATE ON revisions BEGIN SELECT RAISE(ABORT, 'revisions are only added'); END;
CREATE TRIGGER revisions_remain BEFORE DELETE ON revisions BEGIN SELECT RAISE(ABORT, 'revisions are only added'); END;
CREATE TRIGGER records_stay     BEFORE UPDATE ON records   BEGIN SELECT RAISE(ABORT, 'records are only added');   END;
CREATE TRIGGER records_remain   BEFORE DELETE ON records   BEGIN SELECT RAISE(ABORT, 'records are only added');   END;
CREATE TRIGGER papers_stay      BEFORE UPDATE ON papers    BEGIN SELECT RAISE(ABORT, 'papers are only added');    END;
CREATE TRIGGER papers_remain    BEFORE DELETE ON papers    BEGIN SELECT RAISE(ABORT, 'papers are only added');    END;
