-- +goose Up
CREATE TABLE entries (
    seq   INTEGER PRIMARY KEY, -- order of arrival
    id    TEXT NOT NULL UNIQUE,
    job   TEXT NOT NULL,       -- the job's number; '' for what belongs to the shop
    kind  TEXT NOT NULL,
    at    TEXT NOT NULL,       -- UTC, RFC 3339 with nanoseconds
    "by"  TEXT NOT NULL,
    batch TEXT NOT NULL,       -- what was added together is undone together
    body  TEXT NOT NULL CHECK (json_valid(body))
) STRICT;

CREATE INDEX entries_of_job ON entries (job, kind, seq);
CREATE UNIQUE INDEX one_job_a_number ON entries (job) WHERE kind = 'job';

CREATE TABLE supersedes (
    entry      TEXT NOT NULL REFERENCES entries (id),
    superseded TEXT NOT NULL REFERENCES entries (id) CHECK (superseded <> entry),
    PRIMARY KEY (entry, superseded)
) STRICT, WITHOUT ROWID;

CREATE TABLE papers (
    entry    TEXT PRIMARY KEY REFERENCES entries (id),
    number   TEXT NOT NULL,
    revision INTEGER NOT NULL CHECK (revision >= 1),
    media    TEXT NOT NULL,
    sha256   TEXT NOT NULL,
    bytes    BLOB NOT NULL,
    UNIQUE (number, revision, media)
) STRICT;

-- Entries are only ever added: the file itself refuses anything else.
-- +goose StatementBegin
CREATE TRIGGER entries_stay BEFORE UPDATE ON entries
BEGIN SELECT RAISE(ABORT, 'entries are only ever added'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER entries_remain BEFORE DELETE ON entries
BEGIN SELECT RAISE(ABORT, 'entries are only ever added'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER supersedes_stay BEFORE UPDATE ON supersedes
BEGIN SELECT RAISE(ABORT, 'entries are only ever added'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER supersedes_remain BEFORE DELETE ON supersedes
BEGIN SELECT RAISE(ABORT, 'entries are only ever added'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER supersedes_earlier_of_same_job BEFORE INSERT ON supersedes
WHEN NOT EXISTS (
    SELECT 1 FROM entries a, entries b
    WHERE a.id = NEW.entry AND b.id = NEW.superseded AND a.job = b.job AND b.seq < a.seq
)
BEGIN SELECT RAISE(ABORT, 'only an earlier entry of the same job can be superseded'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER papers_stay BEFORE UPDATE ON papers
BEGIN SELECT RAISE(ABORT, 'an issued paper is frozen'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER papers_remain BEFORE DELETE ON papers
BEGIN SELECT RAISE(ABORT, 'an issued paper is frozen'); END;
-- +goose StatementEnd

PRAGMA application_id = 1718905964;
PRAGMA user_version = 1;
