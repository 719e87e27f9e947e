-- +goose Up
-- Words are written once a batch by the program, not once an entry: the index is then written to the file once.
DROP TRIGGER words_of_entry;

PRAGMA user_version = 3;
