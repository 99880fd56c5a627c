-- 002: batches with their steps and events, keys of the bench.
--
-- A record only grows: triggers refuse what would change or take out a row, whoever writes, and a row that does not come next.
-- The checks before an insert are against REPLACE too, which deletes unasked. Masses are whole micrograms, moments UTC seconds,
-- utc_offset seconds of local time from it, enumerations words, by include/lyeway/batch.h, where the meaning of each column stands;
-- a number that was not taken is NULL.

-- finished_s and set_aside say what the events say (view batch_said), so that a list need not read them: 0 while it is neither.
CREATE TABLE batch (
    id         INTEGER PRIMARY KEY,
    uuid       BLOB    NOT NULL UNIQUE CHECK (length(uuid) = 16),
    number     TEXT    NOT NULL UNIQUE CHECK (number <> '' AND length(CAST(number AS BLOB)) < 32),
    name       TEXT    NOT NULL CHECK (length(CAST(name AS BLOB)) < 96),
    recipe_id  INTEGER NOT NULL,
    revision   INTEGER NOT NULL CHECK (revision BETWEEN 1 AND 1000000),
    started_s  INTEGER NOT NULL CHECK (started_s BETWEEN 0 AND 253402300799),
    utc_offset   INTEGER NOT NULL CHECK (utc_offset BETWEEN -86400 AND 86400),
    oils_ug    INTEGER NOT NULL CHECK (oils_ug BETWEEN 0 AND 1000000000000),
    finished_s INTEGER NOT NULL DEFAULT 0 CHECK (finished_s BETWEEN 0 AND 253402300799),
    set_aside  INTEGER NOT NULL DEFAULT 0 CHECK (set_aside IN (0, 1)),
    FOREIGN KEY (recipe_id, revision) REFERENCES revision (recipe_id, number)
) STRICT;

CREATE INDEX batch_newest ON batch (started_s, id);
CREATE INDEX batch_running ON batch (finished_s, started_s, id) WHERE finished_s = 0 AND set_aside = 0;

CREATE TABLE batch_vessel (
    batch_id INTEGER NOT NULL REFERENCES batch (id),
    position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 15),
    name     TEXT    NOT NULL CHECK (length(CAST(name AS BLOB)) < 96),
    empty_ug INTEGER NOT NULL CHECK (empty_ug BETWEEN 0 AND 1000000000000),
    PRIMARY KEY (batch_id, position)
) STRICT, WITHOUT ROWID;

-- What the batch was made by, as texts that can be read without this store: recipe and facts as an exchange file, the settings
-- then. Apart from the batch, so that a list does not turn over their pages. Written last: no vessel is added after it.
CREATE TABLE batch_frozen (
    batch_id INTEGER PRIMARY KEY REFERENCES batch (id),
    recipe   TEXT NOT NULL CHECK (length(CAST(recipe AS BLOB)) <= 4194304),
    bench    TEXT NOT NULL CHECK (length(CAST(bench AS BLOB)) <= 4194304)
) STRICT;

CREATE TABLE batch_step (
    batch_id   INTEGER NOT NULL REFERENCES batch (id),
    id         INTEGER NOT NULL CHECK (id BETWEEN 1 AND 768),
    kind       TEXT    NOT NULL CHECK (kind IN (
                   'lay out', 'weigh', 'disperse', 'dissolve', 'cool', 'melt', 'keep back', 'jug check', 'combine', 'emulsify',
                   'pour out', 'stays', 'colour', 'scent', 'stand', 'fill bags', 'pipe', 'pour', 'chill', 'recount', 'place',
                   'cover', 'unmould', 'cut', 'cure', 'put right', 'other')),
    place      REAL    NOT NULL CHECK (place BETWEEN -1e9 AND 1e9),
    part       TEXT    NOT NULL,
    part_index INTEGER NOT NULL,
    part_sub   INTEGER NOT NULL,
    vessel_use TEXT    NOT NULL CHECK (vessel_use IN ('none', 'lye', 'jug', 'alkali cup', 'cup', 'bag')),
    vessel     INTEGER NOT NULL CHECK (vessel BETWEEN -1 AND 15),
    target_ug  INTEGER NOT NULL CHECK (target_ug BETWEEN -1000000000000 AND 1000000000000),
    text       TEXT    NOT NULL CHECK (length(CAST(text AS BLOB)) < 96),
    PRIMARY KEY (batch_id, id),
    CHECK (CASE part WHEN 'oil' THEN part_index BETWEEN 0 AND 31
                     WHEN 'alkali' THEN part_index BETWEEN 0 AND 1
                     WHEN 'liquid' THEN part_index BETWEEN 0 AND 3
                     WHEN 'additive' THEN part_index BETWEEN 0 AND 15
                     WHEN 'fragrance' THEN part_index BETWEEN 0 AND 7
                     WHEN 'portion' THEN part_index BETWEEN -1 AND 16 -- -1: one that the recipe does not name
                     WHEN 'colourant' THEN part_index BETWEEN 0 AND 15 AND part_sub BETWEEN 0 AND 7
                     WHEN 'carrier' THEN part_index BETWEEN 0 AND 15 AND part_sub BETWEEN 0 AND 7
                     ELSE part IN ('batter', 'water') AND part_index = 0 END),
    CHECK (part_sub BETWEEN -1 AND 17)
) STRICT, WITHOUT ROWID;

