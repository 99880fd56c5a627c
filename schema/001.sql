-- 001: recipes with their revisions, the maker's own ingredients, settings.
--
-- Shares are fractions, masses grams as the maker gave them, what a scale shows whole micrograms, moments UTC seconds. An
-- enumeration is stored by the word that the exchange format has for it. Columns that another way of giving a figure leaves
-- unused hold 0 or ''. A unit or meaning that does not stand here stands in include/lyeway/recipe.h.

CREATE TABLE recipe (
    id        INTEGER PRIMARY KEY,
    uuid      BLOB    NOT NULL UNIQUE CHECK (length(uuid) = 16),
    archived  INTEGER NOT NULL DEFAULT 0 CHECK (archived IN (0, 1)),
    created_s INTEGER NOT NULL,
    changed_s INTEGER NOT NULL
) STRICT;

CREATE INDEX recipe_newest ON recipe (changed_s, id);

-- number NULL is the draft, of which a recipe has one. version counts saves of the draft; sealed_version is the one that the
-- newest sealed revision was made of. A revision being sealed is written whole before sealed_s closes it.
CREATE TABLE revision (
    id             INTEGER PRIMARY KEY,
    recipe_id      INTEGER NOT NULL REFERENCES recipe (id),
    number         INTEGER CHECK (number BETWEEN 1 AND 1000000),
    sealed_s       INTEGER CHECK (sealed_s IS NULL OR number IS NOT NULL),
    version        INTEGER NOT NULL DEFAULT 1 CHECK (version >= 1),
    sealed_version INTEGER NOT NULL DEFAULT 0 CHECK (sealed_version BETWEEN 0 AND version),

    name     TEXT NOT NULL CHECK (length(CAST(name AS BLOB)) < 96),
    purpose  TEXT NOT NULL CHECK (purpose IN ('skin', 'shaving', 'cleaning', 'liquid')),
    oils_by  TEXT NOT NULL CHECK (oils_by IN ('share', 'grams')),
    superfat REAL NOT NULL CHECK (superfat BETWEEN 0 AND 0.5),

    size_by    TEXT NOT NULL CHECK (size_by IN ('as grams', 'oils', 'batter', 'mould', 'pieces')),
    size_grams REAL NOT NULL CHECK (size_grams BETWEEN 0 AND 1e6),

    has_mould         INTEGER NOT NULL CHECK (has_mould IN (0, 1)),
    mould_shape       TEXT    NOT NULL CHECK (mould_shape IN ('box', 'cylinder', 'volume', 'cavities')),
    mould_length_mm   REAL    NOT NULL CHECK (mould_length_mm BETWEEN 0 AND 1e5),
    mould_width_mm    REAL    NOT NULL CHECK (mould_width_mm BETWEEN 0 AND 1e5),
    mould_height_mm   REAL    NOT NULL CHECK (mould_height_mm BETWEEN 0 AND 1e5),
    mould_diameter_mm REAL    NOT NULL CHECK (mould_diameter_mm BETWEEN 0 AND 1e5),
    mould_volume_ml   REAL    NOT NULL CHECK (mould_volume_ml BETWEEN 0 AND 1e6),
    mould_cavities    INTEGER NOT NULL CHECK (mould_cavities BETWEEN 0 AND 2000),
    mould_fill        REAL    NOT NULL CHECK (mould_fill BETWEEN 0 AND 1),

    piece_kind       TEXT    NOT NULL CHECK (length(CAST(piece_kind AS BLOB)) < 96),
    piece_count      INTEGER NOT NULL CHECK (piece_count BETWEEN 0 AND 2000),
    piece_mass_g     REAL    NOT NULL CHECK (piece_mass_g BETWEEN 0 AND 1e6),
    piece_chance     REAL    NOT NULL CHECK (piece_chance BETWEEN 0 AND 1),
    piece_class      TEXT    NOT NULL CHECK (piece_class IN ('simple', 'flower')),
    piece_first_time INTEGER NOT NULL CHECK (piece_first_time IN (0, 1)),

    potassium_share     REAL    NOT NULL CHECK (potassium_share BETWEEN 0 AND 1),
    naoh_purity_given   INTEGER NOT NULL CHECK (naoh_purity_given IN (0, 1)),
    naoh_purity_lo      REAL    NOT NULL CHECK (naoh_purity_lo BETWEEN 0 AND 1),
    naoh_purity         REAL    NOT NULL CHECK (naoh_purity BETWEEN 0 AND 1),
    naoh_purity_hi      REAL    NOT NULL CHECK (naoh_purity_hi BETWEEN 0 AND 1),
    koh_purity_given    INTEGER NOT NULL CHECK (koh_purity_given IN (0, 1)),
    koh_purity_lo       REAL    NOT NULL CHECK (koh_purity_lo BETWEEN 0 AND 1),
    koh_purity          REAL    NOT NULL CHECK (koh_purity BETWEEN 0 AND 1),
    koh_purity_hi       REAL    NOT NULL CHECK (koh_purity_hi BETWEEN 0 AND 1),
    naoh_solution_share REAL    NOT NULL CHECK (naoh_solution_share >= 0 AND naoh_solution_share < 1),
    koh_solution_share  REAL    NOT NULL CHECK (koh_solution_share >= 0 AND koh_solution_share < 1),

    water_by     TEXT NOT NULL CHECK (water_by IN ('strength', 'ratio', 'of oils')),
    water_value  REAL NOT NULL CHECK (water_value BETWEEN 0 AND 1000),
    water_temp_c REAL NOT NULL CHECK (water_temp_c BETWEEN -20 AND 95),

    scent      TEXT    NOT NULL CHECK (scent IN ('portions', 'batter')),
    colour     TEXT    NOT NULL CHECK (colour IN ('portions', 'batter')),
    residue_by TEXT    NOT NULL CHECK (residue_by IN ('practice', 'grams', 'share')),
    residue    REAL    NOT NULL CHECK (residue BETWEEN 0 AND 1e6),
    hushed     INTEGER NOT NULL CHECK (hushed BETWEEN 0 AND 4294967295),
    note       TEXT    NOT NULL CHECK (length(CAST(note AS BLOB)) < 4096),

    UNIQUE (recipe_id, number)
) STRICT;

