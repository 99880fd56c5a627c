/* main.c - the command line: options for the whole program, then a command from the table. */
#include <locale.h>
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
    {"sheet", "sheet (NAME | NUMBER)", "the bench sheet of a recipe of the records, or of a batch as it was planned",
     command_sheet},
    {"import", "import FILE...", "brings files into the records, all of them or none", command_import},
    {"export", "export [--recipes] [--shelf] [NAME...]", "writes records as an exchange file to standard output",
     command_export},
    {"batches", "batches [WORDS] [--json]", "the batches that the words find, newest first", command_batches},
    {"verify", "verify", "checks the records", command_verify},
    {"backup", "backup FILE", "writes a copy of the records to a new file", command_backup},
    {"restore", "restore FILE", "puts the records back to what a backup holds", command_restore},
};
enum { COMMANDS = sizeof command / sizeof *command };

static const char *const help_text =
    "\n"
    "FILE is a recipe file in JSON; \"-\" is standard input. MASS is a number with a unit,\n"
    "as in 500, 500g, 12 oz, 1.2 kg, \"1 lb 3 oz\" or 250/3; without a unit it is grams.\n"
    "\n"
    "WORDS find batches that have them all, each by the beginning of a word; recipe:, colourant:,\n"
    "fragrance: or outcome: before a word looks there alone; 2026 or 2026-03 is a date,\n"
    "from:2026-01 to:2026-03 a stretch of days; counts:yes finds those that are learned from.\n"
    "\n"
    "Exit status: 0 done, 1 refused, 2 wrong usage, 3 trouble with the records,\n"
    "4 a stop finding under --strict.\n"
    "\n"
    "Published ranges do not replace the supplier's certificate. Alkali burns skin and\n"
    "blinds eyes: goggles and gloves on.\n";

static void add_usage(struct buffer *out)
{
    buffer_add(out, "usage:\n  lyeway [--demo] [--db FILE]\n      the workbench\n");
    for (int i = 0; i < COMMANDS; i++)
        buffer_add(out, "  lyeway [--demo] [--db FILE] %s\n      %s\n", command[i].usage, command[i].summary);
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

static enum command_exit run(struct command_call *call)
{
    static const struct command workbench = {"", "[--demo] [--db FILE]", "", command_workbench};

    if (call->argc < 1) {
        call->command = &workbench;
        return command_workbench(call);
    }
    for (int i = 0; i < COMMANDS; i++)
        if (strcmp(call->argv[0], command[i].name) == 0) {
            call->command = &command[i];
            call->argc--;
            call->argv++;
            return command[i].run(call);
        }
    return refuse_usage("there is no command ", call->argv[0]);
}

/* Options for the whole program stand before the command. */
static enum command_exit start(int argc, char *const argv[])
{
    const char *first = argc > 1 ? argv[1] : "";
    bool help = strcmp(first, "--help") == 0, version = strcmp(first, "--version") == 0;
    struct command_call call = {.argc = argc - 1, .argv = argv + 1};

    if ((help || version) && argc > 2)
        return refuse_usage("--help and --version stand alone, without ", argv[2]);
    if (help)
        return print_help();
    if (version)
        return print("lyeway " VERSION "\n");
    for (; call.argc > 0 && call.argv[0][0] == '-'; call.argc--, call.argv++) {
        if (strcmp(call.argv[0], "--demo") == 0 && !call.demo)
            call.demo = true;
        else if (strcmp(call.argv[0], "--db") == 0 && call.argc == 1)
            return refuse_usage("a file is wanted after the option ", call.argv[0]);
        else if (strcmp(call.argv[0], "--db") == 0 && !call.db) {
            call.db = call.argv[1];
            call.argc--;
            call.argv++;
        } else
            return refuse_usage("there is no use here for the option ", call.argv[0]);
    }
    return run(&call);
}

int main(int argc, char *argv[])
{
    /* A reader that goes away or a file that grows too large is then a failed write, which is answered with a sentence. */
    signal(SIGPIPE, SIG_IGN);
    signal(SIGXFSZ, SIG_IGN);
    /* Characters only: numbers are read and written the same everywhere. */
    setlocale(LC_CTYPE, "");
    return (int)start(argc, argv);
}
