-- 003: what is said of a batch after it is made, and the book: a row a batch of what its record comes to.
--
-- Comments stand outside of the statements, whose texts SQLite keeps and reads at every start.

-- More kinds of events. A CHECK cannot be changed, so the table is made anew, under its own name so that whatever names it holds.
-- For each row that goes SQLite looks for those that refer to it: with an index.
CREATE TEMP TABLE kept AS SELECT * FROM batch_event;
CREATE INDEX batch_event_other ON batch_event (batch_id, other);
DROP TABLE batch_event;

-- The last CHECK but one: what the state of a batch counts or looks up by, where a NULL would pass for neither yes nor no. Pieces
-- below 0 are taken back.
CREATE TABLE batch_event (
    batch_id   INTEGER NOT NULL REFERENCES batch (id),
    id         INTEGER NOT NULL CHECK (id BETWEEN 1 AND 1000000),
    at_s       INTEGER NOT NULL CHECK (at_s BETWEEN 0 AND 253402300799),
    kind       TEXT    NOT NULL CHECK (kind IN (
                   'weighed', 'lye poured', 'jug', 'done', 'skipped', 'reopened', 'moved', 'combined', 'stage', 'timer', 'timer off',
                   'pieces', 'rejects', 'scraped back', 'left in bag', 'recounted', 'placed', 'leftover', 'going', 'splash',
                   'acknowledged', 'reason', 'note', 'problem', 'answer', 'cut', 'taken back', 'set aside', 'finished',
                   'cure weighed', 'tested', 'outcome', 'left out', 'residue', 'density')),
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
    CHECK (CASE kind WHEN 'weighed' THEN number_1 IN (1, 2)
                     WHEN 'moved' THEN number_1 BETWEEN -1e9 AND 1e9
                     WHEN 'stage' THEN number_1 IN (0, 1, 2, 3, 4, 5, 6, 7)
                     WHEN 'timer' THEN number_1 >= 0 AND number_2 >= 0
                     WHEN 'lye poured' THEN number_1 BETWEEN 0 AND 1
                     WHEN 'pieces' THEN number_1 BETWEEN -100000 AND 100000
                     WHEN 'rejects' THEN number_1 BETWEEN -100000 AND 100000
                     WHEN 'scraped back' THEN number_1 BETWEEN -100000 AND 100000
                     WHEN 'placed' THEN number_1 BETWEEN 0 AND 100000
                     WHEN 'cut' THEN number_1 BETWEEN 0 AND 100000
                     WHEN 'recounted' THEN number_1 BETWEEN 0 AND 100000 AND number_2 BETWEEN 0 AND 100000
                     WHEN 'left in bag' THEN number_1 IN (0, 1) AND mass_ug >= 0
                     WHEN 'timer off' THEN other > 0
                     WHEN 'taken back' THEN other > 0
                     WHEN 'cure weighed' THEN number_1 IN (1, 2, 3, 4, 5, 6) AND mass_ug > 0
                     WHEN 'tested' THEN number_1 IN (0, 1, 2) AND number_2 BETWEEN 0 AND 14
                     WHEN 'outcome' THEN number_1 IN (1, 2, 3)
                     WHEN 'residue' THEN number_1 IN (0, 1, 2) AND number_2 BETWEEN 1 AND 1000 AND mass_ug >= 0
                     WHEN 'density' THEN number_1 > 0 AND mass_ug > 0
                     ELSE 1 END IS TRUE),
    CHECK (kind NOT IN ('done', 'skipped', 'reopened', 'moved') OR step IS NOT NULL)
) STRICT, WITHOUT ROWID;

INSERT INTO batch_event SELECT * FROM kept ORDER BY batch_id, id;
DROP TABLE kept;

CREATE INDEX batch_event_taken_back ON batch_event (batch_id, other, kind) WHERE kind = 'taken back';
CREATE INDEX batch_event_pieces ON batch_event (kind, text) WHERE kind IN ('recounted', 'placed');
CREATE INDEX batch_event_finished ON batch_event (batch_id, kind, id, at_s) WHERE kind = 'finished';
CREATE INDEX batch_event_set_aside ON batch_event (batch_id, kind, id) WHERE kind = 'set aside';
CREATE INDEX batch_event_acknowledged ON batch_event (at_s) WHERE kind = 'acknowledged';

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

-- What was made of a revision.
CREATE INDEX batch_revision ON batch (recipe_id, revision);

