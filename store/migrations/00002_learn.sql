-- +goose Up

-- A piece as scores of it were resolved, with those before it on the same clock: the same
-- for all who did it.
CREATE TABLE pieces (
  gym_id TEXT NOT NULL references gyms (id) ON DELETE CASCADE,
  id TEXT NOT NULL,            -- a digest of it
  piece TEXT NOT NULL,         -- in JSON
  PRIMARY KEY (gym_id, id)
);

-- What was done by each reading of a score, in their order: as it was resolved when the
-- score was first read, so that later programs compare with the same.
CREATE TABLE done (
  gym_id TEXT NOT NULL,
  attempt_id TEXT NOT NULL,
  n BIGINT NOT NULL,           -- of the reading, from 1
  piece_id TEXT NOT NULL,
  done TEXT NOT NULL,          -- in JSON, without the piece
  PRIMARY KEY (gym_id, attempt_id, n),
  FOREIGN KEY (gym_id, piece_id) references pieces (gym_id, id),
  FOREIGN KEY (gym_id, attempt_id) references attempts (gym_id, id) ON DELETE CASCADE
);

-- How the others of the gym moved what was believed of somebody, in JSON
ALTER TABLE abilities ADD COLUMN shift TEXT NOT NULL DEFAULT '';

-- Learning from all scores of a gym: how far it is, and what came of it the last time.
CREATE TABLE learning (
  gym_id TEXT NOT NULL PRIMARY KEY references gyms (id) ON DELETE CASCADE,
  percent BIGINT NOT NULL,     -- of what is under way, 100 when nothing is
  run TEXT NOT NULL,           -- of the program that is at it, or was last
  began_at BIGINT NOT NULL,    -- the last time
  touched_at BIGINT NOT NULL,  -- when it last got further
  done_at BIGINT,              -- the last time it came to its end
  seq BIGINT NOT NULL,         -- of the last change that it rests on
  model TEXT NOT NULL,
  shift TEXT NOT NULL          -- of who comes new, in JSON
);

-- An emulator for each structure of piece. They can always be made again.
CREATE TABLE emulators (
  gym_id TEXT NOT NULL references gyms (id) ON DELETE CASCADE,
  structure TEXT NOT NULL,
  model TEXT NOT NULL,
  kept TEXT NOT NULL,          -- in base 64
  PRIMARY KEY (gym_id, structure)
);

-- +goose Down

DROP TABLE emulators;
DROP TABLE learning;
ALTER TABLE abilities DROP COLUMN shift;
DROP TABLE done;
DROP TABLE pieces;
