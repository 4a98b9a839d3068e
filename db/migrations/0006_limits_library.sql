-- where a car's limit comes from: null trust is one's own entry; car_limit rows of before stay that
ALTER TABLE car_limit ADD COLUMN trust TEXT CHECK (trust IS NULL OR trust IN ('published', 'excerpt', 'common-practice', 'memory'));
ALTER TABLE car_limit ADD COLUMN library_id TEXT CHECK ((library_id IS NULL) = (trust IS NULL));
ALTER TABLE car_limit ADD COLUMN printed TEXT;
-- why it may differ from this car's as a typical limit may; null where it may not
ALTER TABLE car_limit ADD COLUMN reserve TEXT;
-- to look for limits by car
ALTER TABLE vehicle ADD COLUMN make TEXT;
ALTER TABLE vehicle ADD COLUMN model TEXT;
