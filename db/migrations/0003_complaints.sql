-- What this car should read, what it is read with, what is wrong, and what was found.
CREATE TABLE car_limit (
  seq INTEGER PRIMARY KEY REFERENCES entry (seq),
  check_id TEXT NOT NULL,
  unit TEXT NOT NULL,
  source TEXT NOT NULL,
  low REAL,
  high REAL,
  hold_from REAL,
  points TEXT CHECK (points IS NULL OR json_type(points) = 'array'),
  note TEXT
) STRICT;

CREATE TABLE instrument (
  seq INTEGER PRIMARY KEY REFERENCES entry (seq),
  name TEXT NOT NULL,
  quantity TEXT NOT NULL,
  unit TEXT NOT NULL,
  span REAL,
  class_percent REAL,
  resolution REAL,
  percent_of_reading REAL,
  digits REAL,
  last_checked TEXT,
  note TEXT
) STRICT;

-- A closing is a further version of the complaint; closed_at is null while it is open.
CREATE TABLE complaint (
  seq INTEGER PRIMARY KEY REFERENCES entry (seq),
  title TEXT NOT NULL,
  since TEXT NOT NULL,
  course TEXT NOT NULL CHECK (course IN ('constant', 'intermittent')),
  always INTEGER NOT NULL CHECK (always IN (0, 1)),
  opened_at TEXT NOT NULL,
  opened_offset INTEGER NOT NULL,
  note TEXT,
  closed_at TEXT,
  closed_offset INTEGER,
  result TEXT,
  causes TEXT CHECK (causes IS NULL OR json_type(causes) = 'array'),
  proved_by TEXT CHECK (proved_by IS NULL OR json_type(proved_by) = 'array'),
  closing_note TEXT
) STRICT;

-- confirmed: an implausible value was said to be right all the same.
CREATE TABLE finding (
  seq INTEGER PRIMARY KEY REFERENCES entry (seq),
  complaint_id TEXT,
  at TEXT NOT NULL,
  at_offset INTEGER NOT NULL,
  symptom TEXT,
  check_id TEXT,
  component TEXT,
  mode TEXT,
  outcome TEXT,
  sure INTEGER NOT NULL CHECK (sure IN (0, 1)),
  reading REAL,
  reading_unit TEXT,
  points TEXT CHECK (points IS NULL OR json_type(points) = 'array'),
  instrument TEXT,
  conditions TEXT CHECK (conditions IS NULL OR json_type(conditions) = 'object'),
  session TEXT,
  showed TEXT NOT NULL,
  confirmed INTEGER NOT NULL CHECK (confirmed IN (0, 1)),
  note TEXT
) STRICT;
CREATE INDEX finding_by_complaint ON finding (complaint_id);

CREATE TRIGGER car_limit_kept_update BEFORE UPDATE ON car_limit BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER car_limit_kept_delete BEFORE DELETE ON car_limit BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER instrument_kept_update BEFORE UPDATE ON instrument BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER instrument_kept_delete BEFORE DELETE ON instrument BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER complaint_kept_update BEFORE UPDATE ON complaint BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER complaint_kept_delete BEFORE DELETE ON complaint BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER finding_kept_update BEFORE UPDATE ON finding BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER finding_kept_delete BEFORE DELETE ON finding BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