CREATE TABLE batch_event (
    batch_id   INTEGER NOT NULL REFERENCES batch (id),
    id         INTEGER NOT NULL CHECK (id BETWEEN 1 AND 1000000),
    at_s       INTEGER NOT NULL CHECK (at_s BETWEEN 0 AND 253402300799),
    kind       TEXT    NOT NULL CHECK (kind IN (
                   'weighed', 'lye poured', 'jug', 'done', 'skipped', 'reopened', 'moved', 'combined', 'stage', 'timer', 'timer off',
                   'pieces', 'rejects', 'scraped back', 'left in bag', 'recounted', 'placed', 'leftover', 'going', 'splash',
                   'acknowledged', 'reason', 'note', 'problem', 'answer', 'cut', 'taken back', 'set aside', 'finished')),
    step       INTEGER,
    part       TEXT    NOT NULL,
    part_index INTEGER NOT NULL,
    part_sub   INTEGER NOT NULL,
    mass_ug    INTEGER NOT NULL CHECK (mass_ug BETWEEN -1000000000000 AND 1000000000000),
    planned_ug INTEGER NOT NULL CHECK (planned_ug BETWEEN -1000000000000 AND 1000000000000),
    reading_ug INTEGER NOT NULL CHECK (reading_ug BETWEEN -1000000000000 AND 1000000000000),
    scale      INTEGER NOT NULL CHECK (scale BETWEEN -1 AND 7),
    number_1   REAL    CHECK (number_1 BETWEEN -1e12 AND 1e12),
    number_2   REAL    CHECK (number_2 BETWEEN -1e12 AND 1e12),
    other      INTEGER CHECK (other < id),
    text       TEXT    NOT NULL CHECK (length(CAST(text AS BLOB)) < 512),
    PRIMARY KEY (batch_id, id),
    FOREIGN KEY (batch_id, step) REFERENCES batch_step (batch_id, id),
    FOREIGN KEY (batch_id, other) REFERENCES batch_event (batch_id, id),
    CHECK (CASE part WHEN 'oil' THEN part_index BETWEEN 0 AND 31
                     WHEN 'alkali' THEN part_index BETWEEN 0 AND 1
                     WHEN 'liquid' THEN part_index BETWEEN 0 AND 3
                     WHEN 'additive' THEN part_index BETWEEN 0 AND 15
                     WHEN 'fragrance' THEN part_index BETWEEN 0 AND 7
                     WHEN 'portion' THEN part_index BETWEEN -1 AND 16
                     WHEN 'colourant' THEN part_index BETWEEN 0 AND 15 AND part_sub BETWEEN 0 AND 7
                     WHEN 'carrier' THEN part_index BETWEEN 0 AND 15 AND part_sub BETWEEN 0 AND 7
                     ELSE part IN ('batter', 'water') AND part_index = 0 END),
    CHECK (part_sub BETWEEN -1 AND 17),
    -- What the state of a batch counts or looks up by; a NULL would pass for neither yes nor no.
    CHECK (CASE WHEN kind = 'weighed' THEN number_1 IS NOT NULL AND number_1 IN (1, 2)
                WHEN kind = 'moved' THEN number_1 IS NOT NULL AND number_1 BETWEEN -1e9 AND 1e9
                WHEN kind = 'stage' THEN number_1 IS NOT NULL AND number_1 IN (0, 1, 2, 3, 4, 5, 6, 7)
                WHEN kind = 'timer' THEN number_1 IS NOT NULL AND number_2 IS NOT NULL AND number_1 >= 0 AND number_2 >= 0
                WHEN kind = 'lye poured' THEN number_1 IS NOT NULL AND number_1 BETWEEN 0 AND 1
                WHEN kind IN ('pieces', 'rejects', 'scraped back') -- below 0: taken back
                    THEN number_1 IS NOT NULL AND number_1 BETWEEN -100000 AND 100000
                WHEN kind IN ('placed', 'cut') THEN number_1 IS NOT NULL AND number_1 BETWEEN 0 AND 100000
                WHEN kind = 'recounted' THEN number_1 IS NOT NULL AND number_2 IS NOT NULL
                    AND number_1 BETWEEN 0 AND 100000 AND number_2 BETWEEN 0 AND 100000
                WHEN kind = 'left in bag' THEN number_1 IS NOT NULL AND number_1 IN (0, 1) AND mass_ug >= 0
                WHEN kind IN ('timer off', 'taken back') THEN other IS NOT NULL
                ELSE 1 END),
    CHECK (kind NOT IN ('done', 'skipped', 'reopened', 'moved') OR step IS NOT NULL)
) STRICT, WITHOUT ROWID;

