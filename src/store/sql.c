/* sql.c - the statements. Of lists in a revision: ?1 the revision, ?2 the position, then columns in the order of the members
 * in recipe_rows.c; a shift moves one element from ?2 to ?3. Of batches: ?1 the batch, then the members in batch_rows.c. Of pages
 * of the book: places from ?1 on and before ?2, ?3 lines at most, beyond ?4 and its age ?5; ?4 the words, and ?5 whether only
 * those that count. */
#include "store/sql.h"

/* What the statements of the book have in common: the figures in their order, a line by the members in book_rows.c, and, as the
 * index has it, which batches count. */
#define FIGURES                                                                                                      \
    "oils_g, batter_g, superfat, strength, temp_c, saturated, scent, from_min, until_min, window_min, pieces, good," \
    " rejects, each_g, seconds_each, jug_g, bag_g, density_g_ml, air, bars, lightest_g, cure_loss, cure_rate,"       \
    " cured_days"
#define COUNTED "left_out = 0 AND book.outcome NOT IN ('on the bench', 'set aside')"
#define LINE                                                                                                      \
    "SELECT batch.id, number, batch.name, recipe_id, revision, started_s, utc_offset, finished_s, book.outcome, " \
    "left_out, " COUNTED ", until_least, technique, want, want_s, " FIGURES

