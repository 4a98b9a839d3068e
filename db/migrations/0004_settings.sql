-- One entry of kind 'settings'; its versions are the earlier settings. tools null: all tools are at hand.
CREATE TABLE settings (
  seq INTEGER PRIMARY KEY REFERENCES entry (seq),
  currency TEXT NOT NULL,
  labour_rate_minor INTEGER NOT NULL,
  tools TEXT CHECK (tools IS NULL OR json_type(tools) = 'array'),
  units TEXT NOT NULL CHECK (json_type(units) = 'object'),
  locale TEXT NOT NULL
) STRICT;

CREATE TRIGGER settings_kept_update BEFORE UPDATE ON settings BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
CREATE TRIGGER settings_kept_delete BEFORE DELETE ON settings BEGIN SELECT RAISE(ABORT, 'entries are kept: add a version instead'); END;
