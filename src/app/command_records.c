/* command_records.c - what the command line does with records: sheet, import, export, verify, backup, restore. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "app/arguments.h"
#include "app/files.h"
#include "app/machine.h"
#include "app/session.h"
#include "base/error.h"
#include "work/plan_file.h"
#include "work/records.h"

enum { OUTPUT_MOST_BYTES = 64 * 1024 * 1024, PATH_BYTES = 4096 };

/* The operands of a command, between `least` and `most` of them; `takes` says that in words: "one name". */
static enum command_exit read_operands(const struct command_call *call, struct arguments *arguments, int least,
                                       int most, const char *takes)
{
    struct lw_error error = {""};

    if (arguments_read(arguments, call->argc, call->argv, &error) != LW_OK)
        return command_fail(call, COMMAND_USAGE, &error);
    if (arguments->operands >= least && arguments->operands <= most)
        return COMMAND_DONE;
    lw_fail(&error, LW_INVALID, "%s takes %s.", call->command->name, takes);
    return command_fail(call, COMMAND_USAGE, &error);
}

static enum command_exit print_and_close(const struct command_call *call, struct workshop *workshop, struct buffer *out,
                                         enum lw_status status, struct lw_error *error)
{
    enum command_exit exit = COMMAND_DONE;

    if (status == LW_OK)
        status = buffer_status(out, error);
    if (status != LW_OK)
        exit = command_fail(call, session_exit(status), error);
    else if (files_print(buffer_text(out), error) != LW_OK)
        exit = command_fail(call, COMMAND_REFUSED, error);
    buffer_done(out);
    return session_close(call, workshop, exit);
}

enum command_exit command_sheet(const struct command_call *call)
{
    struct arguments arguments = {0};
    struct workshop *workshop;
    struct lw_error error = {""};
    struct buffer out;
    enum command_exit exit = read_operands(call, &arguments, 1, 1, "one name");

    if (exit == COMMAND_DONE)
        exit = session_open(call, false, &workshop);
    if (exit != COMMAND_DONE)
        return exit;
    buffer_init(&out, OUTPUT_MOST_BYTES);

    enum lw_status status = records_sheet(workshop, arguments.operand[0], &out, &error);

    return print_and_close(call, workshop, &out, status, &error);
}

/* Reads all files before the records are touched. */
static enum lw_status read_files(const struct arguments *arguments, struct buffer text[OPERANDS_MOST],
                                 struct records_source source[OPERANDS_MOST], struct lw_error *error)
{
    enum lw_status status = LW_OK;

    for (int i = 0; i < arguments->operands && status == LW_OK; i++) {
        status = files_read(arguments->operand[i], &text[i], error);
        source[i] = (struct records_source){arguments->operand[i], buffer_text(&text[i]), text[i].length};
    }
    return status;
}

static void say_counts(const struct records_count *count, struct buffer *out)
{
    buffer_add(out, "recipes: %d new, %d changed, %d unchanged\n", count->new, count->changed, count->unchanged);
    if (count->shelf > 0)
        buffer_add(out, "shelf: %d brought in\n", count->shelf);
}

static enum command_exit import_files(const struct command_call *call, const struct records_source source[], int count)
{
    struct workshop *workshop;
    struct records_count counted;
    struct lw_error error = {""};
    struct buffer out;
    enum command_exit exit = session_open(call, true, &workshop);

    if (exit != COMMAND_DONE)
        return exit;
    buffer_init(&out, OUTPUT_MOST_BYTES);

    enum lw_status status = records_import(workshop, source, (size_t)count, &counted, &error);

    if (status == LW_OK)
        say_counts(&counted, &out);
    return print_and_close(call, workshop, &out, status, &error);
}

enum command_exit command_import(const struct command_call *call)
{
    struct arguments arguments = {0};
    struct buffer text[OPERANDS_MOST];
    struct records_source source[OPERANDS_MOST];
    struct lw_error error = {""};
    enum command_exit exit = read_operands(call, &arguments, 1, OPERANDS_MOST, "one file or more");

