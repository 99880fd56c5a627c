/* command_plan.c - lyeway plan: a recipe of a file, at a size, as a bench sheet or as JSON. */
#include <string.h>

#include "app/arguments.h"
#include "app/command.h"
#include "app/files.h"
#include "app/session.h"
#include "base/buffer.h"
#include "base/error.h"
#include "work/plan_file.h"
#include "work/quantity.h"
#include "work/records.h"

enum { OUTPUT_MOST_BYTES = 16 * 1024 * 1024 };
enum plan_option { OPTION_OILS, OPTION_BATTER, OPTION_JSON, OPTION_STRICT, PLAN_OPTIONS };

struct request {
    const char *file;   /* NULL: the records */
    const char *recipe; /* NULL: the only one; of the records, all of them */
    struct plan_size size;
    bool json, strict;
};

/* One rule for FILE [NAME] | NAME: "-", what ends in .json and what names an existing file is a file. */
static bool names_file(const char *word)
{
    size_t n = strlen(word);

    return strcmp(word, "-") == 0 || (n >= 5 && strcmp(word + n - 5, ".json") == 0) || files_exist(word);
}

static enum lw_status read_size(const struct option option[PLAN_OPTIONS], struct plan_size *size,
                                struct lw_error *error)
{
    const struct option *given = option[OPTION_OILS].given ? &option[OPTION_OILS] : &option[OPTION_BATTER];
    struct lw_error why = {""};

    if (option[OPTION_OILS].given && option[OPTION_BATTER].given)
        return lw_fail(error, LW_INVALID, "--oils and --batter both set the size; give one of them.");
    if (!given->given)
        return LW_OK;
    size->by = given == &option[OPTION_OILS] ? PLAN_SIZE_OILS : PLAN_SIZE_BATTER;
    if (quantity_mass(given->value, "g", &size->grams, &why) != LW_OK)
        return lw_fail(error, LW_INVALID, "%s: %s", given->name, why.text);
    return plan_size_check(size, error);
}

static enum lw_status read_operands(const struct command_call *call, const struct arguments *arguments,
                                    struct request *request, struct lw_error *error)
{
    bool first_is_file = arguments->operands > 0 && names_file(arguments->operand[0]);

    if (arguments->operands == 0 && !call->demo)
        return lw_fail(error, LW_INVALID, "plan wants a recipe file, \"-\" for standard input, or a name.");
    if (arguments->operands > (first_is_file ? 2 : 1))
        return lw_fail(error, LW_INVALID, "plan takes a file and at most one name after it, or one name.");
    if (first_is_file)
        request->file = arguments->operand[0];
    if (arguments->operands > first_is_file)
        request->recipe = arguments->operand[first_is_file];
    return LW_OK;
}

static enum lw_status read_request(const struct command_call *call, struct request *request, struct lw_error *error)
{
    struct option option[PLAN_OPTIONS] = {
        [OPTION_OILS] = {.name = "--oils", .takes_value = true},
        [OPTION_BATTER] = {.name = "--batter", .takes_value = true},
        [OPTION_JSON] = {.name = "--json"},
        [OPTION_STRICT] = {.name = "--strict"},
    };
    struct arguments arguments = {.option = option, .options = PLAN_OPTIONS};
    enum lw_status status = arguments_read(&arguments, call->argc, call->argv, error);

    if (status == LW_OK)
        status = read_operands(call, &arguments, request, error);
    if (status == LW_OK)
        status = read_size(option, &request->size, error);
    request->json = option[OPTION_JSON].given;
    request->strict = option[OPTION_STRICT].given;
    return status;
}

static enum lw_status open_file(const struct request *request, struct plan_file **plan_file, struct lw_error *error)
{
    struct buffer text;

    buffer_init(&text, PLAN_FILE_MOST_BYTES);

    enum lw_status status = files_read(request->file, &text, error);

    if (status == LW_OK)
        status = plan_file_open(buffer_text(&text), text.length, request->file, plan_file, error);
    buffer_done(&text);
    return status;
}

static bool has_stop(const struct plan *plan)
{
    enum finding_level worst = LEVEL_REMARK;
    int count[3];

    return plan_worst(plan, &worst, count) && worst == LEVEL_STOP;
}

/* Adds the plan of the recipe that is meant to *out; *stop: it has a stop. */
static enum lw_status write_plan(struct plan_file *plan_file, const struct request *request, struct buffer *out,
                                 bool *stop, struct lw_error *error)
{
    size_t index = 0;
    enum lw_status status = plan_file_choose(plan_file, request->recipe, &index, error);

    if (status == LW_OK)
        status = plan_file_compute(plan_file, index, &request->size, MASS_G, error);
    if (status != LW_OK)
        return status;
    plan_file_write(plan_file, request->json ? PLAN_FORM_JSON : PLAN_FORM_SHEET, out);
    *stop = has_stop(plan_file_document(plan_file)->plan);
    return LW_OK;
}

static enum command_exit print_plan(const struct command_call *call, const struct request *request, struct buffer *out,
                                    enum lw_status status, bool stop, struct lw_error *error)
{
    if (status == LW_OK)
        status = buffer_status(out, error);
    if (status == LW_OK)
        status = files_print(buffer_text(out), error);
    buffer_done(out);
    if (status != LW_OK)
        return command_fail(call, COMMAND_REFUSED, error);
    return stop && request->strict ? COMMAND_STOP : COMMAND_DONE;
}

static enum command_exit plan_of_records(const struct command_call *call, const struct request *request)
{
    struct workshop *workshop;
    struct lw_error error = {""};
    struct buffer out;
    bool stop = false;
    enum command_exit exit = session_open(call, false, &workshop);

    if (exit != COMMAND_DONE)
        return exit;
    buffer_init(&out, OUTPUT_MOST_BYTES);

    enum lw_status status = records_plan(workshop, request->recipe, &request->size, request->json, &out, &stop, &error);

    exit = print_plan(call, request, &out, status, stop, &error);
    return session_close(call, workshop, exit);
}

enum command_exit command_plan(const struct command_call *call)
{
    struct request request = {0};
    struct plan_file *plan_file = NULL;
    struct lw_error error = {""};
    struct buffer out;
    bool stop = false;

    if (read_request(call, &request, &error) != LW_OK)
        return command_fail(call, COMMAND_USAGE, &error);
    if (!request.file)
        return plan_of_records(call, &request);
    buffer_init(&out, OUTPUT_MOST_BYTES);

    enum lw_status status = open_file(&request, &plan_file, &error);

    if (status == LW_OK)
        status = write_plan(plan_file, &request, &out, &stop, &error);
    enum command_exit exit = print_plan(call, &request, &out, status, stop, &error);

    plan_file_free(plan_file);
    return exit;
}
