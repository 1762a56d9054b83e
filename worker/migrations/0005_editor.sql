-- What editions were made from. A text is stored once, under its SHA-256, however many editions hold it.
CREATE TABLE texts (
  hash TEXT PRIMARY KEY,
  text TEXT NOT NULL
);

CREATE TABLE edition_files (
  edition INTEGER NOT NULL REFERENCES editions (number),
  path TEXT NOT NULL,
  hash TEXT NOT NULL REFERENCES texts (hash),
  PRIMARY KEY (edition, path)
) WITHOUT ROWID;

-- The rest of a body that is too large for one row; `editions.body` then holds nothing.
CREATE TABLE edition_parts (
  edition INTEGER NOT NULL REFERENCES editions (number),
  part INTEGER NOT NULL,
  body TEXT NOT NULL,
  PRIMARY KEY (edition, part)
) WITHOUT ROWID;

-- A draft is an edition's files with changes laid over them. Times are milliseconds; people are their ids.
CREATE TABLE drafts (
  id TEXT PRIMARY KEY,
  title TEXT NOT NULL,
  base INTEGER NOT NULL REFERENCES editions (number),
  -- Counts every change of the draft, so that nobody publishes what changed under his hands.
  revision INTEGER NOT NULL DEFAULT 0,
  made_by TEXT NOT NULL,
  made_at INTEGER NOT NULL,
  changed_at INTEGER NOT NULL,
  closed_at INTEGER,
  published_as INTEGER
);

CREATE TABLE draft_files (
  draft TEXT NOT NULL REFERENCES drafts (id),
  path TEXT NOT NULL,
  -- NULL: the file is taken out.
  text TEXT,
  -- Counts the saves of this file; one that was never saved here is at 0.
  version INTEGER NOT NULL,
  saved_by TEXT NOT NULL,
  saved_at INTEGER NOT NULL,
  PRIMARY KEY (draft, path)
) WITHOUT ROWID;

-- Every save that was taken, as what it cut out and put in. Any earlier text can be made from these.
CREATE TABLE saves (
  draft TEXT NOT NULL,
  path TEXT NOT NULL,
  version INTEGER NOT NULL,
  token TEXT NOT NULL UNIQUE,
  start INTEGER NOT NULL,
  removed TEXT NOT NULL,
  added TEXT NOT NULL,
  -- Whether the file was there before and after.
  was INTEGER NOT NULL,
  "is" INTEGER NOT NULL,
  who TEXT NOT NULL,
  at INTEGER NOT NULL,
  PRIMARY KEY (draft, path, version)
);

-- Each move of the live pointer.
CREATE TABLE publications (
  id INTEGER PRIMARY KEY,
  token TEXT NOT NULL UNIQUE,
  -- 'publish' or 'take-back'.
  kind TEXT NOT NULL,
  edition INTEGER NOT NULL,
  before INTEGER NOT NULL,
  draft TEXT,
  who TEXT NOT NULL,
  at INTEGER NOT NULL,
  note TEXT NOT NULL,
  -- What the change does, and how it was checked, as JSON.
  summary TEXT NOT NULL
);

CREATE TABLE history (
  id INTEGER PRIMARY KEY,
  at INTEGER NOT NULL,
  who TEXT NOT NULL,
  -- As it was then: people are renamed and leave.
  who_name TEXT NOT NULL,
  what TEXT NOT NULL,
  subject TEXT NOT NULL,
  why TEXT NOT NULL
);
CREATE INDEX history_subject ON history (subject);

CREATE TRIGGER texts_stay BEFORE UPDATE ON texts BEGIN SELECT RAISE(ABORT, 'texts are never changed'); END;
CREATE TRIGGER saves_stay BEFORE UPDATE ON saves BEGIN SELECT RAISE(ABORT, 'saves are never changed'); END;
CREATE TRIGGER saves_last BEFORE DELETE ON saves BEGIN SELECT RAISE(ABORT, 'saves are never deleted'); END;
CREATE TRIGGER publications_stay BEFORE UPDATE ON publications BEGIN SELECT RAISE(ABORT, 'publications are never changed'); END;
CREATE TRIGGER publications_last BEFORE DELETE ON publications BEGIN SELECT RAISE(ABORT, 'publications are never deleted'); END;
CREATE TRIGGER history_stays BEFORE UPDATE ON history BEGIN SELECT RAISE(ABORT, 'history is never changed'); END;
CREATE TRIGGER history_lasts BEFORE DELETE ON history BEGIN SELECT RAISE(ABORT, 'history is never deleted'); END;

-- What editors sign in with. Only public keys are held here.
CREATE TABLE passkeys (
  id TEXT PRIMARY KEY,
  person TEXT NOT NULL REFERENCES people (id),
  public_key TEXT NOT NULL,
  counter INTEGER NOT NULL,
  transports TEXT NOT NULL,
  made_at INTEGER NOT NULL,
  used_at INTEGER,
  revoked_at INTEGER
);
CREATE INDEX passkeys_person ON passkeys (person);

-- Each is good for one try.
CREATE TABLE challenges (
  challenge TEXT PRIMARY KEY,
  -- The person who registers a device; empty when someone signs in.
  person TEXT NOT NULL,
  expires_at INTEGER NOT NULL
);

-- Addresses under which a draft can be looked at. The token itself is stored nowhere.
CREATE TABLE previews (
  hash TEXT PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  draft TEXT NOT NULL REFERENCES drafts (id),
  made_by TEXT NOT NULL,
  made_at INTEGER NOT NULL,
  expires_at INTEGER NOT NULL
);

-- Conversations that a draft's editors want to end as they say, with the reason.
CREATE TABLE kept_cases (
  id TEXT PRIMARY KEY,
  query TEXT NOT NULL,
  standing TEXT NOT NULL,
  leader TEXT,
  reason TEXT NOT NULL,
  made_by TEXT NOT NULL,
  made_at INTEGER NOT NULL,
  dropped_at INTEGER
);
