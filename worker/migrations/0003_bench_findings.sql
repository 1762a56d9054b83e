-- What a person at the bench saw in a sample, beside what the check had said. Nothing in it says who brought or who saw it.
CREATE TABLE bench_findings (
  -- Made with the form, so that a form sent twice is one finding.
  id TEXT PRIMARY KEY,
  -- The finding that this one corrects. Each can be corrected once; a correction can be corrected again.
  corrects TEXT UNIQUE REFERENCES bench_findings (id),
  edition INTEGER NOT NULL,
  code TEXT NOT NULL,
  -- What the check had said: standing, leading condition (null when nothing spoke for any), and lead in decibans.
  standing TEXT NOT NULL,
  condition TEXT,
  lead INTEGER NOT NULL,
  -- What the bench says; 'withdrawn' takes a finding out that was recorded by mistake.
  result TEXT NOT NULL CHECK (result IN ('confirmed', 'not-detected', 'something-else', 'withdrawn')),
  -- For 'something-else': a condition; null when it is none of ours.
  bench_condition TEXT,
  branch TEXT NOT NULL,
  day TEXT NOT NULL
);

CREATE INDEX bench_findings_code ON bench_findings (code);

CREATE TRIGGER bench_findings_stay BEFORE UPDATE ON bench_findings
BEGIN
  SELECT RAISE(ABORT, 'Bench findings are never changed; a correction is a new row.');
END;

CREATE TRIGGER bench_findings_last BEFORE DELETE ON bench_findings
BEGIN
  SELECT RAISE(ABORT, 'Bench findings are never deleted; a correction is a new row.');
END;

-- Without this, INSERT OR REPLACE would delete a line past the trigger above. A line that is there already stays as it is.
CREATE TRIGGER bench_findings_once BEFORE INSERT ON bench_findings
WHEN EXISTS (
  SELECT 1 FROM bench_findings WHERE id = NEW.id OR corrects = NEW.corrects OR rowid = NEW.rowid
)
BEGIN
  SELECT RAISE(IGNORE);
END;
