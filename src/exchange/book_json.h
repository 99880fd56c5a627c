/* book_json.h - lines of the book as JSON, in the form that schema/ describes. Masses in grams, shares in percent. */
#ifndef EXCHANGE_BOOK_JSON_H
#define EXCHANGE_BOOK_JSON_H

#include "exchange/json_write.h"
#include "lyeway/book.h"

/* {"lyeway": 1, "book": [ and what closes it; between them any number of lines. */
struct json_writer book_json_begin(struct buffer *out);
void book_json_line(struct json_writer *writer, const struct book_line *line);
void book_json_end(struct json_writer *writer);

#endif
