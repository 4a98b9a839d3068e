-- Every text of a fault model that this record was ever answered with, since when: an answer of then can be had again. packed: gzip.
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
-- what a complaint was closed under; null where it is open, or was closed before this was noted
ALTER TABLE complaint ADD COLUMN closed_model TEXT;
ALTER TABLE complaint ADD COLUMN closed_revision TEXT CHECK ((closed_model IS NULL) = (closed_revision IS NULL));
