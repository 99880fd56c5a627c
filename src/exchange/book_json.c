/* book_json.c - a line of the book: what batch it is, and every figure that was taken. */
#include "exchange/book_json.h"

#include <math.h>
#include <string.h>

#include "base/day.h"
#include "base/text.h"
#include "lyeway/names.h"

static double as_written(enum book_figure figure, double value)
{
    static const char *const unit[BOOK_FIGURE_COUNT] = {
#define X(code, word, title, unit_) [BOOK_##code] = (unit_),
        BOOK_FIGURES(X)
#undef X
    };

    return strcmp(unit[figure], "%") == 0 ? 100 * value : value;
}

static void figures(struct json_writer *writer, const struct book_line *line)
{
    json_object(writer, "figures");
    for (int i = 0; i < BOOK_FIGURE_COUNT; i++)
        if (isfinite(line->figure[i]))
            json_number(writer, name_of_figure((enum book_figure)i), as_written((enum book_figure)i, line->figure[i]),
                        4);
    json_end_object(writer);
}

struct json_writer book_json_begin(struct buffer *out)
{
    struct json_writer writer = json_writer_begin(out);

    json_object(&writer, NULL);
    json_number(&writer, "lyeway", 1, 0);
    json_list(&writer, "book");
    return writer;
}

void book_json_line(struct json_writer *writer, const struct book_line *line)
{
    struct day day = day_of(line->started_s, line->offset_s);
    char made[32] = "";

    text_add(made, sizeof made, "%04d-%02d-%02d", day.year, day.month, day.day);
    json_object(writer, NULL);
    json_text(writer, "number", line->number);
    json_text(writer, "recipe", line->name);
    json_number(writer, "revision", line->revision, 0);
    json_text(writer, "made", made);
    json_text(writer, "outcome", name_of_outcome(line->outcome));
    json_flag(writer, "counts", line->teaches);
    json_text(writer, "technique", name_of_technique(line->technique));
    json_flag(writer, "until_at_least", line->until_least);
    figures(writer, line);
    json_end_object(writer);
}

void book_json_end(struct json_writer *writer)
{
    json_end_list(writer);
    json_end_object(writer);
    json_writer_end(writer);
}
