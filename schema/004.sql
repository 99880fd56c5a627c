-- What a batch comes to is found by better rules than before (what was found in jug and bag, a bag that is empty, a reject scraped
-- back), so every row of the book is found anew.
INSERT OR IGNORE INTO book_due SELECT id FROM batch;
