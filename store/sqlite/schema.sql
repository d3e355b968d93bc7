-- The map of the store, as SQLite says it is after migration 4. A test compares it with an
-- up-to-date database. Migrations are what makes the tables; after a new one write it anew:
--
--   go test ./store/sqlite ./store/postgres -run TestSchema -update
--
-- Instants are microseconds since 1970 in UTC, days are ISO 8601 or empty, a truth is 1 or 0.
-- What is in JSON is a noun of the root package, field by field: see store/form.go.
--
-- What belongs to what: a row goes with the one that it stands under, and with any other
-- whose key it has ON DELETE CASCADE.
--
--   gyms
--     changes
--     people
--       limits
--       attempts
--         done
--       abilities
--       abilities_before
--     documents
--       revisions
--       editions
--       overrides
--       notes
--     classes
--       signups
--     accounts
--       signins
--       passkeys
--     invitations
--     pieces
--     learning
--     emulators

-- One gym of an installation. All else belongs to one.
CREATE TABLE gyms (
  id TEXT NOT NULL,
  name TEXT NOT NULL,
  zone TEXT NOT NULL,                      -- of its clock, by its name in the time zone database
  seq BIGINT NOT NULL,                     -- of the last change
  made_at BIGINT NOT NULL,
  PRIMARY KEY (id)
);

-- What happened, for pages that are open and for whoever asks later who did what.
-- No text of a person stands here.
CREATE TABLE changes (
  gym_id TEXT NOT NULL,
  seq BIGINT NOT NULL,                     -- from 1, without gaps, in the order of commitment
  at BIGINT NOT NULL,
  account_id TEXT NOT NULL,                -- empty for the program itself
  kind TEXT NOT NULL,
  subject TEXT NOT NULL,                   -- the id of what changed
  PRIMARY KEY (gym_id, seq),
  FOREIGN KEY (gym_id) references gyms (id) ON DELETE CASCADE
);

-- Who trains, and who did. Their row goes when they ask for it, with all that is theirs.
CREATE TABLE people (
  gym_id TEXT NOT NULL,
  id TEXT NOT NULL,
  name TEXT NOT NULL,                      -- how they are called; the rest of what they are is in told
  told TEXT NOT NULL,                      -- what they told, limits apart, in JSON
  revision BIGINT NOT NULL,                -- how often it was written
  left_at BIGINT,                          -- when they stopped coming
  PRIMARY KEY (gym_id, id),
  FOREIGN KEY (gym_id) references gyms (id) ON DELETE CASCADE
);

-- What restricts a person, since when and until when.
CREATE TABLE limits (
  gym_id TEXT NOT NULL,
  id TEXT NOT NULL,
  person_id TEXT NOT NULL,
  what TEXT NOT NULL,                      -- a part of the body, or what they said
  pain BIGINT NOT NULL,                    -- 0 to 10, -1 when not told
  since TEXT NOT NULL,                     -- a day
  until TEXT NOT NULL,                     -- the last day, empty while it is open
  word TEXT NOT NULL,                      -- whose word it is: theirs, a coach's, a clinician's
  review TEXT NOT NULL,                    -- the day to ask again, empty for none
  note TEXT NOT NULL,                      -- for the person and coaches
  PRIMARY KEY (gym_id, id),
  FOREIGN KEY (gym_id, person_id) references people (gym_id, id) ON DELETE CASCADE
);
CREATE INDEX limits_person ON limits (gym_id, person_id);

-- Sheets, the kit and the settings: texts that people write, with everything they were.
CREATE TABLE documents (
  gym_id TEXT NOT NULL,
  id TEXT NOT NULL,
  kind TEXT NOT NULL,                      -- sheet, kit or settings
  name TEXT NOT NULL,                      -- of its file, without the ending
  title TEXT NOT NULL,                     -- of a sheet
  day TEXT NOT NULL,                       -- of a sheet, empty for none
  revision BIGINT NOT NULL,                -- that holds
  PRIMARY KEY (gym_id, id),
  UNIQUE (gym_id, kind, name),
  FOREIGN KEY (gym_id) references gyms (id) ON DELETE CASCADE
);
CREATE INDEX documents_day ON documents (gym_id, kind, day);
CREATE INDEX documents_title ON documents (gym_id, kind, title);

