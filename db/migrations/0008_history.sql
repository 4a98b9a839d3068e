-- A part was looked at or tested; null is looked at, as all findings of parts were before.
ALTER TABLE finding ADD COLUMN how TEXT CHECK (how IS NULL OR how IN ('seen', 'tested'));
-- What an inspection found; null where none was told. Dates keep their column: their text may now be a span ("about 1995", "unknown").
ALTER TABLE work ADD COLUMN outcome TEXT CHECK (outcome IS NULL OR outcome IN ('good', 'bad'));
ALTER TABLE work ADD COLUMN mode TEXT;
ALTER TABLE work ADD COLUMN how TEXT CHECK (how IS NULL OR how IN ('seen', 'tested'));
ALTER TABLE work ADD COLUMN sure INTEGER NOT NULL DEFAULT 1 CHECK (sure IN (0, 1));
