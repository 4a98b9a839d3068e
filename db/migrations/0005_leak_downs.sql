-- A pressure that is watched after the stop. finding_id is null while it runs; afterwards it names the finding that it became.
CREATE TABLE leak_down (
  seq INTEGER PRIMARY KEY REFERENCES entry (seq),
  complaint_id TEXT NOT NULL,
  check_id TEXT NOT NULL,
  stopped_at TEXT NOT NULL,
  stopped_offset INTEGER NOT NULL,
  unit TEXT NOT NULL,
  instrument TEXT,
  ambient REAL,
  ambient_unit TEXT,
  fuel REAL,
  fuel_unit TEXT,
  session TEXT,
  showed TEXT NOT NULL,
  note TEXT,
  finding_id TEXT
) STRICT;
CREATE INDEX leak_down_by_complaint ON leak_down (complaint_id);

-- The file of a logger as it was sent, packed (gzip) and cut into parts. form: how it was read.
CREATE TABLE leak_import (
  seq INTEGER PRIMARY KEY,
  leak_down_id TEXT NOT NULL UNIQUE,
  recorded_at TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  bytes INTEGER NOT NULL,
  form TEXT NOT NULL CHECK (json_type(form) = 'object'),
  samples INTEGER NOT NULL,
  before_stop INTEGER NOT NULL
) STRICT;

CREATE TABLE leak_import_part (
  import_seq INTEGER NOT NULL REFERENCES leak_import (seq),
  place INTEGER NOT NULL,
  packed BLOB NOT NULL,
  PRIMARY KEY (import_seq, place)
) STRICT;

-- One look at the gauge, or a stretch of a logger's samples: their mean, lowest and highest. Minutes count from the stop.
CREATE TABLE leak_reading (
  seq INTEGER PRIMARY KEY,
  leak_down_id TEXT NOT NULL,
  reading_id TEXT NOT NULL,
  minutes REAL NOT NULL CHECK (minutes >= 0),
  pressure REAL NOT NULL,
  unit TEXT NOT NULL,
  lowest REAL,
  highest REAL,
  samples INTEGER NOT NULL CHECK (samples >= 1),
  confirmed INTEGER NOT NULL CHECK (confirmed IN (0, 1)),
  import_seq INTEGER REFERENCES leak_import (seq),
  recorded_at TEXT NOT NULL,
  UNIQUE (leak_down_id, reading_id)
) STRICT;

CREATE TABLE leak_reading_taken_back (
  reading_seq INTEGER PRIMARY KEY REFERENCES leak_reading (seq),
  recorded_at TEXT NOT NULL
) STRICT;

CREATE TRIGGER leak_down_kept_update BEFORE UPDATE ON leak_down BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER leak_down_kept_delete BEFORE DELETE ON leak_down BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER leak_import_kept_update BEFORE UPDATE ON leak_import BEGIN SELECT RAISE(ABORT, 'files are kept: begin another leak-down instead'); END;
CREATE TRIGGER leak_import_kept_delete BEFORE DELETE ON leak_import BEGIN SELECT RAISE(ABORT, 'files are kept: begin another leak-down instead'); END;
CREATE TRIGGER leak_import_part_kept_update BEFORE UPDATE ON leak_import_part BEGIN SELECT RAISE(ABORT, 'files are kept: begin another leak-down instead'); END;
CREATE TRIGGER leak_import_part_kept_delete BEFORE DELETE ON leak_import_part BEGIN SELECT RAISE(ABORT, 'files are kept: begin another leak-down instead'); END;
CREATE TRIGGER leak_reading_kept_update BEFORE UPDATE ON leak_reading BEGIN SELECT RAISE(ABORT, 'readings are kept: take one back instead'); END;
CREATE TRIGGER leak_reading_kept_delete BEFORE DELETE ON leak_reading BEGIN SELECT RAISE(ABORT, 'readings are kept: take one back instead'); END;
CREATE TRIGGER leak_reading_taken_back_kept_update BEFORE UPDATE ON leak_reading_taken_back BEGIN SELECT RAISE(ABORT, 'readings taken back are kept so'); END;
CREATE TRIGGER leak_reading_taken_back_kept_delete BEFORE DELETE ON leak_reading_taken_back BEGIN SELECT RAISE(ABORT, 'readings taken back are kept so'); END;
