-- how chances are said: in words, in percent or as odds
ALTER TABLE settings ADD COLUMN figures TEXT NOT NULL DEFAULT 'words' CHECK (figures IN ('words', 'percent', 'odds'));
