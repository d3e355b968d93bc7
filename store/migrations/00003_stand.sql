-- +goose Up

-- the day it is for; when it was published where it has none
ALTER TABLE editions ADD COLUMN day TEXT NOT NULL DEFAULT '';

-- of the change that published it: what was known then holds for it; 0 where that is not known
ALTER TABLE editions ADD COLUMN seq BIGINT NOT NULL DEFAULT 0;
CREATE INDEX editions_day ON editions (gym_id, day, seq);

-- What was known of somebody before something later was learnt, while a published day
-- rests on it.
CREATE TABLE abilities_before (
  gym_id TEXT NOT NULL,
  person_id TEXT NOT NULL,
  until BIGINT NOT NULL,       -- the change that brought the later
  learnt TEXT NOT NULL,        -- in JSON, empty for nothing
  model TEXT NOT NULL,         -- the version of what learnt it
  PRIMARY KEY (gym_id, person_id, until),
  FOREIGN KEY (gym_id, person_id) references people (gym_id, id) ON DELETE CASCADE
);

-- +goose Down

DROP TABLE abilities_before;
DROP INDEX editions_day;
ALTER TABLE editions DROP COLUMN seq;
ALTER TABLE editions DROP COLUMN day;
