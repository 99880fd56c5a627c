/* program.h - runs the built program as a shell would and keeps what it wrote and how it ended. */
#ifndef TESTS_APP_PROGRAM_H
#define TESTS_APP_PROGRAM_H

#include <stddef.h>

struct run {
    int status;      /* exit status; -1: it did not exit by itself */
    char *out, *err; /* all of both outputs, closed by NUL; freed by the next run */
    size_t out_bytes;
};

enum { RUN_WORDS = 16 };

/* Runs it with these words (up to a NULL), `input` on standard input. The result is valid until the next run. */
const struct run *run_with(const char *input, const char *const words[RUN_WORDS]);

/* The same with standard output sent to a file, or with NULL to a pipe that nobody reads; run.out is then "". */
const struct run *run_into(const char *output, const char *const words[RUN_WORDS]);

/* Words as a list, without input. */
#define RUN(...) run_with("", (const char *const[RUN_WORDS]){__VA_ARGS__})

/* A file in a folder of this test program, which is removed at its end; path valid until the program ends. */
const char *file_with(const char *name, const char *text);
const char *test_folder(void);

#endif