static const char *const texts[SQL_COUNT] = {
    [SQL_BEGIN] = "BEGIN IMMEDIATE",
    [SQL_COMMIT] = "COMMIT",
    [SQL_ROLLBACK] = "ROLLBACK",
    [SQL_NESTED_BEGIN] = "SAVEPOINT nested",
    [SQL_NESTED_COMMIT] = "RELEASE nested",
    [SQL_NESTED_ROLLBACK] = "ROLLBACK TO nested",
    [SQL_READ_BEGIN] = "SAVEPOINT reading",
    [SQL_READ_END] = "RELEASE reading",
    [SQL_APPLICATION_ID] = "PRAGMA application_id",
    [SQL_USER_VERSION] = "PRAGMA user_version",
    [SQL_DATA_VERSION] = "PRAGMA data_version",
    [SQL_INTEGRITY] = "PRAGMA integrity_check(100)",
    [SQL_FOREIGN_KEYS] = "PRAGMA foreign_key_check",
    [SQL_RECIPE_MOMENTS] = "UPDATE recipe SET created_s = created_s + ?1, changed_s = changed_s + ?1",
    [SQL_REVISION_MOMENTS] = "UPDATE revision SET sealed_s = sealed_s + ?1 WHERE sealed_s IS NOT NULL",
    [SQL_INGREDIENT_MOMENTS] = "UPDATE ingredient SET changed_s = changed_s + ?1",
    [SQL_BATCH_MOMENTS] = "UPDATE batch SET started_s = started_s + ?1,"
                          "    finished_s = CASE finished_s WHEN 0 THEN 0 ELSE finished_s + ?1 END",
    [SQL_BATCH_OFFSETS] = "UPDATE batch SET utc_offset = utc_offset + ?1",
    [SQL_OTHER_EVENT_MOMENTS] = "UPDATE batch_event SET at_s = at_s + ?1 WHERE batch_id NOT IN"
                                "    (SELECT id FROM batch WHERE finished_s = 0 AND set_aside = 0)",
    [SQL_RUNNING_EVENT_MOMENTS] = "UPDATE batch_event SET at_s = at_s + ?1 WHERE batch_id IN"
                                  "    (SELECT id FROM batch WHERE finished_s = 0 AND set_aside = 0)",
    [SQL_RUNNING_BATCH_MOMENTS] = "UPDATE batch SET started_s = started_s + ?1 WHERE finished_s = 0 AND set_aside = 0",
    [SQL_BOOK_WANT_MOMENTS] = "UPDATE book SET want_s = want_s + ?1 WHERE want <> 'nothing'",
    [SQL_BOOK_PLACES] =
        "UPDATE book SET place = (SELECT started_s FROM batch WHERE id = batch_id) * 16777216 + batch_id",
    [SQL_BOOK_DAYS] = "UPDATE book_text SET day = (SELECT coalesce(strftime('%Y%m%d %Y%m %Y', started_s + utc_offset,"
                      "    'unixepoch'), '') FROM batch WHERE id = place & 16777215)",
    [SQL_BOOK_WORDS_ANEW] = "INSERT INTO book_words (book_words) VALUES ('rebuild')",
    /* The 1 has the index held against the text that it was made of. */
    [SQL_BOOK_WORDS_CHECK] = "INSERT INTO book_words (book_words, rank) VALUES ('integrity-check', 1)",

    [SQL_RECIPES_BY_NAME] = "SELECT recipe.id, uuid, name, purpose, archived, changed_s, version, sealed_version,"
                            "       (SELECT max(number) FROM revision AS sealed WHERE sealed.recipe_id = recipe.id),"
                            "       (SELECT count(*) FROM revision_oil WHERE revision_id = revision.id),"
                            "       (SELECT count(*) FROM revision_portion WHERE revision_id = revision.id)"
                            "  FROM revision CROSS JOIN recipe ON recipe.id = recipe_id"
                            " WHERE number IS NULL AND archived <= ?1"
                            " ORDER BY name COLLATE NOCASE, recipe_id",
    [SQL_RECIPES_NEWEST] = "SELECT recipe.id, uuid, name, purpose, archived, changed_s, version, sealed_version,"
                           "       (SELECT max(number) FROM revision AS sealed WHERE sealed.recipe_id = recipe.id),"
                           "       (SELECT count(*) FROM revision_oil WHERE revision_id = revision.id),"
                           "       (SELECT count(*) FROM revision_portion WHERE revision_id = revision.id)"
                           "  FROM recipe CROSS JOIN revision ON recipe_id = recipe.id AND number IS NULL"
                           " WHERE archived <= ?1"
                           " ORDER BY changed_s DESC, recipe.id DESC",
    [SQL_RECIPE_BY_UUID] = "SELECT id FROM recipe WHERE uuid = ?1",
    [SQL_RECIPE_BY_NAME] = "SELECT recipe.id FROM revision CROSS JOIN recipe ON recipe.id = recipe_id"
                           " WHERE number IS NULL AND name = ?1 COLLATE NOCASE AND name = ?1 AND archived = 0"
                           " ORDER BY recipe_id LIMIT 1",
    [SQL_RECIPE_INSERT] = "INSERT INTO recipe (uuid, created_s, changed_s) VALUES (?1, ?2, ?2)",
    [SQL_RECIPE_UUID] = "SELECT uuid FROM recipe WHERE id = ?1",
    [SQL_RECIPE_TOUCH] = "UPDATE recipe SET changed_s = ?2 WHERE id = ?1",
    [SQL_RECIPE_ARCHIVE] = "UPDATE recipe SET archived = ?2, changed_s = ?3 WHERE id = ?1",

    [SQL_REVISION_INSERT] =
        "INSERT INTO revision (recipe_id, number, name, purpose, oils_by, superfat, size_by, size_grams,"
        "    has_mould, mould_shape, mould_length_mm, mould_width_mm, mould_height_mm, mould_diameter_mm, "
        "mould_volume_ml,"
        "    mould_cavities, mould_fill,"
        "    piece_kind, piece_count, piece_mass_g, piece_chance, piece_class, piece_first_time,"
        "    potassium_share, naoh_purity_given, naoh_purity_lo, naoh_purity, naoh_purity_hi,"
        "    koh_purity_given, koh_purity_lo, koh_purity, koh_purity_hi, naoh_solution_share, koh_solution_share,"
        "    water_by, water_value, water_temp_c, scent, colour, residue_by, residue, hushed, note)"
        " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17, ?18, ?19, ?20, ?21, ?22,"
        "    ?23, ?24, ?25, ?26, ?27, ?28, ?29, ?30, ?31, ?32, ?33, ?34, ?35, ?36, ?37, ?38, ?39, ?40, ?41, ?42, ?43)",
    [SQL_REVISION_DRAFT] = "SELECT id, version FROM revision WHERE recipe_id = ?1 AND number IS NULL",
    [SQL_REVISION_NUMBER] = "SELECT id, version FROM revision WHERE recipe_id = ?1 AND number = ?2",
    [SQL_REVISION_NEWEST] = "SELECT max(number) FROM revision WHERE recipe_id = ?1",
    [SQL_REVISION_SEAL] = "UPDATE revision SET sealed_s = ?2 WHERE id = ?1",
    [SQL_REVISION_LIST] =
        "SELECT number, sealed_s FROM revision WHERE recipe_id = ?1 AND number IS NOT NULL ORDER BY number",
    [SQL_REVISIONS_ALL] = "SELECT recipe_id, number, name FROM revision ORDER BY id",
    [SQL_DRAFT_SAVED] =
        "UPDATE revision SET version = version + 1 WHERE recipe_id = ?1 AND number IS NULL AND version = ?2",
    [SQL_DRAFT_SEALED] = "UPDATE revision SET sealed_version = version WHERE id = ?1",
    [SQL_HEAD_SELECT] =
        "SELECT name, purpose, oils_by, superfat, size_by, size_grams,"
        "       has_mould, mould_shape, mould_length_mm, mould_width_mm, mould_height_mm, mould_diameter_mm,"
        "       mould_volume_ml, mould_cavities, mould_fill,"
        "       piece_kind, piece_count, piece_mass_g, piece_chance, piece_class, piece_first_time,"
        "       potassium_share, naoh_purity_given, naoh_purity_lo, naoh_purity, naoh_purity_hi,"
        "       koh_purity_given, koh_purity_lo, koh_purity, koh_purity_hi, naoh_solution_share, koh_solution_share,"
        "       water_by, water_value, water_temp_c, scent, colour, residue_by, residue, hushed, note"
        "  FROM revision WHERE id = ?1",
    [SQL_HEAD_UPDATE] =
        "UPDATE revision SET name = ?2, purpose = ?3, oils_by = ?4, superfat = ?5, size_by = ?6, size_grams = ?7,"
        "    has_mould = ?8, mould_shape = ?9, mould_length_mm = ?10, mould_width_mm = ?11, mould_height_mm = ?12,"
        "    mould_diameter_mm = ?13, mould_volume_ml = ?14, mould_cavities = ?15, mould_fill = ?16,"
        "    piece_kind = ?17, piece_count = ?18, piece_mass_g = ?19, piece_chance = ?20, piece_class = ?21,"
        "    piece_first_time = ?22, potassium_share = ?23, naoh_purity_given = ?24, naoh_purity_lo = ?25,"
        "    naoh_purity = ?26, naoh_purity_hi = ?27, koh_purity_given = ?28, koh_purity_lo = ?29, koh_purity = ?30,"
        "    koh_purity_hi = ?31, naoh_solution_share = ?32, koh_solution_share = ?33, water_by = ?34,"
        "    water_value = ?35, water_temp_c = ?36, scent = ?37, colour = ?38, residue_by = ?39, residue = ?40,"
        "    hushed = ?41"
        " WHERE id = ?1",
    [SQL_NOTE_UPDATE] = "UPDATE revision SET note = ?2 WHERE id = ?1",

    [SQL_OIL_SELECT] = "SELECT position, element, name, amount, sap_given, sap_lo, sap, sap_hi FROM revision_oil"
                       " WHERE revision_id = ?1 ORDER BY position",
    [SQL_OIL_COUNT] = "SELECT count(*) FROM revision_oil WHERE revision_id = ?1",
    [SQL_OIL_INSERT] =
        "INSERT INTO revision_oil (revision_id, position, element, name, amount, sap_given, sap_lo, sap, sap_hi)"
        " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
    [SQL_OIL_UPDATE] = "UPDATE revision_oil"
                       "   SET element = ?3, name = ?4, amount = ?5, sap_given = ?6, sap_lo = ?7, sap = ?8, sap_hi = ?9"
                       " WHERE revision_id = ?1 AND position = ?2",
    [SQL_OIL_DELETE] = "DELETE FROM revision_oil WHERE revision_id = ?1 AND position = ?2",
    [SQL_OIL_SHIFT] = "UPDATE revision_oil SET position = ?3 WHERE revision_id = ?1 AND position = ?2",

    [SQL_LIQUID_SELECT] =
        "SELECT position, element, name, share_of_water FROM revision_liquid WHERE revision_id = ?1 ORDER BY position",
    [SQL_LIQUID_COUNT] = "SELECT count(*) FROM revision_liquid WHERE revision_id = ?1",
    [SQL_LIQUID_INSERT] = "INSERT INTO revision_liquid (revision_id, position, element, name, share_of_water) VALUES "
                          "(?1, ?2, ?3, ?4, ?5)",
    [SQL_LIQUID_UPDATE] = "UPDATE revision_liquid SET element = ?3, name = ?4, share_of_water = ?5 WHERE revision_id = "
                          "?1 AND position = ?2",
    [SQL_LIQUID_DELETE] = "DELETE FROM revision_liquid WHERE revision_id = ?1 AND position = ?2",
    [SQL_LIQUID_SHIFT] = "UPDATE revision_liquid SET position = ?3 WHERE revision_id = ?1 AND position = ?2",

    [SQL_ADDITIVE_SELECT] = "SELECT position, element, name, dosed_by, value FROM revision_additive WHERE revision_id "
                            "= ?1 ORDER BY position",
    [SQL_ADDITIVE_COUNT] = "SELECT count(*) FROM revision_additive WHERE revision_id = ?1",
    [SQL_ADDITIVE_INSERT] = "INSERT INTO revision_additive (revision_id, position, element, name, dosed_by, value)"
                            " VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
    [SQL_ADDITIVE_UPDATE] = "UPDATE revision_additive SET element = ?3, name = ?4, dosed_by = ?5, value = ?6"
                            " WHERE revision_id = ?1 AND position = ?2",
    [SQL_ADDITIVE_DELETE] = "DELETE FROM revision_additive WHERE revision_id = ?1 AND position = ?2",
    [SQL_ADDITIVE_SHIFT] = "UPDATE revision_additive SET position = ?3 WHERE revision_id = ?1 AND position = ?2",

    [SQL_FRAGRANCE_SELECT] =
        "SELECT position, element, name, dosed_by, value, has_limit, limit_share, limit_from FROM revision_fragrance"
        " WHERE revision_id = ?1 ORDER BY position",
    [SQL_FRAGRANCE_COUNT] = "SELECT count(*) FROM revision_fragrance WHERE revision_id = ?1",
    [SQL_FRAGRANCE_INSERT] =
        "INSERT INTO revision_fragrance"
        "    (revision_id, position, element, name, dosed_by, value, has_limit, limit_share, limit_from)"
        " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
    [SQL_FRAGRANCE_UPDATE] =
        "UPDATE revision_fragrance"
        "   SET element = ?3, name = ?4, dosed_by = ?5, value = ?6, has_limit = ?7, limit_share = ?8, limit_from = ?9"
        " WHERE revision_id = ?1 AND position = ?2",
    [SQL_FRAGRANCE_DELETE] = "DELETE FROM revision_fragrance WHERE revision_id = ?1 AND position = ?2",
    [SQL_FRAGRANCE_SHIFT] = "UPDATE revision_fragrance SET position = ?3 WHERE revision_id = ?1 AND position = ?2",

    [SQL_PORTION_SELECT] = "SELECT position, element, name, demand, amount, has_pieces, piece_kind, piece_count, "
                           "piece_mass_g, piece_chance,"
                           "       piece_class, piece_first_time, scented, technique, blend_by, blend_value"
                           "  FROM revision_portion WHERE revision_id = ?1 ORDER BY position",
    [SQL_PORTION_COUNT] = "SELECT count(*) FROM revision_portion WHERE revision_id = ?1",
    [SQL_PORTION_INSERT] =
        "INSERT INTO revision_portion (revision_id, position, element, name, demand, amount, has_pieces, piece_kind,"
        "    piece_count, piece_mass_g, piece_chance, piece_class, piece_first_time, scented, technique, blend_by,"
        "    blend_value)"
        " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17)",
    [SQL_PORTION_UPDATE] =
        "UPDATE revision_portion SET element = ?3, name = ?4, demand = ?5, amount = ?6, has_pieces = ?7, piece_kind = "
        "?8,"
        "    piece_count = ?9, piece_mass_g = ?10, piece_chance = ?11, piece_class = ?12, piece_first_time = ?13,"
        "    scented = ?14, technique = ?15, blend_by = ?16, blend_value = ?17"
        " WHERE revision_id = ?1 AND position = ?2",
    [SQL_PORTION_DELETE] = "DELETE FROM revision_portion WHERE revision_id = ?1 AND position = ?2",
    [SQL_PORTION_SHIFT] = "UPDATE revision_portion SET position = ?3 WHERE revision_id = ?1 AND position = ?2",
    [SQL_PORTION_ID] = "SELECT id FROM revision_portion WHERE revision_id = ?1 AND position = ?2",

    /* All of a revision at once; a portion's are written one by one. */
    [SQL_COLOURANT_SELECT] =
        "SELECT revision_portion.position, portion_colourant.position, portion_colourant.element,"
        "       portion_colourant.name, dosed_by, value, carrier_oil, carrier_ratio, carrier_reserved"
        "  FROM revision_portion CROSS JOIN portion_colourant ON portion_id = revision_portion.id"
        " WHERE revision_id = ?1 ORDER BY revision_portion.position, portion_colourant.position",
    [SQL_COLOURANT_INSERT] =
        "INSERT INTO portion_colourant"
        "    (portion_id, position, element, name, dosed_by, value, carrier_oil, carrier_ratio, carrier_reserved)"
        " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
    [SQL_COLOURANT_DELETE] = "DELETE FROM portion_colourant WHERE portion_id = ?1",

    [SQL_SCALE_SELECT] = "SELECT position, name, division_ug, capacity_ug, accuracy_ug, vessel_ug FROM revision_scale"
                         " WHERE revision_id = ?1 ORDER BY position",
    [SQL_SCALE_COUNT] = "SELECT count(*) FROM revision_scale WHERE revision_id = ?1",
    [SQL_SCALE_INSERT] =
        "INSERT INTO revision_scale (revision_id, position, name, division_ug, capacity_ug, accuracy_ug, vessel_ug)"
        " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
    [SQL_SCALE_UPDATE] =
        "UPDATE revision_scale SET name = ?3, division_ug = ?4, capacity_ug = ?5, accuracy_ug = ?6, vessel_ug = ?7"
        " WHERE revision_id = ?1 AND position = ?2",
    [SQL_SCALE_DELETE] = "DELETE FROM revision_scale WHERE revision_id = ?1 AND position = ?2",
    [SQL_SCALE_SHIFT] = "UPDATE revision_scale SET position = ?3 WHERE revision_id = ?1 AND position = ?2",

    [SQL_INGREDIENT_FIND] = "SELECT id FROM ingredient WHERE kind = ?1 AND name = ?2",
    [SQL_INGREDIENT_INSERT] = "INSERT INTO ingredient (uuid, kind, name, key, changed_s) VALUES (?1, ?2, ?3, ?4, ?5)",
    [SQL_INGREDIENT_UPDATE] = "UPDATE ingredient SET name = ?2, key = ?3, changed_s = ?4, archived = 0 WHERE id = ?1",
    [SQL_INGREDIENT_ARCHIVE] = "UPDATE ingredient SET archived = 1, changed_s = ?3 WHERE kind = ?1 AND name = ?2",
    [SQL_FACT_INSERT] = "INSERT INTO ingredient_fact (ingredient_id, member, number, text, standing, source)"
                        " VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
    [SQL_FACT_DELETE] = "DELETE FROM ingredient_fact WHERE ingredient_id = ?1",
    /* An archived entry that goes before one of the reference is left out: the reference's is there to read old recipes by. */
    [SQL_SHELF_FACTS] = "SELECT ingredient.id, archived, kind, name, key, member, number, text, standing, source"
                        "  FROM ingredient LEFT JOIN ingredient_fact ON ingredient_id = ingredient.id"
                        " WHERE archived = 0 OR key = name COLLATE NOCASE"
                        " ORDER BY archived, kind, name, ingredient.id, member",

    /* Of the running ones finished_s is 0 by the index; to ask for it makes a search of what would be a scan. */
    [SQL_BATCHES_RUNNING] = "SELECT id, number, name, started_s, finished_s, set_aside, oils_ug FROM batch"
                            " WHERE finished_s = 0 AND set_aside = 0 ORDER BY started_s, id",
    [SQL_BATCHES_NEWEST] = "SELECT id, number, name, started_s, finished_s, set_aside, oils_ug FROM batch"
                           " ORDER BY started_s DESC, id DESC",
    [SQL_BATCH_TAKEN] = "SELECT number FROM batch WHERE number = ?1 OR uuid = ?2",
    [SQL_BATCH_INSERT] = "INSERT INTO batch (uuid, oils_ug, number, name, recipe_id, revision, started_s, utc_offset)"
                         " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
    [SQL_BATCH_SELECT] =
        "SELECT uuid, number, name, recipe_id, revision, started_s, utc_offset FROM batch WHERE id = ?1",
    [SQL_BATCH_VESSEL_INSERT] = "INSERT INTO batch_vessel (batch_id, position, name, empty_ug) VALUES (?1, ?2, ?3, ?4)",
    [SQL_BATCH_VESSEL_SELECT] =
        "SELECT position, name, empty_ug FROM batch_vessel WHERE batch_id = ?1 ORDER BY position",
    [SQL_BATCH_FROZEN_INSERT] = "INSERT INTO batch_frozen (batch_id, recipe, bench) VALUES (?1, ?2, ?3)",
    [SQL_BATCH_FROZEN_SELECT] = "SELECT recipe, bench FROM batch_frozen WHERE batch_id = ?1",
    [SQL_BATCH_STEP_INSERT] =
        "INSERT INTO batch_step"
        "    (batch_id, id, kind, place, part, part_index, part_sub, vessel_use, vessel, target_ug, text)"
        " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)",
    [SQL_BATCH_STEPS] =
        "SELECT id, kind, place, part, part_index, part_sub, vessel_use, vessel, target_ug, text FROM batch_step"
        " WHERE batch_id = ?1 ORDER BY id",
    /* No step and no other event is 0 in the model, and NULL where it would be a reference. */
    [SQL_BATCH_EVENT_INSERT] =
        "INSERT INTO batch_event (batch_id, id, at_s, kind, step, part, part_index, part_sub, mass_ug, planned_ug,"
        "    reading_ug, scale, number_1, number_2, other, text)"
        " VALUES (?1, ?2, ?3, ?4, nullif(?5, 0), ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, nullif(?15, 0), ?16)",
    [SQL_BATCH_EVENTS] = "SELECT id, at_s, kind, coalesce(step, 0), part, part_index, part_sub, mass_ug, planned_ug,"
                         "       reading_ug, scale, number_1, number_2, coalesce(other, 0), text"
                         "  FROM batch_event WHERE batch_id = ?1 AND id > ?2 ORDER BY id",
    [SQL_BATCH_ENDS] = "SELECT (SELECT max(id) FROM batch_step WHERE batch_id = batch.id),"
                       "       (SELECT max(id) FROM batch_event WHERE batch_id = batch.id)"
                       "  FROM batch WHERE id = ?1",
    /* Those that go on with a digit: ':' comes after '9'. */
    [SQL_BATCH_NUMBERS] = "SELECT number FROM batch WHERE number >= ?1 || '0' AND number < ?1 || ':'",
    [SQL_BATCH_ACKNOWLEDGED] =
        "SELECT at_s FROM batch_event AS said WHERE kind = 'acknowledged' AND at_s >= 0"
        "   AND NOT EXISTS (SELECT 1 FROM batch_event AS back"
        "                   WHERE back.batch_id = said.batch_id AND back.other = said.id AND back.kind = 'taken back')"
        " ORDER BY at_s DESC LIMIT 1",
    /* The last count of each kind of pieces of a batch, less what was placed from it: the text of that names both. */
    [SQL_BATCH_RUNS] = "SELECT 1 FROM batch WHERE id = ?1 AND finished_s = 0 AND set_aside = 0",
    [SQL_PIECES] =
        "SELECT number, counted.text, counted.at_s, CAST(counted.number_1 - coalesce("
        "    (SELECT sum(number_1) FROM batch_event AS placed"
        "      WHERE placed.kind = 'placed' AND placed.text = number || ' ' || counted.text AND NOT EXISTS"
        "            (SELECT 1 FROM batch_event AS back WHERE back.batch_id = placed.batch_id"
        "             AND back.other = placed.id AND back.kind = 'taken back')), 0) AS INTEGER) AS on_shelf"
        "  FROM batch_event AS counted JOIN batch ON batch.id = counted.batch_id"
        " WHERE counted.kind = 'recounted' AND on_shelf > 0 AND NOT EXISTS"
        "       (SELECT 1 FROM batch_event AS back WHERE back.batch_id = counted.batch_id"
        "        AND back.other = counted.id AND back.kind = 'taken back') AND NOT EXISTS"
        "       (SELECT 1 FROM batch_event AS later"
        "         WHERE later.kind = 'recounted' AND later.text = counted.text AND later.batch_id = counted.batch_id"
        "           AND later.id > counted.id AND NOT EXISTS"
        "               (SELECT 1 FROM batch_event AS back WHERE back.batch_id = later.batch_id"
        "                AND back.other = later.id AND back.kind = 'taken back'))"
        " ORDER BY counted.at_s, batch.id",
    [SQL_BATCHES_ALL] = "SELECT id, number FROM batch ORDER BY id",
    /* For each batch the first of enum batch_fault that it has. */
    [SQL_BATCH_FAULTS] =
        "SELECT number, CASE"
        "    WHEN (SELECT count(*) FROM batch_event WHERE batch_id = batch.id)"
        "         <> (SELECT coalesce(max(id), 0) FROM batch_event WHERE batch_id = batch.id) THEN 1"
        "    WHEN (SELECT count(*) FROM batch_step WHERE batch_id = batch.id)"
        "         <> (SELECT coalesce(max(id), 0) FROM batch_step WHERE batch_id = batch.id) THEN 2"
        "    WHEN EXISTS (SELECT 1 FROM batch_event WHERE batch_id = batch.id AND step IS NOT NULL AND NOT EXISTS"
        "                 (SELECT 1 FROM batch_step WHERE batch_step.batch_id = batch.id AND batch_step.id = step)) "
        "THEN 3"
        "    WHEN EXISTS (SELECT 1 FROM batch_event WHERE batch_id = batch.id AND other IS NOT NULL AND NOT EXISTS"
        "                 (SELECT 1 FROM batch_event AS named WHERE named.batch_id = batch.id"
        "                  AND named.id = batch_event.other AND named.id < batch_event.id)) THEN 4"
        "    WHEN (finished_s, set_aside) IS NOT"
        "         (SELECT said.finished_s, said.set_aside FROM batch_said AS said WHERE said.batch_id = batch.id) THEN "
        "5"
        "    WHEN NOT EXISTS (SELECT 1 FROM batch_frozen WHERE batch_id = batch.id) THEN 6"
        "    END AS fault"
        "  FROM batch WHERE fault IS NOT NULL ORDER BY id",

    [SQL_BOOK_DUE] = "SELECT batch_id FROM book_due ORDER BY batch_id LIMIT ?1",
    [SQL_BOOK_DUE_COUNT] = "SELECT count(*) FROM book_due",
    [SQL_BOOK_DONE] = "DELETE FROM book_due WHERE batch_id = ?1",
    [SQL_BOOK_DUE_AGAIN] = "INSERT OR IGNORE INTO book_due SELECT id FROM batch WHERE id = ?1"
                           "    AND EXISTS (SELECT 1 FROM batch_event WHERE batch_id = ?1 AND batch_event.id > ?2)",
    [SQL_BOOK_WRITE] =
        "INSERT OR REPLACE INTO book"
        "    (place, batch_id, name, last_event, outcome, left_out, until_least, technique, want, want_s, " FIGURES ")"
        " SELECT started_s * 16777216 + id, id, name, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, "
        "?16,"
        "        ?17, ?18, ?19, ?20, ?21, ?22, ?23, ?24, ?25, ?26, ?27, ?28, ?29, ?30, ?31, ?32 FROM batch"
        " WHERE id = ?1",
    [SQL_BOOK_PIECES_DELETE] = "DELETE FROM book_pieces WHERE batch_id = ?1",
    [SQL_BOOK_PIECES_INSERT] =
        "INSERT INTO book_pieces (batch_id, position, kind, part, class, first_time, counted, good, rejects, made, "
        "each_g,"
        "    within_squares, within_degrees) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)",
    /* The words: ?2 recipe, ?3 colourants, ?4 fragrances, ?5 what was said. Those in the index are taken out by what they were. */
    [SQL_BOOK_TEXT_SAME] =
        "SELECT 1 FROM book JOIN book_text ON book_text.place = book.place WHERE batch_id = ?1"
        "   AND recipe = ?2 AND colourant = ?3 AND fragrance = ?4 AND said = ?5 AND book_text.outcome = book.outcome",
    [SQL_BOOK_WORDS_DELETE] =
        "INSERT INTO book_words (book_words, rowid, recipe, colourant, fragrance, outcome, day, said)"
        " SELECT 'delete', place, recipe, colourant, fragrance, outcome, day, said"
        "   FROM book_text WHERE place = (SELECT place FROM book WHERE batch_id = ?1)",
    [SQL_BOOK_TEXT_WRITE] = "INSERT OR REPLACE INTO book_text (place, recipe, colourant, fragrance, said, outcome, day)"
                            " SELECT place, ?2, ?3, ?4, ?5, outcome,"
                            "        coalesce(strftime('%Y%m%d %Y%m %Y', started_s + utc_offset, 'unixepoch'), '')"
                            "   FROM book JOIN batch ON batch.id = batch_id WHERE batch_id = ?1",
    [SQL_BOOK_WORDS_INSERT] = "INSERT INTO book_words (rowid, recipe, colourant, fragrance, outcome, day, said)"
                              " SELECT place, recipe, colourant, fragrance, outcome, day, said"
                              "   FROM book_text WHERE place = (SELECT place FROM book WHERE batch_id = ?1)",
    [SQL_BOOK_TOKENIZERS] = "SELECT fts5(?1)",
    [SQL_BOOK_NEWEST] = LINE "  FROM book CROSS JOIN batch ON batch.id = batch_id"
                             " WHERE place >= ?1 AND place < ?2 ORDER BY place DESC LIMIT ?3",
    [SQL_BOOK_COUNTED_NEWEST] = LINE "  FROM book CROSS JOIN batch ON batch.id = batch_id"
                                     " WHERE " COUNTED " AND place >= ?1 AND place < ?2 ORDER BY place DESC LIMIT ?3",
    [SQL_BOOK_FOUND_NEWEST] = LINE "  FROM book_words CROSS JOIN book ON place = book_words.rowid"
                                   "       CROSS JOIN batch ON batch.id = batch_id"
                                   " WHERE book_words MATCH ?4 AND book_words.rowid >= ?1 AND book_words.rowid < ?2"
                                   "   AND (?5 = 0 OR " COUNTED ") ORDER BY book_words.rowid DESC LIMIT ?3",
    [SQL_BOOK_OLDEST] = LINE "  FROM book CROSS JOIN batch ON batch.id = batch_id"
                             " WHERE place >= ?1 AND place < ?2 ORDER BY place LIMIT ?3",
    [SQL_BOOK_COUNTED_OLDEST] = LINE "  FROM book CROSS JOIN batch ON batch.id = batch_id"
                                     " WHERE " COUNTED " AND place >= ?1 AND place < ?2 ORDER BY place LIMIT ?3",
    [SQL_BOOK_FOUND_OLDEST] = LINE "  FROM book_words CROSS JOIN book ON place = book_words.rowid"
                                   "       CROSS JOIN batch ON batch.id = batch_id"
                                   " WHERE book_words MATCH ?4 AND book_words.rowid >= ?1 AND book_words.rowid < ?2"
                                   "   AND (?5 = 0 OR " COUNTED ") ORDER BY book_words.rowid LIMIT ?3",
    /* To look for a stretch of time in another order SQLite would sort that stretch. */
    [SQL_BOOK_BY_RECIPE] = LINE "  FROM book INDEXED BY book_recipe CROSS JOIN batch ON batch.id = batch_id"
                                " WHERE (book.name, age) > (?4, ?5) AND place >= ?1 AND place < ?2"
                                " ORDER BY book.name, age LIMIT ?3",
    [SQL_BOOK_BY_RECIPE_BACK] = LINE "  FROM book INDEXED BY book_recipe CROSS JOIN batch ON batch.id = batch_id"
                                     " WHERE (book.name, age) < (?4, ?5) AND place >= ?1 AND place < ?2"
                                     " ORDER BY book.name DESC, age DESC LIMIT ?3",
    [SQL_BOOK_BY_SUPERFAT] = LINE
    "  FROM book INDEXED BY book_superfat CROSS JOIN batch ON batch.id = batch_id"
    " WHERE superfat IS NOT NULL AND (superfat, age) > (?4, ?5) AND place >= ?1 AND place < ?2"
    " ORDER BY superfat, age LIMIT ?3",
    [SQL_BOOK_BY_SUPERFAT_BACK] = LINE
    "  FROM book INDEXED BY book_superfat CROSS JOIN batch ON batch.id = batch_id"
    " WHERE superfat IS NOT NULL AND (superfat, age) < (?4, ?5) AND place >= ?1 AND place < ?2"
    " ORDER BY superfat DESC, age DESC LIMIT ?3",
    [SQL_BOOK_BY_REJECTS] = LINE
    "  FROM book INDEXED BY book_rejects CROSS JOIN batch ON batch.id = batch_id"
    " WHERE rejects IS NOT NULL AND (rejects, age) > (?4, ?5) AND place >= ?1 AND place < ?2"
    " ORDER BY rejects, age LIMIT ?3",
    [SQL_BOOK_BY_REJECTS_BACK] = LINE
    "  FROM book INDEXED BY book_rejects CROSS JOIN batch ON batch.id = batch_id"
    " WHERE rejects IS NOT NULL AND (rejects, age) < (?4, ?5) AND place >= ?1 AND place < ?2"
    " ORDER BY rejects DESC, age DESC LIMIT ?3",
    [SQL_BOOK_BY_EACH] = LINE "  FROM book INDEXED BY book_each CROSS JOIN batch ON batch.id = batch_id"
                              " WHERE each_g IS NOT NULL AND (each_g, age) > (?4, ?5) AND place >= ?1 AND place < ?2"
                              " ORDER BY each_g, age LIMIT ?3",
    [SQL_BOOK_BY_EACH_BACK] = LINE
    "  FROM book INDEXED BY book_each CROSS JOIN batch ON batch.id = batch_id"
    " WHERE each_g IS NOT NULL AND (each_g, age) < (?4, ?5) AND place >= ?1 AND place < ?2"
    " ORDER BY each_g DESC, age DESC LIMIT ?3",
    [SQL_BOOK_BY_WINDOW] = LINE
    "  FROM book INDEXED BY book_window CROSS JOIN batch ON batch.id = batch_id"
    " WHERE window_min IS NOT NULL AND (window_min, age) > (?4, ?5) AND place >= ?1 AND place < ?2"
    " ORDER BY window_min, age LIMIT ?3",
    [SQL_BOOK_BY_WINDOW_BACK] = LINE
    "  FROM book INDEXED BY book_window CROSS JOIN batch ON batch.id = batch_id"
    " WHERE window_min IS NOT NULL AND (window_min, age) < (?4, ?5) AND place >= ?1 AND place < ?2"
    " ORDER BY window_min DESC, age DESC LIMIT ?3",
    [SQL_BOOK_COUNT] = "SELECT count(*) FROM (SELECT 1 FROM book WHERE place >= ?1 AND place < ?2 LIMIT ?3)",
    [SQL_BOOK_COUNT_COUNTED] = "SELECT count(*) FROM"
                               "    (SELECT 1 FROM book WHERE " COUNTED " AND place >= ?1 AND place < ?2 LIMIT ?3)",
    [SQL_BOOK_COUNT_FOUND] =
        "SELECT count(*) FROM"
        "    (SELECT 1 FROM book_words WHERE book_words MATCH ?4 AND rowid >= ?1 AND rowid < ?2"
        "        AND (?5 = 0 OR EXISTS (SELECT 1 FROM book WHERE place = book_words.rowid AND " COUNTED "))"
        "      LIMIT ?3)",
    [SQL_BOOK_LINE] = LINE "  FROM book CROSS JOIN batch ON batch.id = batch_id WHERE batch_id = ?1",
    [SQL_BOOK_WANTS] = LINE "  FROM book CROSS JOIN batch ON batch.id = batch_id"
                            " WHERE want <> 'nothing' AND want_s >= ?1 AND want_s <= ?2 ORDER BY want_s LIMIT ?3",
    [SQL_BOOK_FIND] = "SELECT id FROM batch WHERE number = ?1",
    [SQL_BOOK_PIECES] =
        "SELECT book.batch_id, kind, part, class, first_time, counted, book_pieces.good, book_pieces.rejects, made,"
        "       book_pieces.each_g, within_squares, within_degrees"
        "  FROM book CROSS JOIN book_pieces ON book_pieces.batch_id = book.batch_id"
        " WHERE " COUNTED " AND place > 0 ORDER BY place DESC, position LIMIT ?1",
    /* From each name to the next, not over all batches. */
    [SQL_BOOK_RECIPES] =
        "WITH RECURSIVE called (called) AS"
        "    (SELECT * FROM (SELECT name FROM book WHERE name > '' ORDER BY name LIMIT 1)"
        "     UNION ALL SELECT (SELECT name FROM book WHERE name > called ORDER BY name LIMIT 1) FROM called"
        "      WHERE called IS NOT NULL)"
        " SELECT called FROM called WHERE called IS NOT NULL LIMIT ?1",
    [SQL_BOOK_COLOURANTS] =
        "SELECT portion_colourant.name FROM revision JOIN revision_portion ON revision_id = revision.id"
        "       JOIN portion_colourant ON portion_id = revision_portion.id"
        " WHERE EXISTS (SELECT 1 FROM batch WHERE batch.recipe_id = revision.recipe_id AND batch.revision = "
        "revision.number)"
        " GROUP BY portion_colourant.name COLLATE NOCASE ORDER BY portion_colourant.name COLLATE NOCASE LIMIT ?1",
    [SQL_BOOK_FRAGRANCES] =
        "SELECT revision_fragrance.name FROM revision JOIN revision_fragrance ON revision_id = revision.id"
        " WHERE EXISTS (SELECT 1 FROM batch WHERE batch.recipe_id = revision.recipe_id AND batch.revision = "
        "revision.number)"
        " GROUP BY revision_fragrance.name COLLATE NOCASE ORDER BY revision_fragrance.name COLLATE NOCASE LIMIT ?1",

    [SQL_SETTING_SELECT] = "SELECT value FROM setting WHERE key = ?1",
    [SQL_SETTING_INSERT] = "INSERT INTO setting (key, value) VALUES (?1, ?2)",
    [SQL_SETTING_DELETE] = "DELETE FROM setting",
    [SQL_BENCH_SCALE_SELECT] =
        "SELECT position, name, division_ug, capacity_ug, accuracy_ug, vessel_ug FROM scale ORDER BY position",
    [SQL_BENCH_SCALE_INSERT] = "INSERT INTO scale (position, name, division_ug, capacity_ug, accuracy_ug, vessel_ug)"
                               " VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
    [SQL_BENCH_SCALE_DELETE] = "DELETE FROM scale",
    [SQL_VESSEL_SELECT] = "SELECT position, name, empty_ug FROM vessel ORDER BY position",
    [SQL_VESSEL_INSERT] = "INSERT INTO vessel (position, name, empty_ug) VALUES (?1, ?2, ?3)",
    [SQL_VESSEL_DELETE] = "DELETE FROM vessel",
    [SQL_BENCH_KEY_SELECT] = "SELECT position, action, key FROM bench_key ORDER BY position",
    [SQL_BENCH_KEY_INSERT] = "INSERT INTO bench_key (position, action, key) VALUES (?1, ?2, ?3)",
    [SQL_BENCH_KEY_DELETE] = "DELETE FROM bench_key",
};

const char *sql_text(enum sql sql)
{
    return texts[sql];
}
