-- How often, by day and branch; never who. One row for each thing that is counted.
CREATE TABLE counts (
  day TEXT NOT NULL,
  -- Empty where no branch was named.
  branch TEXT NOT NULL,
  -- 'page' or 'element': the pages of the server, or the check inside a shop's page.
  source TEXT NOT NULL,
  -- 'started', 'finished', 'verdict', 'shown', 'answered' or 'unsure'.
  name TEXT NOT NULL,
  -- The question; for a verdict, its standing and condition. Else empty.
  what TEXT NOT NULL,
  count INTEGER NOT NULL,
  PRIMARY KEY (day, branch, source, name, what)
) WITHOUT ROWID;
