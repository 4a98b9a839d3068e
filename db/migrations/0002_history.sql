-- What is known of a vehicle's past. Dates are as entered: a year, a month or a day. Values are as entered, with their unit.
CREATE TABLE odometer (
  seq INTEGER PRIMARY KEY REFERENCES entry (seq),
  date TEXT NOT NULL,
  reading REAL NOT NULL,
  reading_unit TEXT NOT NULL,
  new_clock REAL,
  new_clock_unit TEXT,
  note TEXT
) STRICT;

-- until_date is null while the vehicle still stands.
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

-- Money is in whole minor units of its currency. Instants are UTC; the offset (minutes) keeps the day on the spot.
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
) STRICT;

CREATE TRIGGER odometer_kept_update BEFORE UPDATE ON odometer BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER odometer_kept_delete BEFORE DELETE ON odometer BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER lay_up_kept_update BEFORE UPDATE ON lay_up BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER lay_up_kept_delete BEFORE DELETE ON lay_up BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER incident_kept_update BEFORE UPDATE ON incident BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER incident_kept_delete BEFORE DELETE ON incident BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER work_kept_update BEFORE UPDATE ON work BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER work_kept_delete BEFORE DELETE ON work BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
