-- Who may sign in, with what, and who is signed in. Keys and tokens are stored as SHA-256 only. Times are milliseconds.
CREATE TABLE people (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  -- Words with a space before, between and after them: ' staff editor '.
  roles TEXT NOT NULL,
  created_at INTEGER NOT NULL,
  revoked_at INTEGER
);

CREATE TABLE keys (
  hash TEXT PRIMARY KEY,
  person TEXT NOT NULL REFERENCES people (id),
  -- What the key opens: 'desk' signs in; 'invitation' lets a device be registered.
  purpose TEXT NOT NULL,
  single_use INTEGER NOT NULL,
  created_at INTEGER NOT NULL,
  expires_at INTEGER,
  used_at INTEGER,
  revoked_at INTEGER
);

CREATE TABLE sessions (
  hash TEXT PRIMARY KEY,
  person TEXT NOT NULL REFERENCES people (id),
  -- How the person proved who they are: 'key' or 'passkey'.
  proof TEXT NOT NULL,
  created_at INTEGER NOT NULL,
  seen_at INTEGER NOT NULL,
  -- Longest time between two requests, and the end whatever happens.
  idle INTEGER NOT NULL,
  expires_at INTEGER NOT NULL
);

CREATE INDEX keys_person ON keys (person);
CREATE INDEX sessions_person ON sessions (person);