-- Each text that a document was, and those that wait beside it to be merged.
CREATE TABLE revisions (
  gym_id TEXT NOT NULL,
  document_id TEXT NOT NULL,
  n BIGINT NOT NULL,
  base BIGINT NOT NULL,                    -- the revision it was written from
  aside BIGINT NOT NULL,                   -- 1 when another came first and this one waits to be merged
  text TEXT NOT NULL,
  account_id TEXT NOT NULL,
  at BIGINT NOT NULL,
  PRIMARY KEY (gym_id, document_id, n),
  FOREIGN KEY (gym_id, document_id) references documents (gym_id, id) ON DELETE CASCADE
);

-- A sheet as it was published, with the versions of what read it.
CREATE TABLE editions (
  gym_id TEXT NOT NULL,
  id TEXT NOT NULL,
  document_id TEXT NOT NULL,
  text TEXT NOT NULL,
  notation TEXT NOT NULL,                  -- the versions of what read it then: this, and the next two
  catalogue TEXT NOT NULL,
  model TEXT NOT NULL,
  account_id TEXT NOT NULL,
  at BIGINT NOT NULL,
  day TEXT NOT NULL DEFAULT '',            -- the day it is for; when it was published where it has none
  seq BIGINT NOT NULL DEFAULT 0,           -- of the change that published it: what was known then holds for it; 0 where that is not known
  PRIMARY KEY (gym_id, id),
  FOREIGN KEY (gym_id, document_id) references documents (gym_id, id) ON DELETE CASCADE
);
CREATE INDEX editions_day ON editions (gym_id, day, seq);
CREATE INDEX editions_document ON editions (gym_id, document_id, at);

-- The timetable: an hour on a day. Several may do one sheet.
CREATE TABLE classes (
  gym_id TEXT NOT NULL,
  id TEXT NOT NULL,
  day TEXT NOT NULL,
  start TEXT NOT NULL,                     -- local time, "17:30"
  minutes BIGINT NOT NULL,
  capacity BIGINT NOT NULL,                -- 0 for any number
  document_id TEXT,                        -- the sheet, when it is known
  called_off BIGINT NOT NULL,
  PRIMARY KEY (gym_id, id),
  FOREIGN KEY (gym_id) references gyms (id) ON DELETE CASCADE,
  FOREIGN KEY (gym_id, document_id) references documents (gym_id, id)
);
CREATE INDEX classes_day ON classes (gym_id, day);

-- Who asked for a place in a class.
CREATE TABLE signups (
  gym_id TEXT NOT NULL,
  class_id TEXT NOT NULL,
  person_id TEXT NOT NULL,
  turn BIGINT NOT NULL,                    -- in the order of asking
  state TEXT NOT NULL,                     -- in, waiting, out or missed
  at BIGINT NOT NULL,
  PRIMARY KEY (gym_id, class_id, person_id),
  FOREIGN KEY (gym_id, class_id) references classes (gym_id, id) ON DELETE CASCADE,
  FOREIGN KEY (gym_id, person_id) references people (gym_id, id) ON DELETE CASCADE
);
CREATE INDEX signups_person ON signups (gym_id, person_id);

-- What people typed, for ever, and beside it what it was read as.
CREATE TABLE attempts (
  gym_id TEXT NOT NULL,
  id TEXT NOT NULL,                        -- made where it was typed
  person_id TEXT NOT NULL,
  document_id TEXT NOT NULL,               -- the sheet
  edition_id TEXT,                         -- as it was published, when it was
  piece TEXT NOT NULL,                     -- empty for the main one
  class_id TEXT,                           -- the hour it was done in, when that is known
  day TEXT NOT NULL,                       -- when it was done
  text TEXT NOT NULL,                      -- as it was typed, private words included
  account_id TEXT NOT NULL,
  typed_at BIGINT NOT NULL,
  seq BIGINT NOT NULL,                     -- of the change that brought it
  withdrawn_at BIGINT,                     -- when they took it back; it stays, out of every list
  reading TEXT,                            -- what it was read as, in JSON
  read_by TEXT NOT NULL,                   -- the versions of what read it
  PRIMARY KEY (gym_id, id),
  FOREIGN KEY (gym_id, class_id) references classes (gym_id, id),
  FOREIGN KEY (gym_id, document_id) references documents (gym_id, id),
  FOREIGN KEY (gym_id, edition_id) references editions (gym_id, id),
  FOREIGN KEY (gym_id, person_id) references people (gym_id, id) ON DELETE CASCADE
);
CREATE INDEX attempts_document ON attempts (gym_id, document_id, day, seq);
CREATE INDEX attempts_person ON attempts (gym_id, person_id, day, seq);
CREATE INDEX attempts_scorers ON attempts (gym_id, document_id, person_id, day, seq, withdrawn_at);
CREATE INDEX attempts_seq ON attempts (gym_id, seq);

