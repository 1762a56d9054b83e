-- Editions are immutable rows; "live" is one pointer. Migrations only ever add.
CREATE TABLE editions (
  number INTEGER PRIMARY KEY,
  hash TEXT NOT NULL,
  body TEXT NOT NULL,
  note TEXT NOT NULL DEFAULT '',
  published_at TEXT NOT NULL
);

CREATE TABLE live (
  one INTEGER PRIMARY KEY CHECK (one = 1),
  number INTEGER NOT NULL REFERENCES editions (number)
);
