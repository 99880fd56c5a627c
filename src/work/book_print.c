/* book_print.c - the book on paper or for another program: a page after the other. */
#include <stdlib.h>

#include "base/buffer.h"
#include "base/day.h"
#include "base/error.h"
#include "base/text.h"
#include "base/utf8.h"
#include "exchange/book_json.h"
#include "lyeway/names.h"
#include "work/book.h"

enum { PAGE_MOST_BYTES = 4 * 1024 * 1024, NAME_COLUMNS = 26 };

struct printing {
    struct workshop *workshop;
    bool json;
    struct buffer out;
    struct json_writer writer;
    enum lw_status (*print)(const char *text, struct lw_error *error);
};

static void add_figure(const struct printing *printing, struct buffer *out, const struct book_line *line,
                       enum book_figure figure, int width, bool unit)
{
    char text[48];

    book_figure_text(line, figure, workshop_settings(printing->workshop), unit, text, sizeof text);
    buffer_add(out, " %*s", width, text);
}

static void add_row(struct printing *printing, const struct book_line *line)
{
    struct day day = day_of(line->started_s, line->offset_s);
    struct buffer *out = &printing->out;
    char name[LW_NAME_BYTES], number[BATCH_NUMBER_BYTES];

    utf8_clean(name, sizeof name, line->name, NAME_COLUMNS);
    utf8_clean(number, sizeof number, line->number, BATCH_NUMBER_BYTES);
    buffer_add(out, "%04d-%02d-%02d  %-8s  %s", day.year, day.month, day.day, number, name);
    buffer_add(out, "%*s", NAME_COLUMNS - (int)utf8_columns(name), "");
    add_figure(printing, out, line, BOOK_OILS, 7, true);
    add_figure(printing, out, line, BOOK_SUPERFAT, 7, true);
    add_figure(printing, out, line, BOOK_GOOD, 4, false);
    add_figure(printing, out, line, BOOK_PIECES, 4, false);
    add_figure(printing, out, line, BOOK_EACH, 7, true);
    add_figure(printing, out, line, BOOK_WINDOW, 16, true);
    buffer_add(out, "  %s%s\n", name_of_outcome(line->outcome), line->left_out ? ", left out" : "");
}

static void add_heading(struct printing *printing)
{
    buffer_add(&printing->out, "%-10s  %-8s  %-*s %7s %7s %4s %4s %7s %16s  %s\n", "made", "number", NAME_COLUMNS,
               "recipe", "oils", "superf.", "good", "all", "each", "window", "outcome");
}

static enum lw_status flush(struct printing *printing, struct lw_error *error)
{
    enum lw_status status = buffer_status(&printing->out, error);

    if (status == LW_OK && printing->out.length > 0)
        status = printing->print(buffer_text(&printing->out), error);
    printing->out.length = 0;
    if (printing->out.data)
        printing->out.data[0] = '\0';
    return status;
}

static enum lw_status print_lines(struct printing *printing, struct book_list *list, struct lw_error *error)
{
    enum lw_status status = book_list_first(printing->workshop, list, error);
    int printed = 0, shift;

    if (status == LW_OK && list->count == 0 && !printing->json)
        buffer_add(&printing->out, "No batch is found by that.\n");
    else if (status == LW_OK && !printing->json)
        add_heading(printing);
    while (status == LW_OK) {
        for (; printed < list->count; printed++)
            if (printing->json)
                book_json_line(&printing->writer, &list->line[printed]);
            else
                add_row(printing, &list->line[printed]);
        status = flush(printing, error);
        if (status != LW_OK || !list->more_after)
            break;
        status = book_list_on(printing->workshop, list, false, &shift, error);
        printed -= shift;
    }
    return status;
}

enum lw_status book_print(struct workshop *workshop, const char *words, bool json,
                          enum lw_status (*print)(const char *text, struct lw_error *error), struct lw_error *error)
{
    struct printing printing = {.workshop = workshop, .json = json, .print = print};
    struct book_list *list = calloc(1, sizeof *list);
    enum lw_status status, caught;

    if (!list)
        return lw_fail(error, LW_FULL, "There is no memory left to read the book.");
    if ((status = book_filter_read(words, workshop_now(workshop).offset_s, &list->filter, error)) != LW_OK) {
        free(list);
        return status;
    }
    caught = workshop_learn(workshop, error);
    buffer_init(&printing.out, PAGE_MOST_BYTES);
    if (json)
        printing.writer = book_json_begin(&printing.out);
    status = caught == LW_OK || caught == LW_CORRUPT ? print_lines(&printing, list, error) : caught;
    if (json)
        book_json_end(&printing.writer);
    if (status == LW_OK)
        status = flush(&printing, error);
    buffer_done(&printing.out);
    free(list);
    return status == LW_OK ? caught : status;
}