-- Small, since few events are of these kinds: what the flags and the safety notes are found by, in one look-up however long the
-- record is. kind stands in them so that nothing else need be read; without it they are not used.
CREATE INDEX batch_event_taken_back ON batch_event (batch_id, other, kind) WHERE kind = 'taken back';
CREATE INDEX batch_event_pieces ON batch_event (kind, text) WHERE kind IN ('recounted', 'placed');
CREATE INDEX batch_event_finished ON batch_event (batch_id, kind, id, at_s) WHERE kind = 'finished';
CREATE INDEX batch_event_set_aside ON batch_event (batch_id, kind, id) WHERE kind = 'set aside';
CREATE INDEX batch_event_acknowledged ON batch_event (at_s) WHERE kind = 'acknowledged';

-- What the events say of the whole batch: the last "finished" and any "set aside" that was not taken back.
CREATE VIEW batch_said AS
SELECT batch.id AS batch_id,
       coalesce((SELECT at_s FROM batch_event AS said
                 WHERE said.batch_id = batch.id AND said.kind = 'finished'
                   AND NOT EXISTS (SELECT 1 FROM batch_event AS back
                                   WHERE back.batch_id = said.batch_id AND back.other = said.id AND back.kind = 'taken back')
                 ORDER BY said.id DESC LIMIT 1), 0) AS finished_s,
       EXISTS (SELECT 1 FROM batch_event AS said
               WHERE said.batch_id = batch.id AND said.kind = 'set aside'
                 AND NOT EXISTS (SELECT 1 FROM batch_event AS back
                                 WHERE back.batch_id = said.batch_id AND back.other = said.id AND back.kind = 'taken back'))
           AS set_aside
FROM batch;

