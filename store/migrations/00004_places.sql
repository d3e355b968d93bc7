-- +goose Up

-- Scores are listed by day and by when they came, of a person or of a sheet: in that order
-- a page of the latest is read without the rest.
DROP INDEX attempts_person;
DROP INDEX attempts_document;
CREATE INDEX attempts_person ON attempts (gym_id, person_id, day, seq);
CREATE INDEX attempts_document ON attempts (gym_id, document_id, day, seq);

-- Who scored on a sheet, when last and how many of them, without reading any score.
CREATE INDEX attempts_scorers ON attempts (gym_id, document_id, person_id, day, seq, withdrawn_at);

-- Sheets are looked for by their titles.
CREATE INDEX documents_title ON documents (gym_id, kind, title);

-- +goose Down

DROP INDEX documents_title;
DROP INDEX attempts_scorers;
DROP INDEX attempts_person;
DROP INDEX attempts_document;
CREATE INDEX attempts_person ON attempts (gym_id, person_id, day);
CREATE INDEX attempts_document ON attempts (gym_id, document_id, day);
