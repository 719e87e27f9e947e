-- +goose Up
-- Numbers that are unique in the shop, like T-014: the job that has each.
CREATE TABLE numbers (
    number TEXT PRIMARY KEY,
    job    TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- What is looked for by word: every text of the entry.
CREATE VIRTUAL TABLE words USING fts5(body, content='', tokenize="unicode61 remove_diacritics 2", prefix='2 3');

-- +goose StatementBegin
CREATE TRIGGER words_of_entry AFTER INSERT ON entries
WHEN NEW.kind IN ('tag', 'unit', 'vehicle', 'outwork', 'purchase', 'surprise', 'snag')
    OR NEW.kind = 'finding' AND coalesce(json_extract(NEW.body, '$.note'), '') <> ''
BEGIN
    INSERT INTO words (rowid, body)
    SELECT NEW.seq, group_concat(atom, ' ') FROM json_tree(NEW.body) WHERE type = 'text' AND key NOT IN ('by', 'at');
END;
-- +goose StatementEnd

INSERT INTO words (rowid, body)
SELECT e.seq, (SELECT group_concat(atom, ' ') FROM json_tree(e.body) WHERE type = 'text' AND key NOT IN ('by', 'at'))
FROM entries e WHERE e.kind IN ('unit', 'vehicle') OR e.kind = 'finding' AND coalesce(json_extract(e.body, '$.note'), '') <> '';

PRAGMA user_version = 2;