CREATE UNIQUE INDEX revision_draft ON revision (recipe_id) WHERE number IS NULL;
CREATE INDEX revision_draft_name ON revision (name COLLATE NOCASE, recipe_id) WHERE number IS NULL;

-- Lists of a recipe: position counts from 0 without gaps, element is the id that stays with an element when it is moved.

CREATE TABLE revision_oil (
    revision_id INTEGER NOT NULL REFERENCES revision (id),
    position    INTEGER NOT NULL CHECK (position BETWEEN 0 AND 31),
    element     INTEGER NOT NULL CHECK (element BETWEEN 0 AND 4294967295),
    name        TEXT    NOT NULL CHECK (length(CAST(name AS BLOB)) < 96),
    amount      REAL    NOT NULL CHECK (amount BETWEEN 0 AND 1e6),
    sap_given   INTEGER NOT NULL CHECK (sap_given IN (0, 1)),
    sap_lo      REAL    NOT NULL CHECK (sap_lo BETWEEN 0 AND 400),
    sap         REAL    NOT NULL CHECK (sap BETWEEN 0 AND 400),
    sap_hi      REAL    NOT NULL CHECK (sap_hi BETWEEN 0 AND 400),
    PRIMARY KEY (revision_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE revision_liquid (
    revision_id    INTEGER NOT NULL REFERENCES revision (id),
    position       INTEGER NOT NULL CHECK (position BETWEEN 0 AND 3),
    element        INTEGER NOT NULL CHECK (element BETWEEN 0 AND 4294967295),
    name           TEXT    NOT NULL CHECK (length(CAST(name AS BLOB)) < 96),
    share_of_water REAL    NOT NULL CHECK (share_of_water BETWEEN 0 AND 1),
    PRIMARY KEY (revision_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE revision_additive (
    revision_id INTEGER NOT NULL REFERENCES revision (id),
    position    INTEGER NOT NULL CHECK (position BETWEEN 0 AND 15),
    element     INTEGER NOT NULL CHECK (element BETWEEN 0 AND 4294967295),
    name        TEXT    NOT NULL CHECK (length(CAST(name AS BLOB)) < 96),
    dosed_by    TEXT    NOT NULL CHECK (dosed_by IN ('of oils', 'grams')),
    value       REAL    NOT NULL CHECK (value BETWEEN 0 AND 1e6),
    PRIMARY KEY (revision_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE revision_fragrance (
    revision_id INTEGER NOT NULL REFERENCES revision (id),
    position    INTEGER NOT NULL CHECK (position BETWEEN 0 AND 7),
    element     INTEGER NOT NULL CHECK (element BETWEEN 0 AND 4294967295),
    name        TEXT    NOT NULL CHECK (length(CAST(name AS BLOB)) < 96),
    dosed_by    TEXT    NOT NULL CHECK (dosed_by IN ('of oils', 'of batter', 'per kg oils')),
    value       REAL    NOT NULL CHECK (value BETWEEN 0 AND 1000),
    has_limit   INTEGER NOT NULL CHECK (has_limit IN (0, 1)),
    limit_share REAL    NOT NULL CHECK (limit_share BETWEEN 0 AND 1),
    limit_from  TEXT    NOT NULL CHECK (length(CAST(limit_from AS BLOB)) < 96),
    PRIMARY KEY (revision_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE revision_portion (
    id               INTEGER PRIMARY KEY,
    revision_id      INTEGER NOT NULL REFERENCES revision (id),
    position         INTEGER NOT NULL CHECK (position BETWEEN 0 AND 15),
    element          INTEGER NOT NULL CHECK (element BETWEEN 0 AND 4294967295),
    name             TEXT    NOT NULL CHECK (length(CAST(name AS BLOB)) < 96),
    demand           TEXT    NOT NULL CHECK (demand IN ('share', 'grams', 'layer', 'rest', 'pieces')),
    amount           REAL    NOT NULL CHECK (amount BETWEEN 0 AND 1e6),
    has_pieces       INTEGER NOT NULL CHECK (has_pieces IN (0, 1)),
    piece_kind       TEXT    NOT NULL CHECK (length(CAST(piece_kind AS BLOB)) < 96),
    piece_count      INTEGER NOT NULL CHECK (piece_count BETWEEN 0 AND 2000),
    piece_mass_g     REAL    NOT NULL CHECK (piece_mass_g BETWEEN 0 AND 1e6),
    piece_chance     REAL    NOT NULL CHECK (piece_chance BETWEEN 0 AND 1),
    piece_class      TEXT    NOT NULL CHECK (piece_class IN ('simple', 'flower')),
    piece_first_time INTEGER NOT NULL CHECK (piece_first_time IN (0, 1)),
    scented          INTEGER NOT NULL CHECK (scented IN (0, 1)),
    technique        TEXT    NOT NULL CHECK (technique IN ('pour', 'swirl', 'layer', 'pipe', 'mould')),
    blend_by         TEXT    NOT NULL CHECK (blend_by IN ('per kg oils', 'grams', 'of portion', 'parts')),
    blend_value      REAL    NOT NULL CHECK (blend_value BETWEEN 0 AND 1e6),
    UNIQUE (revision_id, position)
) STRICT;

CREATE TABLE portion_colourant (
    portion_id       INTEGER NOT NULL REFERENCES revision_portion (id),
    position         INTEGER NOT NULL CHECK (position BETWEEN 0 AND 7),
    element          INTEGER NOT NULL CHECK (element BETWEEN 0 AND 4294967295),
    name             TEXT    NOT NULL CHECK (length(CAST(name AS BLOB)) < 96),
    dosed_by         TEXT    NOT NULL CHECK (dosed_by IN ('per kg oils', 'grams', 'of portion', 'parts')),
    value            REAL    NOT NULL CHECK (value BETWEEN 0 AND 1e6),
    carrier_oil      TEXT    NOT NULL CHECK (length(CAST(carrier_oil AS BLOB)) < 96),
    carrier_ratio    REAL    NOT NULL CHECK (carrier_ratio BETWEEN 0 AND 1000),
    carrier_reserved INTEGER NOT NULL CHECK (carrier_reserved IN (0, 1)),
    PRIMARY KEY (portion_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE revision_scale (
    revision_id INTEGER NOT NULL REFERENCES revision (id),
    position    INTEGER NOT NULL CHECK (position BETWEEN 0 AND 7),
    name        TEXT    NOT NULL CHECK (length(CAST(name AS BLOB)) < 96),
    division_ug INTEGER NOT NULL CHECK (division_ug BETWEEN 0 AND 1000000000000),
    capacity_ug INTEGER NOT NULL CHECK (capacity_ug BETWEEN 0 AND 1000000000000),
    accuracy_ug INTEGER NOT NULL CHECK (accuracy_ug BETWEEN 0 AND 1000000000000),
    vessel_ug   INTEGER NOT NULL CHECK (vessel_ug BETWEEN 0 AND 1000000000000),
    PRIMARY KEY (revision_id, position)
) STRICT, WITHOUT ROWID;

-- A sealed revision stays as it is, whoever writes. The checks before an insert are against REPLACE, which deletes unasked.

CREATE TRIGGER revision_insert BEFORE INSERT ON revision
WHEN EXISTS (SELECT 1 FROM revision WHERE sealed_s IS NOT NULL
             AND (id = NEW.id OR (recipe_id = NEW.recipe_id AND number = NEW.number)))
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_update BEFORE UPDATE ON revision
WHEN OLD.sealed_s IS NOT NULL
     OR EXISTS (SELECT 1 FROM revision WHERE sealed_s IS NOT NULL
                AND (id = NEW.id OR (recipe_id = NEW.recipe_id AND number = NEW.number)))
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_delete BEFORE DELETE ON revision WHEN OLD.sealed_s IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_oil_insert BEFORE INSERT ON revision_oil
WHEN EXISTS (SELECT 1 FROM revision WHERE id = NEW.revision_id AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_oil_update BEFORE UPDATE ON revision_oil
WHEN EXISTS (SELECT 1 FROM revision WHERE id IN (OLD.revision_id, NEW.revision_id) AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_oil_delete BEFORE DELETE ON revision_oil
WHEN EXISTS (SELECT 1 FROM revision WHERE id = OLD.revision_id AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_liquid_insert BEFORE INSERT ON revision_liquid
WHEN EXISTS (SELECT 1 FROM revision WHERE id = NEW.revision_id AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_liquid_update BEFORE UPDATE ON revision_liquid
WHEN EXISTS (SELECT 1 FROM revision WHERE id IN (OLD.revision_id, NEW.revision_id) AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_liquid_delete BEFORE DELETE ON revision_liquid
WHEN EXISTS (SELECT 1 FROM revision WHERE id = OLD.revision_id AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_additive_insert BEFORE INSERT ON revision_additive
WHEN EXISTS (SELECT 1 FROM revision WHERE id = NEW.revision_id AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_additive_update BEFORE UPDATE ON revision_additive
WHEN EXISTS (SELECT 1 FROM revision WHERE id IN (OLD.revision_id, NEW.revision_id) AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_additive_delete BEFORE DELETE ON revision_additive
WHEN EXISTS (SELECT 1 FROM revision WHERE id = OLD.revision_id AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_fragrance_insert BEFORE INSERT ON revision_fragrance
WHEN EXISTS (SELECT 1 FROM revision WHERE id = NEW.revision_id AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_fragrance_update BEFORE UPDATE ON revision_fragrance
WHEN EXISTS (SELECT 1 FROM revision WHERE id IN (OLD.revision_id, NEW.revision_id) AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_fragrance_delete BEFORE DELETE ON revision_fragrance
WHEN EXISTS (SELECT 1 FROM revision WHERE id = OLD.revision_id AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_portion_insert BEFORE INSERT ON revision_portion
WHEN EXISTS (SELECT 1 FROM revision WHERE id = NEW.revision_id AND sealed_s IS NOT NULL)
     OR EXISTS (SELECT 1 FROM revision_portion JOIN revision ON revision.id = revision_portion.revision_id
                WHERE revision_portion.id = NEW.id AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_portion_update BEFORE UPDATE ON revision_portion
WHEN EXISTS (SELECT 1 FROM revision WHERE id IN (OLD.revision_id, NEW.revision_id) AND sealed_s IS NOT NULL)
     OR EXISTS (SELECT 1 FROM revision_portion JOIN revision ON revision.id = revision_portion.revision_id
                WHERE revision_portion.id = NEW.id AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_portion_delete BEFORE DELETE ON revision_portion
WHEN EXISTS (SELECT 1 FROM revision WHERE id = OLD.revision_id AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_scale_insert BEFORE INSERT ON revision_scale
WHEN EXISTS (SELECT 1 FROM revision WHERE id = NEW.revision_id AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_scale_update BEFORE UPDATE ON revision_scale
WHEN EXISTS (SELECT 1 FROM revision WHERE id IN (OLD.revision_id, NEW.revision_id) AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER revision_scale_delete BEFORE DELETE ON revision_scale
WHEN EXISTS (SELECT 1 FROM revision WHERE id = OLD.revision_id AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER portion_colourant_insert BEFORE INSERT ON portion_colourant
WHEN EXISTS (SELECT 1 FROM revision_portion JOIN revision ON revision.id = revision_portion.revision_id
             WHERE revision_portion.id = NEW.portion_id AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER portion_colourant_update BEFORE UPDATE ON portion_colourant
WHEN EXISTS (SELECT 1 FROM revision_portion JOIN revision ON revision.id = revision_portion.revision_id
             WHERE revision_portion.id IN (OLD.portion_id, NEW.portion_id) AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

CREATE TRIGGER portion_colourant_delete BEFORE DELETE ON portion_colourant
WHEN EXISTS (SELECT 1 FROM revision_portion JOIN revision ON revision.id = revision_portion.revision_id
             WHERE revision_portion.id = OLD.portion_id AND sealed_s IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'a sealed revision cannot be changed'); END;

-- The maker's own ingredients. key is that of the reference's entry where this one goes before it, else the name. One row of
-- ingredient_fact a figure that is known: member says which, 'acid:KEY' and 'constituent:KEY:lo' or ':hi' those of lists.
CREATE TABLE ingredient (
    id        INTEGER PRIMARY KEY,
    uuid      BLOB    NOT NULL UNIQUE CHECK (length(uuid) = 16),
    kind      TEXT    NOT NULL CHECK (kind IN ('oil', 'additive', 'liquid', 'colourant', 'fragrance')),
    name      TEXT    NOT NULL COLLATE NOCASE CHECK (name <> '' AND length(CAST(name AS BLOB)) < 96),
    key       TEXT    NOT NULL CHECK (key <> '' AND length(CAST(key AS BLOB)) < 96),
    archived  INTEGER NOT NULL DEFAULT 0 CHECK (archived IN (0, 1)),
    changed_s INTEGER NOT NULL,
    UNIQUE (kind, name)
) STRICT;

CREATE TABLE ingredient_fact (
    ingredient_id INTEGER NOT NULL REFERENCES ingredient (id),
    member        TEXT    NOT NULL,
    number        REAL    CHECK (number BETWEEN -1e9 AND 1e9),
    text          TEXT    CHECK (length(CAST(text AS BLOB)) < 4096),
    standing      TEXT    CHECK (standing IN ('certificate', 'own', 'published', 'computed', 'practice', 'memory')),
    source        TEXT    CHECK (length(CAST(source AS BLOB)) < 4096),
    PRIMARY KEY (ingredient_id, member),
    CHECK ((number IS NULL) <> (text IS NULL))
) STRICT, WITHOUT ROWID;

-- Settings of the bench by name; no row at all: those of common practice.
CREATE TABLE setting (
    key   TEXT NOT NULL PRIMARY KEY,
    value ANY  NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE scale (
    position    INTEGER PRIMARY KEY CHECK (position BETWEEN 0 AND 7),
    name        TEXT    NOT NULL CHECK (length(CAST(name AS BLOB)) < 96),
    division_ug INTEGER NOT NULL CHECK (division_ug BETWEEN 1 AND 1000000000000),
    capacity_ug INTEGER NOT NULL CHECK (capacity_ug BETWEEN 1 AND 1000000000000),
    accuracy_ug INTEGER NOT NULL CHECK (accuracy_ug BETWEEN 0 AND 1000000000000),
    vessel_ug   INTEGER NOT NULL CHECK (vessel_ug BETWEEN 0 AND 1000000000000)
) STRICT;

CREATE TABLE vessel (
    position INTEGER PRIMARY KEY CHECK (position BETWEEN 0 AND 15),
    name     TEXT    NOT NULL CHECK (length(CAST(name AS BLOB)) < 96),
    empty_ug INTEGER NOT NULL CHECK (empty_ug BETWEEN 0 AND 1000000000000)
) STRICT;
