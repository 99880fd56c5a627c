/* arguments.c - one pass over the words. */
#include "app/arguments.h"

#include <string.h>

#include "base/error.h"
#include "base/utf8.h"

enum { SHOWN_BYTES = 96, SHOWN_COLUMNS = 48 };

static enum lw_status refuse(struct lw_error *error, const char *word, const char *why)
{
    char shown[SHOWN_BYTES];

    utf8_clean(shown, sizeof shown, word, SHOWN_COLUMNS);
    return lw_fail(error, LW_INVALID, "%s %s.", shown, why);
}

/* The option that `word` names, before an "=" where it has one. */
static struct option *find(struct arguments *arguments, const char *word)
{
    size_t length = strcspn(word, "=");

    for (size_t i = 0; i < arguments->options; i++)
        if (strlen(arguments->option[i].name) == length && strncmp(arguments->option[i].name, word, length) == 0)
            return &arguments->option[i];
    return NULL;
}

/* Reads the option at argv[*at]; moves *at to its value where that is the next word. */
static enum lw_status read_option(struct arguments *arguments, int argc, char *const argv[], int *at,
                                  struct lw_error *error)
{
    const char *word = argv[*at], *equals = strchr(word, '=');
    struct option *option = find(arguments, word);

    if (!option)
        return refuse(error, word, "is not an option that is known here");
    if (option->given)
        return refuse(error, option->name, "is given twice");
    option->given = true;
    if (!option->takes_value)
        return equals ? refuse(error, option->name, "takes no value") : LW_OK;
    if (!equals && *at + 1 >= argc)
        return refuse(error, option->name, "wants a value after it");
    option->value = equals ? equals + 1 : argv[++*at];
    return LW_OK;
}

enum lw_status arguments_read(struct arguments *arguments, int argc, char *const argv[], struct lw_error *error)
{
    bool ended = false;

    arguments->operands = 0;
    for (int i = 0; i < argc; i++) {
        if (!ended && strcmp(argv[i], "--") == 0) {
            ended = true;
            continue;
        }
        if (!ended && argv[i][0] == '-' && argv[i][1] != '\0') {
            enum lw_status status = read_option(arguments, argc, argv, &i, error);

            if (status != LW_OK)
                return status;
            continue;
        }
        if (arguments->operands == OPERANDS_MOST)
            return refuse(error, argv[i], "is one word too many");
        arguments->operand[arguments->operands++] = argv[i];
    }
    return LW_OK;
}
