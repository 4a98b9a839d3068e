-- Fitted options of a vehicle (option id to choice id; null: none is known), and proposed checks and trials that were set aside.
ALTER TABLE vehicle ADD COLUMN options TEXT CHECK (options IS NULL OR json_type(options) = 'object');

CREATE TABLE set_aside (
  seq INTEGER PRIMARY KEY REFERENCES entry (seq),
  complaint_id TEXT NOT NULL,
  check_id TEXT,
  trial_id TEXT CHECK ((trial_id IS NULL) <> (check_id IS NULL)),
  reason TEXT NOT NULL CHECK (reason IN ('not-fitted', 'no-tool', 'not-today')),
  until_date TEXT CHECK ((until_date IS NULL) = (reason <> 'not-today')),
  note TEXT
) STRICT;
CREATE INDEX set_aside_by_complaint ON set_aside (complaint_id);

CREATE TRIGGER set_aside_kept_update BEFORE UPDATE ON set_aside BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER set_aside_kept_delete BEFORE DELETE ON set_aside BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
