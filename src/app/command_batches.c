/* command_batches.c - lyeway batches: the book as a table or as JSON. */
#include "app/arguments.h"
#include "app/command.h"
#include "app/files.h"
#include "app/session.h"
#include "base/text.h"
#include "work/book.h"

enum { WORDS_BYTES = 512 };

/* The words as one text, as they would be typed. */
static void join(const struct arguments *arguments, char words[WORDS_BYTES])
{
    words[0] = '\0';
    for (int i = 0; i < arguments->operands; i++)
        text_add(words, WORDS_BYTES, "%s%s", i > 0 ? " " : "", arguments->operand[i]);
}

enum command_exit command_batches(const struct command_call *call)
{
    struct option option[] = {{.name = "--json"}};
    struct arguments arguments = {.option = option, .options = 1};
    struct workshop *workshop;
    struct lw_error error = {""};
    char words[WORDS_BYTES];
    enum command_exit exit;
    enum lw_status status;

    if (arguments_read(&arguments, call->argc, call->argv, &error) != LW_OK)
        return command_fail(call, COMMAND_USAGE, &error);
    exit = session_open(call, false, &workshop);
    if (exit != COMMAND_DONE)
        return exit;
    join(&arguments, words);
    status = book_print(workshop, words, option[0].given, files_print, &error);
    if (status != LW_OK)
        exit = command_fail(call, session_exit(status), &error);
    return session_close(call, workshop, exit);
}
