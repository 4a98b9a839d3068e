-- The column symptom holds the id of an event, or of one of its cells, as before; facets narrow it. Told in an earlier revision, a finding means what it meant.
ALTER TABLE finding ADD COLUMN told_when TEXT CHECK (told_when IS NULL OR json_type(told_when) = 'array');
ALTER TABLE finding ADD COLUMN told_then TEXT CHECK (told_then IS NULL OR json_type(told_then) = 'array');
-- something changed for a moment, and a judgement of one's own
ALTER TABLE finding ADD COLUMN trial TEXT CHECK (trial IS NULL OR json_type(trial) = 'object');
ALTER TABLE finding ADD COLUMN own TEXT CHECK (own IS NULL OR json_type(own) = 'object');
-- the event that is the main trouble, and how the trouble came about
ALTER TABLE complaint ADD COLUMN main_event TEXT;
ALTER TABLE complaint ADD COLUMN onset TEXT;
