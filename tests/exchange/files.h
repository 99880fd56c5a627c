/* files.h - sample files, read and changed. */
#ifndef TESTS_EXCHANGE_FILES_H
#define TESTS_EXCHANGE_FILES_H

#include "exchange/recipe_file.h"

/* A whole file under tests/exchange/data/; to be freed. Ends the test program if it cannot be read. */
char *sample_file(const char *name);

/* `text` with the one place where `from` stands replaced by `to`; to be freed. NULL if it does not stand there exactly
 * once. */
char *changed(const char *text, const char *from, const char *to);

/* recipe_file_read under the name "test.json", with the reference rows of the program. */
enum lw_status read_text_as_file(const char *text, size_t n, struct recipe_file **file, struct lw_error *error);

#endif
