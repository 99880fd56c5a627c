/* book.c - keeps the rows of the book up with the records, and says outcomes and figures in words. */
#include "work/book.h"

#include <math.h>

#include "base/error.h"
#include "base/number.h"
#include "base/text.h"
#include "work/figures.h"
#include "work/run.h"
#include "work/words.h"

enum { DUE_AT_ONCE = 256, WORDS_BYTES = 64 * 1024 };

static const double GRAMS_AN_OUNCE = 28.349523125; /* NIST Handbook 44, appendix C */

/* ---- catching up */

static enum lw_status write_row(struct workshop *workshop, const struct run *run, struct lw_error *error)
{
    struct book_row row;
    struct buffer said, colourants, fragrances;
    enum lw_status status;

    buffer_init(&said, WORDS_BYTES);
    buffer_init(&colourants, WORDS_BYTES);
    buffer_init(&fragrances, WORDS_BYTES);
    figures_of(run, &row);
    figures_said(run, &said);
    figures_names(run, BOOK_IN_COLOURANT, &colourants);
    figures_names(run, BOOK_IN_FRAGRANCE, &fragrances);
    status = book_write(workshop_store(workshop), &row,
                        &(struct book_words){.recipe = run_batch(run)->head.name,
                                             .colourants = buffer_text(&colourants),
                                             .fragrances = buffer_text(&fragrances),
                                             .said = buffer_text(&said)},
                        error);
    buffer_done(&said);
    buffer_done(&colourants);
    buffer_done(&fragrances);
    return status;
}

static enum lw_status reckon(struct workshop *workshop, int64_t batch_id, struct lw_error *error)
{
    struct run *run = NULL;
    enum lw_status status = run_open(workshop, batch_id, &run, error);

    if (status == LW_OK)
        status = write_row(workshop, run, error);
    run_free(run);
    return status;
}

/* What another program holds, or the disk does not take, ends it; a record that cannot be read does not. */
static bool ends(enum lw_status status)
{
    return status == LW_BUSY || status == LW_IO || status == LW_FULL;
}

enum lw_status book_catch_up(struct workshop *workshop, void (*progress)(void *context, int done, int all),
                             void *context, struct lw_error *error)
{
    struct store *store = workshop_store(workshop);
    enum lw_status worst = LW_OK, status = LW_OK;
    int64_t due[DUE_AT_ONCE];
    int n = 0, all = 0, done = 0, written;

    status = book_due_count(store, &all, error);
    if (status != LW_OK)
        return status;
    do {
        written = 0;
        status = book_due(store, due, DUE_AT_ONCE, &n, error);
        for (int i = 0; i < n && status == LW_OK; i++) {
            enum lw_status one = reckon(workshop, due[i], error);

            if (one == LW_OK)
                written++;
            else if (ends(one))
                status = one;
            else
                worst = LW_CORRUPT;
            done++;
            if (progress)
                progress(context, done, all > done ? all : done);
        }
    } while (status == LW_OK && n == DUE_AT_ONCE && written > 0);
    return status == LW_OK ? worst : status;
}

/* ---- in words */

const char *book_figure_name(enum book_figure figure)
{
    static const char *const name[BOOK_FIGURE_COUNT] = {
#define X(code, word, title, unit) [BOOK_##code] = (title),
        BOOK_FIGURES(X)
#undef X
    };

    return name[figure];
}

static const char *stored_unit(enum book_figure figure)
{
    static const char *const name[BOOK_FIGURE_COUNT] = {
#define X(code, word, title, unit) [BOOK_##code] = (unit),
        BOOK_FIGURES(X)
#undef X
    };

    return name[figure];
}

static bool is_unit(enum book_figure figure, const char *unit)
{
    return text_same(stored_unit(figure), unit);
}

/* Masses that are whole grams or more are read in the maker's unit; those of a piece or a residue stay in grams. */
static bool in_mass_unit(enum book_figure figure)
{
    return figure == BOOK_OILS || figure == BOOK_BATTER || figure == BOOK_LIGHTEST;
}

const char *book_figure_unit(enum book_figure figure, const struct settings *settings)
{
    if (figure == BOOK_TEMP && settings->fahrenheit)
        return "F";
    return in_mass_unit(figure) && settings->mass_unit != MASS_G ? "oz" : stored_unit(figure);
}

double book_figure_value(double value, enum book_figure figure, const struct settings *settings)
{
    if (is_unit(figure, "%"))
        return 100 * value;
    if (figure == BOOK_TEMP && settings->fahrenheit)
        return value * 9 / 5 + 32;
    return in_mass_unit(figure) && settings->mass_unit != MASS_G ? value / GRAMS_AN_OUNCE : value;
}

static int decimals_of(enum book_figure figure, const struct settings *settings)
{
    if (figure == BOOK_EACH || figure == BOOK_DENSITY)
        return 2;
    if (in_mass_unit(figure) && settings->mass_unit != MASS_G)
        return 1;
    return is_unit(figure, "%") || figure == BOOK_JUG_RESIDUE || figure == BOOK_BAG_RESIDUE ? 1 : 0;
}

bool book_at_least(const struct book_line *line, enum book_figure figure)
{
    return line->until_least && (figure == BOOK_UNTIL || figure == BOOK_WINDOW) && isfinite(line->figure[figure]);
}

/* `least`: what stands before a figure that is only known from below. */
static void figure_text(const struct book_line *line, enum book_figure figure, const struct settings *settings,
                        bool unit, const char *least, char *out, size_t size)
{
    double value = line->figure[figure];
    const char *word = book_figure_unit(figure, settings);
    char number[NUMBER_BYTES];

    out[0] = '\0';
    if (!isfinite(value)) {
        text_add(out, size, "-");
        return;
    }
    number_write(number, book_figure_value(value, figure, settings), decimals_of(figure, settings));
    text_add(out, size, "%s%s%s%s", book_at_least(line, figure) ? least : "", number, unit && word[0] ? " " : "",
             unit ? word : "");
}

void book_figure_text(const struct book_line *line, enum book_figure figure, const struct settings *settings, bool unit,
                      char *out, size_t size)
{
    figure_text(line, figure, settings, unit, "at least ", out, size);
}

void book_figure_cell(const struct book_line *line, enum book_figure figure, const struct settings *settings, bool unit,
                      char *out, size_t size)
{
    figure_text(line, figure, settings, unit, unit ? ">= " : ">=", out, size);
}
