-- One row per version of anything that was ever entered. The newest version of an entry is in force unless it has a
-- void_reason. Nothing is changed or deleted: a correction is a further version. content_seq names the row of the
-- kind's own table that holds the content: its own seq, or, for a void, that of the version that was voided.
-- The highest seq of a vehicle is its revision; entries of no vehicle (instruments, settings) have vehicle_id null.
CREATE TABLE entry (
  seq INTEGER PRIMARY KEY,
  entry_id TEXT NOT NULL,
  version INTEGER NOT NULL CHECK (version >= 1),
  kind TEXT NOT NULL,
  vehicle_id TEXT,
  recorded_at TEXT NOT NULL,
  void_reason TEXT,
  content_seq INTEGER NOT NULL REFERENCES entry (seq),
  UNIQUE (entry_id, version)
) STRICT;
CREATE INDEX entry_by_vehicle ON entry (vehicle_id, kind, entry_id, version);
CREATE INDEX entry_revision ON entry (vehicle_id, seq);

-- archived_because: why the vehicle is no longer kept up; null while it is.
CREATE TABLE vehicle (
  seq INTEGER PRIMARY KEY REFERENCES entry (seq),
  name TEXT NOT NULL,
  year TEXT NOT NULL,
  system TEXT NOT NULL,
  odometer_unit TEXT NOT NULL CHECK (odometer_unit IN ('km', 'mi')),
  engine TEXT,
  in_use_since TEXT,
  record_complete INTEGER NOT NULL CHECK (record_complete IN (0, 1)),
  note TEXT,
  archived_because TEXT
) STRICT;

CREATE TRIGGER entry_kept_update BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER entry_kept_delete BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER vehicle_kept_update BEFORE UPDATE ON vehicle BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER vehicle_kept_delete BEFORE DELETE ON vehicle BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
