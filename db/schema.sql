-- Generated from db/migrations: the schema as it is today. FUELHISTORY_WRITE=1 dotnet test --filter Schema_file rewrites it.
CREATE TABLE migration (
  number INTEGER PRIMARY KEY,
  name TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  applied_at TEXT NOT NULL
) STRICT;
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
, make TEXT, model TEXT, options TEXT CHECK (options IS NULL OR json_type(options) = 'object')) STRICT;
CREATE TRIGGER entry_kept_update BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER entry_kept_delete BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER vehicle_kept_update BEFORE UPDATE ON vehicle BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER vehicle_kept_delete BEFORE DELETE ON vehicle BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TABLE odometer (
  seq INTEGER PRIMARY KEY REFERENCES entry (seq),
  date TEXT NOT NULL,
  reading REAL NOT NULL,
  reading_unit TEXT NOT NULL,
  new_clock REAL,
  new_clock_unit TEXT,
  note TEXT
) STRICT;
CREATE TABLE lay_up (
  seq INTEGER PRIMARY KEY REFERENCES entry (seq),
  from_date TEXT NOT NULL,
  until_date TEXT,
  note TEXT
) STRICT;
CREATE TABLE incident (
  seq INTEGER PRIMARY KEY REFERENCES entry (seq),
  date TEXT NOT NULL,
  incident_kind TEXT NOT NULL,
  note TEXT
) STRICT;
CREATE TABLE work (
  seq INTEGER PRIMARY KEY REFERENCES entry (seq),
  date TEXT NOT NULL,
  action TEXT NOT NULL,
  components TEXT NOT NULL CHECK (json_type(components) = 'array'),
  known TEXT NOT NULL,
  at TEXT,
  at_offset INTEGER,
  quality TEXT NOT NULL,
  part_age_years REAL,
  odometer REAL,
  odometer_unit TEXT,
  maker TEXT,
  part_number TEXT,
  cost_minor INTEGER,
  cost_currency TEXT,
  reason TEXT NOT NULL,
  note TEXT
, outcome TEXT CHECK (outcome IS NULL OR outcome IN ('good', 'bad')), mode TEXT, how TEXT CHECK (how IS NULL OR how IN ('seen', 'tested')), sure INTEGER NOT NULL DEFAULT 1 CHECK (sure IN (0, 1))) STRICT;
CREATE TRIGGER odometer_kept_update BEFORE UPDATE ON odometer BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER odometer_kept_delete BEFORE DELETE ON odometer BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER lay_up_kept_update BEFORE UPDATE ON lay_up BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER lay_up_kept_delete BEFORE DELETE ON lay_up BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER incident_kept_update BEFORE UPDATE ON incident BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER incident_kept_delete BEFORE DELETE ON incident BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER work_kept_update BEFORE UPDATE ON work BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER work_kept_delete BEFORE DELETE ON work BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
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
, trust TEXT CHECK (trust IS NULL OR trust IN ('published', 'excerpt', 'common-practice', 'memory')), library_id TEXT CHECK ((library_id IS NULL) = (trust IS NULL)), printed TEXT, reserve TEXT) STRICT;
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
, closed_model TEXT, closed_revision TEXT CHECK ((closed_model IS NULL) = (closed_revision IS NULL)), main_event TEXT, onset TEXT) STRICT;
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
, how TEXT CHECK (how IS NULL OR how IN ('seen', 'tested')), told_when TEXT CHECK (told_when IS NULL OR json_type(told_when) = 'array'), told_then TEXT CHECK (told_then IS NULL OR json_type(told_then) = 'array'), trial TEXT CHECK (trial IS NULL OR json_type(trial) = 'object'), own TEXT CHECK (own IS NULL OR json_type(own) = 'object')) STRICT;
CREATE INDEX finding_by_complaint ON finding (complaint_id);
CREATE TRIGGER car_limit_kept_update BEFORE UPDATE ON car_limit BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER car_limit_kept_delete BEFORE DELETE ON car_limit BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER instrument_kept_update BEFORE UPDATE ON instrument BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER instrument_kept_delete BEFORE DELETE ON instrument BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER complaint_kept_update BEFORE UPDATE ON complaint BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER complaint_kept_delete BEFORE DELETE ON complaint BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER finding_kept_update BEFORE UPDATE ON finding BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER finding_kept_delete BEFORE DELETE ON finding BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TABLE settings (
  seq INTEGER PRIMARY KEY REFERENCES entry (seq),
  currency TEXT NOT NULL,
  labour_rate_minor INTEGER NOT NULL,
  tools TEXT CHECK (tools IS NULL OR json_type(tools) = 'array'),
  units TEXT NOT NULL CHECK (json_type(units) = 'object'),
  locale TEXT NOT NULL
, figures TEXT NOT NULL DEFAULT 'words' CHECK (figures IN ('words', 'percent', 'odds'))) STRICT;
CREATE TRIGGER settings_kept_update BEFORE UPDATE ON settings BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER settings_kept_delete BEFORE DELETE ON settings BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
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
CREATE TABLE fault_model (
  seq INTEGER PRIMARY KEY,
  model_id TEXT NOT NULL,
  revision TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  packed BLOB NOT NULL,
  in_use_from TEXT NOT NULL
) STRICT;
CREATE INDEX fault_model_by_id ON fault_model (model_id, seq);
CREATE TRIGGER fault_model_kept_update BEFORE UPDATE ON fault_model BEGIN SELECT RAISE(ABORT, 'fault models of then are kept'); END;
CREATE TRIGGER fault_model_kept_delete BEFORE DELETE ON fault_model BEGIN SELECT RAISE(ABORT, 'fault models of then are kept'); END;
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
