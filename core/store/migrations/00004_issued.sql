-- +goose Up
-- What a job's story needs of each issued paper, once for all its media: reading it out of the whole paper each time took
-- half of a plan.
CREATE TABLE issued (
    seq         INTEGER PRIMARY KEY, -- of the first entry of the paper
    job         TEXT NOT NULL,
    kind        TEXT NOT NULL,
    number      TEXT NOT NULL,
    revision    INTEGER NOT NULL,
    at          TEXT NOT NULL,
    work_order  TEXT, -- JSON; NULL if the paper prices none
    contingency TEXT, -- JSON
    valid_until TEXT,
    UNIQUE (job, number, revision)
) STRICT;

INSERT INTO issued
SELECT seq, job, json_extract(body, '$.kind'), json_extract(body, '$.number'), json_extract(body, '$.revision'), at,
    json_extract(body, '$.inputs.order'), json_extract(body, '$.inputs.budget.contingency'), json_extract(body, '$.inputs.valid_until')
FROM entries WHERE kind = 'paper' ORDER BY seq
ON CONFLICT DO NOTHING;

-- +goose StatementBegin
CREATE TRIGGER issued_paper AFTER INSERT ON entries WHEN NEW.kind = 'paper'
BEGIN
    INSERT INTO issued
    VALUES (NEW.seq, NEW.job, json_extract(NEW.body, '$.kind'), json_extract(NEW.body, '$.number'), json_extract(NEW.body, '$.revision'), NEW.at,
        json_extract(NEW.body, '$.inputs.order'), json_extract(NEW.body, '$.inputs.budget.contingency'), json_extract(NEW.body, '$.inputs.valid_until'))
    ON CONFLICT DO NOTHING;
END;
-- +goose StatementEnd

PRAGMA user_version = 4;