    if (exit != COMMAND_DONE)
        return exit;
    for (int i = 0; i < OPERANDS_MOST; i++)
        buffer_init(&text[i], PLAN_FILE_MOST_BYTES);
    if (read_files(&arguments, text, source, &error) == LW_OK)
        exit = import_files(call, source, arguments.operands);
    else
        exit = command_fail(call, COMMAND_REFUSED, &error);
    for (int i = 0; i < OPERANDS_MOST; i++)
        buffer_done(&text[i]);
    return exit;
}

enum command_exit command_export(const struct command_call *call)
{
    struct option option[] = {{.name = "--recipes"}, {.name = "--shelf"}, {.name = "--batches"}, {.name = "--soaps"}};
    struct arguments arguments = {.option = option, .options = sizeof option / sizeof *option};
    struct records_choice choice = {0};
    struct workshop *workshop;
    struct lw_error error = {""};
    struct buffer out;
    enum command_exit exit = read_operands(call, &arguments, 0, OPERANDS_MOST, "names");

    if (exit != COMMAND_DONE)
        return exit;
    if (option[2].given || option[3].given) {
        lw_fail(&error, LW_INVALID, "There are no %s in these records yet; export recipes or the shelf.",
                option[2].given ? "batches" : "soaps");
        return command_fail(call, COMMAND_REFUSED, &error);
    }
    choice.recipes = option[0].given || !option[1].given;
    choice.shelf = option[1].given || (!option[0].given && arguments.operands == 0);
    choice.names = arguments.operand;
    choice.count = (size_t)arguments.operands;
    exit = session_open(call, false, &workshop);
    if (exit != COMMAND_DONE)
        return exit;
    buffer_init(&out, OUTPUT_MOST_BYTES);
    return print_and_close(call, workshop, &out, records_export(workshop, &choice, &out, &error), &error);
}

static void say_found(void *context, const char *sentence)
{
    buffer_add(context, "%s\n", sentence);
}

enum command_exit command_verify(const struct command_call *call)
{
    struct arguments arguments = {0};
    struct workshop *workshop;
    struct lw_error error = {""};
    struct buffer out;
    int found = 0;
    enum command_exit exit = read_operands(call, &arguments, 0, 0, "no names");

    if (exit == COMMAND_DONE)
        exit = session_open(call, false, &workshop);
    if (exit != COMMAND_DONE)
        return exit;
    buffer_init(&out, OUTPUT_MOST_BYTES);

    enum lw_status status = workshop_verify(workshop, say_found, &out, &found, &error);

    if (status == LW_OK && found == 0)
        buffer_add(&out, "The records are whole.\n");
    exit = print_and_close(call, workshop, &out, status, &error);
    return exit == COMMAND_DONE && found > 0 ? COMMAND_RECORDS : exit;
}

enum command_exit command_backup(const struct command_call *call)
{
    struct arguments arguments = {0};
    struct workshop *workshop;
    struct lw_error error = {""};
    enum command_exit exit = read_operands(call, &arguments, 1, 1, "one file");

    if (exit == COMMAND_DONE)
        exit = session_open(call, false, &workshop);
    if (exit != COMMAND_DONE)
        return exit;
    if (workshop_backup(workshop, arguments.operand[0], session_progress, "", &error) != LW_OK)
        exit = command_fail(call, COMMAND_RECORDS, &error);
    return session_close(call, workshop, exit);
}

enum command_exit command_restore(const struct command_call *call)
{
    struct arguments arguments = {0};
    struct lw_error error = {""};
    char path[PATH_BYTES];
    enum command_exit exit = read_operands(call, &arguments, 1, 1, "one file");

    if (exit != COMMAND_DONE)
        return exit;
    if (session_path(call, path, sizeof path, &error) != LW_OK ||
        workshop_restore(path, arguments.operand[0], &error) != LW_OK)
        return command_fail(call, COMMAND_RECORDS, &error);
    return COMMAND_DONE;
}
