-- What each column means stands in SCHEMA.md. Later changes are new files beside this one.

-- "Rush" in ASCII: tells this file from another program's SQLite file.
PRAGMA application_id = 1383428968;

CREATE TABLE document (
    id      TEXT    NOT NULL PRIMARY KEY,
    kind    TEXT    NOT NULL CHECK (kind IN ('shoot', 'bag', 'place')),
    version INTEGER NOT NULL CHECK (version >= 1),
    FOREIGN KEY (id, version) REFERENCES version (document, version) DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE INDEX document_by_kind ON document (kind);

CREATE TABLE version (
    document    TEXT    NOT NULL REFERENCES document (id),
    version     INTEGER NOT NULL CHECK (version >= 1),
    saved_at_ms INTEGER NOT NULL,
    removed     INTEGER NOT NULL CHECK (removed IN (0, 1)),
    name        TEXT    NOT NULL CHECK (length(name) BETWEEN 1 AND 200),
    text        TEXT    NOT NULL CHECK (length(CAST(text AS BLOB)) <= 1048576),
    PRIMARY KEY (document, version)
) STRICT;
