-- What each column means stands in SCHEMA.md. Later changes are new files beside this one.

CREATE TABLE document (
    id      TEXT COLLATE "C" NOT NULL PRIMARY KEY,
    kind    TEXT   NOT NULL CHECK (kind IN ('shoot', 'bag', 'place')),
    version BIGINT NOT NULL CHECK (version >= 1)
);

CREATE INDEX document_by_kind ON document (kind);

CREATE TABLE version (
    document    TEXT COLLATE "C" NOT NULL REFERENCES document (id),
    version     BIGINT  NOT NULL CHECK (version >= 1),
    saved_at_ms BIGINT  NOT NULL,
    removed     BOOLEAN NOT NULL,
    name        TEXT    NOT NULL CHECK (length(name) BETWEEN 1 AND 200),
    text        TEXT    NOT NULL CHECK (octet_length(text) <= 1048576),
    PRIMARY KEY (document, version)
);

ALTER TABLE document
    ADD FOREIGN KEY (id, version) REFERENCES version (document, version) DEFERRABLE INITIALLY DEFERRED;