-- A version that a coach set by hand.
CREATE TABLE overrides (
  gym_id TEXT NOT NULL,
  document_id TEXT NOT NULL,
  piece TEXT NOT NULL,                     -- the name of the piece in the sheet
  person_id TEXT NOT NULL,
  work TEXT NOT NULL,                      -- in JSON
  account_id TEXT NOT NULL,
  at BIGINT NOT NULL,
  PRIMARY KEY (gym_id, document_id, piece, person_id),
  FOREIGN KEY (gym_id, document_id) references documents (gym_id, id) ON DELETE CASCADE,
  FOREIGN KEY (gym_id, person_id) references people (gym_id, id) ON DELETE CASCADE
);

-- What was learnt of a person, and from how much: it can always be learnt again.
CREATE TABLE abilities (
  gym_id TEXT NOT NULL,
  person_id TEXT NOT NULL,
  learnt TEXT NOT NULL,                    -- in JSON
  seq BIGINT NOT NULL,                     -- of the last change it rests on
  model TEXT NOT NULL,                     -- the version of what learnt it
  at BIGINT NOT NULL,
  shift TEXT NOT NULL DEFAULT '',          -- How the others of the gym moved what was believed of somebody, in JSON
  PRIMARY KEY (gym_id, person_id),
  FOREIGN KEY (gym_id, person_id) references people (gym_id, id) ON DELETE CASCADE
);

-- What people said under a day, and answers to it.
CREATE TABLE notes (
  gym_id TEXT NOT NULL,
  id TEXT NOT NULL,
  document_id TEXT NOT NULL,
  person_id TEXT NOT NULL,                 -- whose it is; an answer is theirs who asked
  answers TEXT NOT NULL,                   -- the id of another note, empty for none
  text TEXT NOT NULL,
  private BIGINT NOT NULL,                 -- 1 for the person and coaches alone
  account_id TEXT NOT NULL,
  at BIGINT NOT NULL,
  PRIMARY KEY (gym_id, id),
  FOREIGN KEY (gym_id, document_id) references documents (gym_id, id) ON DELETE CASCADE,
  FOREIGN KEY (gym_id, person_id) references people (gym_id, id) ON DELETE CASCADE
);
CREATE INDEX notes_document ON notes (gym_id, document_id, at);

-- Who may sign in, and what they may do.
CREATE TABLE accounts (
  gym_id TEXT NOT NULL,
  id TEXT NOT NULL,
  person_id TEXT,                          -- whose it is, when they train
  name TEXT NOT NULL,
  role TEXT NOT NULL,                      -- owner, coach, member or screen
  password TEXT NOT NULL,                  -- its argon2id form, empty for none
  made_at BIGINT NOT NULL,
  closed_at BIGINT,
  PRIMARY KEY (gym_id, id),
  FOREIGN KEY (gym_id) references gyms (id) ON DELETE CASCADE,
  FOREIGN KEY (gym_id, person_id) references people (gym_id, id) ON DELETE CASCADE
);

-- Invitations and sign-ins are known by a hash: whoever reads the database cannot use
-- them.
CREATE TABLE invitations (
  hash TEXT NOT NULL,                      -- of the secret in the link
  gym_id TEXT NOT NULL,
  person_id TEXT,
  role TEXT NOT NULL,
  account_id TEXT NOT NULL,                -- who invited
  until BIGINT NOT NULL,
  used_at BIGINT,
  PRIMARY KEY (hash),
  FOREIGN KEY (gym_id) references gyms (id) ON DELETE CASCADE,
  FOREIGN KEY (gym_id, person_id) references people (gym_id, id) ON DELETE CASCADE
);