CREATE TRIGGER batch_insert BEFORE INSERT ON batch
WHEN EXISTS (SELECT 1 FROM batch WHERE id = NEW.id OR uuid = NEW.uuid OR number = NEW.number)
     OR NEW.finished_s <> 0 OR NEW.set_aside <> 0
     OR NOT EXISTS (SELECT 1 FROM revision
                    WHERE recipe_id = NEW.recipe_id AND number = NEW.revision AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a batch is new and made of a sealed revision'); END;

CREATE TRIGGER batch_update BEFORE UPDATE ON batch
WHEN (NEW.id, NEW.uuid, NEW.number, NEW.name, NEW.recipe_id, NEW.revision, NEW.started_s, NEW.utc_offset, NEW.oils_ug)
     IS NOT (OLD.id, OLD.uuid, OLD.number, OLD.name, OLD.recipe_id, OLD.revision, OLD.started_s, OLD.utc_offset, OLD.oils_ug)
     OR (NEW.finished_s, NEW.set_aside) IS NOT (SELECT finished_s, set_aside FROM batch_said WHERE batch_id = OLD.id)
BEGIN SELECT RAISE(ABORT, 'the record of a batch only grows'); END;

CREATE TRIGGER batch_delete BEFORE DELETE ON batch
BEGIN SELECT RAISE(ABORT, 'the record of a batch only grows'); END;

CREATE TRIGGER batch_vessel_insert BEFORE INSERT ON batch_vessel
WHEN EXISTS (SELECT 1 FROM batch_frozen WHERE batch_id = NEW.batch_id)
     OR EXISTS (SELECT 1 FROM batch_vessel WHERE batch_id = NEW.batch_id AND position = NEW.position)
BEGIN SELECT RAISE(ABORT, 'the record of a batch only grows'); END;

CREATE TRIGGER batch_vessel_update BEFORE UPDATE ON batch_vessel
BEGIN SELECT RAISE(ABORT, 'the record of a batch only grows'); END;

CREATE TRIGGER batch_vessel_delete BEFORE DELETE ON batch_vessel
BEGIN SELECT RAISE(ABORT, 'the record of a batch only grows'); END;

CREATE TRIGGER batch_frozen_insert BEFORE INSERT ON batch_frozen
WHEN EXISTS (SELECT 1 FROM batch_frozen WHERE batch_id = NEW.batch_id)
BEGIN SELECT RAISE(ABORT, 'the record of a batch only grows'); END;

CREATE TRIGGER batch_frozen_update BEFORE UPDATE ON batch_frozen
BEGIN SELECT RAISE(ABORT, 'the record of a batch only grows'); END;

CREATE TRIGGER batch_frozen_delete BEFORE DELETE ON batch_frozen
BEGIN SELECT RAISE(ABORT, 'the record of a batch only grows'); END;

CREATE TRIGGER batch_step_insert BEFORE INSERT ON batch_step
WHEN NEW.id <> 1 + coalesce((SELECT max(id) FROM batch_step WHERE batch_id = NEW.batch_id), 0)
BEGIN SELECT RAISE(ABORT, 'the record of a batch only grows'); END;

CREATE TRIGGER batch_step_update BEFORE UPDATE ON batch_step
BEGIN SELECT RAISE(ABORT, 'the record of a batch only grows'); END;

CREATE TRIGGER batch_step_delete BEFORE DELETE ON batch_step
BEGIN SELECT RAISE(ABORT, 'the record of a batch only grows'); END;

-- What was taken back is done again by a new event, not by taking back the taking back: whether one counts is one look-up.
CREATE TRIGGER batch_event_insert BEFORE INSERT ON batch_event
WHEN NEW.id <> 1 + coalesce((SELECT max(id) FROM batch_event WHERE batch_id = NEW.batch_id), 0)
     OR (NEW.kind = 'taken back'
         AND EXISTS (SELECT 1 FROM batch_event WHERE batch_id = NEW.batch_id AND id = NEW.other AND kind = 'taken back'))
BEGIN SELECT RAISE(ABORT, 'the record of a batch only grows'); END;

CREATE TRIGGER batch_event_update BEFORE UPDATE ON batch_event
BEGIN SELECT RAISE(ABORT, 'the record of a batch only grows'); END;

CREATE TRIGGER batch_event_delete BEFORE DELETE ON batch_event
BEGIN SELECT RAISE(ABORT, 'the record of a batch only grows'); END;

CREATE TRIGGER batch_event_said AFTER INSERT ON batch_event
WHEN NEW.kind IN ('finished', 'set aside')
     OR (NEW.kind = 'taken back' AND EXISTS (SELECT 1 FROM batch_event WHERE batch_id = NEW.batch_id AND id = NEW.other
                                             AND kind IN ('finished', 'set aside')))
BEGIN
    UPDATE batch SET (finished_s, set_aside) = (SELECT finished_s, set_aside FROM batch_said WHERE batch_id = NEW.batch_id)
    WHERE id = NEW.batch_id;
END;

-- Keys of the bench that the maker put in place of the usual ones: what is done, and the key by the name that help gives it.
CREATE TABLE bench_key (
    position INTEGER PRIMARY KEY CHECK (position BETWEEN 0 AND 15),
    action   TEXT    NOT NULL CHECK (action <> '' AND length(CAST(action AS BLOB)) < 24),
    key      TEXT    NOT NULL CHECK (key <> '' AND length(CAST(key AS BLOB)) < 16)
) STRICT;

CREATE TRIGGER setting_insert BEFORE INSERT ON setting
WHEN NOT CASE NEW.key
         WHEN 'batch_pattern' THEN typeof(NEW.value) = 'text' AND length(CAST(NEW.value AS BLOB)) BETWEEN 1 AND 31
         WHEN 'lye_order' THEN NEW.value IN ('dissolve first', 'oils first')
         WHEN 'superfat_most' THEN typeof(NEW.value) = 'real' AND NEW.value BETWEEN 0 AND 0.5
         ELSE 1 END
BEGIN SELECT RAISE(ABORT, 'a setting is out of its range'); END;
