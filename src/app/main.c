/* main.c - the command line: options for the whole program, then a command from the table. */
#include <signal.h>
#include <stdio.h>
#include <string.h>

#include "app/command.h"
#include "app/files.h"
#include "base/buffer.h"
#include "base/error.h"
#include "base/utf8.h"

#define VERSION "0.1.0"

enum { HELP_MOST_BYTES = 64 * 1024, SHOWN_BYTES = 96, SHOWN_COLUMNS = 48 };

static const struct command command[] = {
    {"plan", "plan (FILE [NAME] | NAME) [--oils MASS | --batter MASS] [--json] [--strict]",
     "the bench sheet of a recipe, or all figures of its plan as JSON", command_plan},
};
enum { COMMANDS = sizeof command / sizeof *command };

static const char *const help_text =
    "\n"
    "FILE is a recipe file in JSON; \"-\" is standard input. MASS is a number with a unit,\n"
    "as in 500, 500g, 12 oz, 1.2 kg, \"1 lb 3 oz\" or 250/3; without a unit it is grams.\n"
    "\n"
    "Exit status: 0 done, 1 refused, 2 wrong usage, 3 trouble with the records,\n"
    "4 a stop finding under --strict.\n"
    "\n"
    "Published ranges do not replace the supplier's certificate. Alkali burns skin and\n"
    "blinds eyes: goggles and gloves on.\n";

static void add_usage(struct buffer *out)
{
    buffer_add(out, "usage:\n");
    for (int i = 0; i < COMMANDS; i++)
        buffer_add(out, "  lyeway [--demo] %s\n      %s\n", command[i].usage, command[i].summary);
    buffer_add(out, "  lyeway --help | --version\n");
}

static enum command_exit print(const char *text)
{
    struct lw_error error = {""};

    if (files_print(text, &error) == LW_OK)
        return COMMAND_DONE;
    fprintf(stderr, "lyeway: %s\n", error.text);
    return COMMAND_REFUSED;
}

static enum command_exit print_help(void)
{
    struct buffer out;

    buffer_init(&out, HELP_MOST_BYTES);
    buffer_add(&out, "Lyeway, for a small-batch soap maker who decorates.\n\n");
    add_usage(&out);
    buffer_add(&out, "%s", help_text);

    enum command_exit exit = print(buffer_text(&out));

    buffer_done(&out);
    return exit;
}

static enum command_exit refuse_usage(const char *what, const char *word)
{
    char shown[SHOWN_BYTES];
    struct buffer usage;

    utf8_clean(shown, sizeof shown, word, SHOWN_COLUMNS);
    buffer_init(&usage, HELP_MOST_BYTES);
    add_usage(&usage);
    fprintf(stderr, "lyeway: %s%s%s\n%s", what, shown, word[0] ? "." : "", buffer_text(&usage));
    buffer_done(&usage);
    return COMMAND_USAGE;
}

static enum command_exit run(bool demo, int argc, char *const argv[])
{
    if (argc < 1)
        return refuse_usage("a command is wanted.", "");
    for (int i = 0; i < COMMANDS; i++)
        if (strcmp(argv[0], command[i].name) == 0) {
            struct command_call call = {&command[i], demo, argc - 1, argv + 1};

            return command[i].run(&call);
        }
    return refuse_usage("there is no command ", argv[0]);
}

static enum command_exit start(int argc, char *const argv[])
{
    const char *first = argc > 1 ? argv[1] : "";
    bool demo = strcmp(first, "--demo") == 0;
    bool help = strcmp(first, "--help") == 0, version = strcmp(first, "--version") == 0;

    if ((help || version) && argc > 2)
        return refuse_usage("--help and --version stand alone, without ", argv[2]);
    if (help)
        return print_help();
    if (version)
        return print("lyeway " VERSION "\n");
    if (!demo && first[0] == '-')
        return refuse_usage("there is no option ", first);
    return run(demo, argc - 1 - demo, argv + 1 + demo);
}

int main(int argc, char *argv[])
{
    /* A reader that goes away or a file that grows too large is then a failed write, which is answered with a sentence. */
    signal(SIGPIPE, SIG_IGN);
    signal(SIGXFSZ, SIG_IGN);
    return (int)start(argc, argv);
}