-- A device on which somebody is signed in.
CREATE TABLE signins (
  hash TEXT NOT NULL,                      -- of the secret that the device holds
  gym_id TEXT NOT NULL,
  account_id TEXT NOT NULL,
  device TEXT NOT NULL,                    -- as it names itself
  made_at BIGINT NOT NULL,
  seen_at BIGINT NOT NULL,
  until BIGINT NOT NULL,
  PRIMARY KEY (hash),
  FOREIGN KEY (gym_id, account_id) references accounts (gym_id, id) ON DELETE CASCADE
);
CREATE INDEX signins_account ON signins (gym_id, account_id);

-- Keys that devices sign in with.
CREATE TABLE passkeys (
  id TEXT NOT NULL,                        -- of the credential
  gym_id TEXT NOT NULL,
  account_id TEXT NOT NULL,
  credential TEXT NOT NULL,                -- in JSON, as the library that checks it keeps it
  made_at BIGINT NOT NULL,
  PRIMARY KEY (id),
  FOREIGN KEY (gym_id, account_id) references accounts (gym_id, id) ON DELETE CASCADE
);
CREATE INDEX passkeys_account ON passkeys (gym_id, account_id);

-- A piece as scores of it were resolved, with those before it on the same clock: the same
-- for all who did it.
CREATE TABLE pieces (
  gym_id TEXT NOT NULL,
  id TEXT NOT NULL,                        -- a digest of it
  piece TEXT NOT NULL,                     -- in JSON
  PRIMARY KEY (gym_id, id),
  FOREIGN KEY (gym_id) references gyms (id) ON DELETE CASCADE
);

-- What was done by each reading of a score, in their order: as it was resolved when the
-- score was first read, so that later programs compare with the same.
CREATE TABLE done (
  gym_id TEXT NOT NULL,
  attempt_id TEXT NOT NULL,
  n BIGINT NOT NULL,                       -- of the reading, from 1
  piece_id TEXT NOT NULL,
  done TEXT NOT NULL,                      -- in JSON, without the piece
  PRIMARY KEY (gym_id, attempt_id, n),
  FOREIGN KEY (gym_id, attempt_id) references attempts (gym_id, id) ON DELETE CASCADE,
  FOREIGN KEY (gym_id, piece_id) references pieces (gym_id, id)
);

-- Learning from all scores of a gym: how far it is, and what came of it the last time.
CREATE TABLE learning (
  gym_id TEXT NOT NULL,
  percent BIGINT NOT NULL,                 -- of what is under way, 100 when nothing is
  run TEXT NOT NULL,                       -- of the program that is at it, or was last
  began_at BIGINT NOT NULL,                -- the last time
  touched_at BIGINT NOT NULL,              -- when it last got further
  done_at BIGINT,                          -- the last time it came to its end
  seq BIGINT NOT NULL,                     -- of the last change that it rests on
  model TEXT NOT NULL,
  shift TEXT NOT NULL,                     -- of who comes new, in JSON
  PRIMARY KEY (gym_id),
  FOREIGN KEY (gym_id) references gyms (id) ON DELETE CASCADE
);

-- An emulator for each structure of piece. They can always be made again.
CREATE TABLE emulators (
  gym_id TEXT NOT NULL,
  structure TEXT NOT NULL,
  model TEXT NOT NULL,
  kept TEXT NOT NULL,                      -- in base 64
  PRIMARY KEY (gym_id, structure),
  FOREIGN KEY (gym_id) references gyms (id) ON DELETE CASCADE
);

-- What was known of somebody before something later was learnt, while a published day
-- rests on it.
CREATE TABLE abilities_before (
  gym_id TEXT NOT NULL,
  person_id TEXT NOT NULL,
  until BIGINT NOT NULL,                   -- the change that brought the later
  learnt TEXT NOT NULL,                    -- in JSON, empty for nothing
  model TEXT NOT NULL,                     -- the version of what learnt it
  PRIMARY KEY (gym_id, person_id, until),
  FOREIGN KEY (gym_id, person_id) references people (gym_id, id) ON DELETE CASCADE
);