-- Batches whose row in the book is missing or old: whoever writes the record.
CREATE TABLE book_due (batch_id INTEGER PRIMARY KEY REFERENCES batch (id)) STRICT;
INSERT INTO book_due SELECT id FROM batch;

CREATE TRIGGER book_due_batch AFTER INSERT ON batch
BEGIN INSERT OR IGNORE INTO book_due VALUES (NEW.id); END;

CREATE TRIGGER book_due_event AFTER INSERT ON batch_event
BEGIN INSERT OR IGNORE INTO book_due VALUES (NEW.batch_id); END;

-- A batch a row, in the order of the days they were begun: place is started_s * 2^24 + batch_id, age counts the other way. name is that of
-- the batch. A figure that was not taken is NULL; their order is that of include/lyeway/book.h. Shares are fractions.
CREATE TABLE book (
    place INTEGER PRIMARY KEY,
    age INTEGER AS (-place),
    batch_id INTEGER NOT NULL UNIQUE REFERENCES batch (id) CHECK (batch_id = place & 16777215),
    name TEXT NOT NULL COLLATE NOCASE,
    last_event INTEGER NOT NULL,
    outcome TEXT NOT NULL CHECK (outcome IN ('on the bench', 'made', 'released', 'on hold', 'rejected', 'set aside')),
    left_out INTEGER NOT NULL CHECK (left_out IN (0, 1)),
    until_least INTEGER NOT NULL CHECK (until_least IN (0, 1)),
    technique TEXT NOT NULL CHECK (technique IN ('pour', 'swirl', 'layer', 'pipe', 'mould')),
    want TEXT NOT NULL CHECK (want IN ('nothing', 'weighing', 'test', 'outcome')),
    want_s INTEGER NOT NULL CHECK (want_s BETWEEN 0 AND 253402300799),
    oils_g REAL, batter_g REAL, superfat REAL, strength REAL, temp_c REAL, saturated REAL, scent REAL, from_min REAL, until_min REAL,
    window_min REAL, pieces REAL, good REAL, rejects REAL, each_g REAL, seconds_each REAL, jug_g REAL, bag_g REAL, density_g_ml REAL,
    air REAL, bars REAL, lightest_g REAL, cure_loss REAL, cure_rate REAL, cured_days REAL
) STRICT;

CREATE INDEX book_recipe ON book (name, age);
CREATE INDEX book_superfat ON book (superfat, age) WHERE superfat IS NOT NULL;
CREATE INDEX book_rejects ON book (rejects, age) WHERE rejects IS NOT NULL;
CREATE INDEX book_each ON book (each_g, age) WHERE each_g IS NOT NULL;
CREATE INDEX book_window ON book (window_min, age) WHERE window_min IS NOT NULL;
CREATE INDEX book_want ON book (want_s) WHERE want <> 'nothing';
CREATE INDEX book_counted ON book (place) WHERE left_out = 0 AND outcome NOT IN ('on the bench', 'set aside');

-- Parts of the pieces of a batch.
CREATE TABLE book_pieces (
    batch_id INTEGER NOT NULL REFERENCES book (batch_id),
    position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 15),
    kind TEXT NOT NULL,
    part TEXT NOT NULL,
    class TEXT NOT NULL CHECK (class IN ('simple', 'flower')),
    first_time INTEGER NOT NULL CHECK (first_time IN (0, 1)),
    counted INTEGER NOT NULL CHECK (counted IN (0, 1)),
    good INTEGER NOT NULL,
    rejects INTEGER NOT NULL,
    made INTEGER NOT NULL,
    each_g REAL,
    within_squares REAL,
    within_degrees INTEGER NOT NULL,
    PRIMARY KEY (batch_id, position)
) STRICT, WITHOUT ROWID;

-- What a batch is found by. day is that on the maker's clock, as "20260314 202603 2026".
CREATE TABLE book_text (
    place INTEGER PRIMARY KEY REFERENCES book (place) ON UPDATE CASCADE,
    recipe TEXT NOT NULL,
    colourant TEXT NOT NULL,
    fragrance TEXT NOT NULL,
    outcome TEXT NOT NULL,
    day TEXT NOT NULL,
    said TEXT NOT NULL
) STRICT;

-- The index of its words; rows come in the order of place.
CREATE VIRTUAL TABLE book_words USING fts5 (
    recipe, colourant, fragrance, outcome, day, said, content = 'book_text', content_rowid = 'place', columnsize = 0,
    prefix = '1 2 3', tokenize = 'unicode61 remove_diacritics 2'
);
