-- What a finding says of an event beyond its id (which stays in symptom), something tried for a moment, a judgement of one's own.
ALTER TABLE finding ADD COLUMN event_when TEXT CHECK (event_when IS NULL OR json_type(event_when) = 'array');
ALTER TABLE finding ADD COLUMN event_then TEXT CHECK (event_then IS NULL OR json_type(event_then) = 'array');
ALTER TABLE finding ADD COLUMN trial TEXT CHECK (trial IS NULL OR json_type(trial) = 'object');
ALTER TABLE finding ADD COLUMN own TEXT CHECK (own IS NULL OR json_type(own) = 'object');
-- the event that is the main trouble, and how it came about; null where that was not told
ALTER TABLE complaint ADD COLUMN main TEXT;
ALTER TABLE complaint ADD COLUMN onset TEXT;
-- how figures are said; null in settings of before: in words
ALTER TABLE settings ADD COLUMN figures TEXT CHECK (figures IS NULL OR figures IN ('words', 'percent', 'odds'));
