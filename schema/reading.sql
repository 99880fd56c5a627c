-- reading: plain views of the records for the sqlite3 shell, for one session of it and without a write to the file:
--
--     sqlite3 -readonly -init schema/reading.sql lyeway.db
--
-- They do not stand in the file, since SQLite parses all that does whenever the file is opened.

CREATE TEMP VIEW recipe_reading AS
SELECT recipe.id, lower(hex(uuid)) AS uuid, name, purpose, round(100 * superfat, 3) AS superfat_percent,
       (SELECT count(*) FROM revision AS sealed WHERE sealed.recipe_id = recipe.id AND sealed.number IS NOT NULL) AS revisions,
       archived, datetime(changed_s, 'unixepoch') AS changed_utc, note
FROM recipe JOIN revision ON revision.recipe_id = recipe.id AND revision.number IS NULL;

CREATE TEMP VIEW recipe_oil_reading AS
SELECT revision.name AS recipe, coalesce(revision.number, 'draft') AS revision, position + 1 AS place, revision_oil.name AS oil,
       CASE oils_by WHEN 'share' THEN round(100 * amount, 3) || ' %' ELSE amount || ' g' END AS amount
FROM revision JOIN revision_oil ON revision_oil.revision_id = revision.id;

CREATE TEMP VIEW recipe_portion_reading AS
SELECT revision.name AS recipe, coalesce(revision.number, 'draft') AS revision, position + 1 AS place,
       revision_portion.name AS portion, demand, amount, technique, scented,
       (SELECT group_concat(portion_colourant.name, ', ') FROM portion_colourant
        WHERE portion_id = revision_portion.id) AS colourants
FROM revision JOIN revision_portion ON revision_portion.revision_id = revision.id;

CREATE TEMP VIEW ingredient_reading AS
SELECT kind, name, member, coalesce(number, text) AS value, standing, source, archived
FROM ingredient JOIN ingredient_fact ON ingredient_fact.ingredient_id = ingredient.id;

-- Moments of batches are as the clock on the maker's wall had them.

-- A batch a row. state: on the bench, finished, set aside.
CREATE TEMP VIEW batch_reading AS
SELECT batch.id, lower(hex(uuid)) AS uuid, number, name AS recipe, revision,
       datetime(started_s + utc_offset, 'unixepoch') AS started_local,
       CASE WHEN finished_s > 0 THEN datetime(finished_s + utc_offset, 'unixepoch') END AS finished_local,
       CASE WHEN set_aside THEN 'set aside' WHEN finished_s > 0 THEN 'finished' ELSE 'on the bench' END AS state,
       oils_ug / 1e6 AS oils_g,
       (SELECT count(*) FROM batch_step WHERE batch_id = batch.id) AS steps,
       (SELECT count(*) FROM batch_event WHERE batch_id = batch.id) AS events
FROM batch;

-- An event a row, in order within its batch. what: the ingredient or portion by its name in the recipe. counts: 0 where a later
-- event (taken_back_by) takes it back. What number_1 and number_2 mean depends on the kind: lengths in s, temperatures in C.
CREATE TEMP VIEW event_reading AS
SELECT batch.number AS batch, event.id AS event, datetime(event.at_s + batch.utc_offset, 'unixepoch') AS at_local, event.kind,
       step.kind AS step,
       CASE event.part
           WHEN 'oil' THEN (SELECT name FROM revision_oil WHERE revision_id = revision.id AND position = event.part_index)
           WHEN 'alkali' THEN CASE event.part_index WHEN 0 THEN 'NaOH' ELSE 'KOH' END
           WHEN 'liquid' THEN (SELECT name FROM revision_liquid WHERE revision_id = revision.id AND position = event.part_index)
           WHEN 'additive' THEN (SELECT name FROM revision_additive
                                 WHERE revision_id = revision.id AND position = event.part_index)
           WHEN 'fragrance' THEN (SELECT name FROM revision_fragrance
                                  WHERE revision_id = revision.id AND position = event.part_index)
           WHEN 'portion' THEN coalesce((SELECT name FROM revision_portion
                                         WHERE revision_id = revision.id AND position = event.part_index), 'the rest')
           WHEN 'colourant' THEN (SELECT portion_colourant.name
                                  FROM revision_portion JOIN portion_colourant ON portion_id = revision_portion.id
                                  WHERE revision_id = revision.id AND revision_portion.position = event.part_index
                                    AND portion_colourant.position = event.part_sub)
           ELSE event.part END AS what,
       event.mass_ug / 1e6 AS mass_g, event.planned_ug / 1e6 AS planned_g, event.reading_ug / 1e6 AS reading_g,
       number_1, number_2, event.text, other,
       (SELECT min(id) FROM batch_event AS back
        WHERE back.batch_id = event.batch_id AND back.other = event.id AND back.kind = 'taken back') AS taken_back_by,
       NOT EXISTS (SELECT 1 FROM batch_event AS back
                   WHERE back.batch_id = event.batch_id AND back.other = event.id AND back.kind = 'taken back') AS counts
FROM batch_event AS event
     JOIN batch ON batch.id = event.batch_id
     JOIN revision ON revision.recipe_id = batch.recipe_id AND revision.number = batch.revision
     LEFT JOIN batch_step AS step ON step.batch_id = event.batch_id AND step.id = event.step;

-- A weighing a row: planned against actual, and by how much it was off.
CREATE TEMP VIEW weighing_reading AS
SELECT batch, event, at_local, step, what, planned_g, mass_g, round(mass_g - planned_g, 6) AS off_g, reading_g, counts
FROM event_reading WHERE kind = 'weighed';

-- A batch of the book a row: what its record comes to. due: it has grown since, and Lyeway will find the row anew. until_at_least: the
-- batter was still workable when it was used up. A figure that was not taken is NULL.
CREATE TEMP VIEW book_reading AS
SELECT batch.number AS batch, book.name AS recipe, datetime(started_s + utc_offset, 'unixepoch') AS started_local, outcome, left_out,
       technique, oils_g, batter_g, round(100 * superfat, 3) AS superfat_percent, round(100 * strength, 3) AS strength_percent,
       temp_c, round(100 * saturated, 3) AS saturated_percent, scent AS fragrance_speed, from_min, until_min,
       until_least AS until_at_least, window_min, pieces, good, round(100 * rejects, 3) AS rejects_percent, each_g, seconds_each,
       jug_g, bag_g, density_g_ml, round(100 * air, 3) AS air_percent, bars, lightest_g,
       round(100 * cure_loss, 3) AS cure_loss_percent, round(100 * cure_rate, 3) AS cure_rate_percent_a_day, cured_days,
       EXISTS (SELECT 1 FROM book_due WHERE book_due.batch_id = batch.id) AS due
FROM book JOIN batch ON batch.id = book.batch_id;
