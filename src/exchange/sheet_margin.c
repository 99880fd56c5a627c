/* sheet_margin.c - what is made, and how far from lye-heavy it can be. */
#include "exchange/sheet_parts.h"

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "exchange/plan_words.h"
#include "exchange/sheet_text.h"
#include "lyeway/names.h"

enum { BAND_COLUMNS = 62, LINE_BYTES = 256 };

static void size_line(const struct plan_document *document, char line[LINE_BYTES])
{
    const struct plan *plan = document->plan;
    char oils[NUMBER_BYTES], batter[NUMBER_BYTES], ml[NUMBER_BYTES], unit[2][32];

    number_write_mass(oils, plan->oils_ug, 0);
    number_write_mass(batter, plan->batter_ug, 0);
    number_write(ml, plan->batter_ml, 0);
    sheet_unit(unit[0], sizeof unit[0], plan->oils_ug, document->unit);
    sheet_unit(unit[1], sizeof unit[1], plan->batter_ug, document->unit);
    line[0] = '\0';
    text_add(line, LINE_BYTES, "%s g of oils%s%s%s, ", oils, unit[0][0] == '\0' ? "" : " (", unit[0],
             unit[0][0] == '\0' ? "" : ")");
    text_add(line, LINE_BYTES, "%s g of batter%s%s%s, about %s mL", batter, unit[1][0] == '\0' ? "" : " (", unit[1],
             unit[1][0] == '\0' ? "" : ")", ml);
}

static void mould_line(const struct plan *plan, struct buffer *out)
{
    char mould[NUMBER_BYTES], filled[NUMBER_BYTES];

    if (plan->mould_ml <= 0)
        return;
    number_write(mould, plan->mould_ml, 0);
    number_write(filled, plan->filled_ml, 0);
    buffer_add(out, "into a mould of %s mL, filled with %s mL\n", mould, filled);
}

/* The recipe's note, a paragraph for each of its lines. */
static void note_lines(const char *note, struct buffer *out)
{
    char line[LW_NOTE_BYTES];

    if (note[0] != '\0')
        buffer_add(out, "\n");
    while (*note != '\0') {
        size_t length = strcspn(note, "\n");
        memcpy(line, note, length);
        line[length] = '\0';
        sheet_paragraph(out, "  ", line);
        note += length + (note[length] == '\n');
    }
}

void sheet_title(const struct plan_document *document, struct buffer *out)
{
    const struct recipe *recipe = document->input->recipe;
    char line[LINE_BYTES];

    sheet_repeat(out, '=', SHEET_COLUMNS);
    buffer_add(out, "\n");
    sheet_cell(out, recipe->name, 52);
    line[0] = '\0';
    if (recipe->revision > 0)
        text_add(line, sizeof line, "revision %d, ", recipe->revision);
    text_add(line, sizeof line, "%s", name_of_purpose(recipe->purpose));
    buffer_add(out, "%28s\n", line);
    size_line(document, line);
    sheet_paragraph(out, "", line);
    mould_line(document->plan, out);
    sheet_repeat(out, '=', SHEET_COLUMNS);
    buffer_add(out, "\nbatch number ______________   date ______________   made by ____________________\n");
    note_lines(recipe->note, out);
}

/* Percent of superfat that the band shows from its first to its last column. */
struct ruler {
    double from, to;
};

static struct ruler ruler_for(const struct margin *margin)
{
    double lo = fmin(100 * margin->worst.lo, 0), hi = fmax(100 * margin->worst.hi, 10);

    return (struct ruler){lo < 0 ? floor(lo) - 1 : -1, ceil(hi) + 1};
}

static int column_of(struct ruler ruler, double percent)
{
    double at = (percent - ruler.from) / (ruler.to - ruler.from) * (BAND_COLUMNS - 1);

    return (int)fmin(fmax(at + 0.5, 0), BAND_COLUMNS - 1);
}

static void fill(char band[BAND_COLUMNS + 1], struct ruler ruler, struct interval interval, char c)
{
    for (int i = column_of(ruler, 100 * interval.lo); i <= column_of(ruler, 100 * interval.hi); i++)
        band[i] = c;
}

/* |0 . . .[=o=====]. . : worst as dots, likely between brackets, as rounded the o. */
static void draw_band(const struct margin *margin, struct ruler ruler, char band[BAND_COLUMNS + 1])
{
    memset(band, ' ', BAND_COLUMNS);
    band[BAND_COLUMNS] = '\0';
    fill(band, ruler, margin->worst, '.');
    fill(band, ruler, margin->likely, '=');
    band[column_of(ruler, 100 * margin->likely.lo)] = '[';
    band[column_of(ruler, 100 * margin->likely.hi)] = ']';
    band[column_of(ruler, 0)] = '|';
    band[column_of(ruler, 100 * margin->nominal)] = 'o';
}

/* A figure under its column every 5 percent, or wider apart where the band is long. */
static void draw_ruler(struct ruler ruler, char line[BAND_COLUMNS + 1])
{
    double length = ruler.to - ruler.from, step = length > 400 ? 100 : length > 80 ? 20 : length > 40 ? 10 : 5;
    char digits[NUMBER_BYTES];

    memset(line, ' ', BAND_COLUMNS);
    line[BAND_COLUMNS] = '\0';
    for (int tick = (int)ceil(ruler.from / step); tick * step <= ruler.to; tick++) {
        double percent = tick * step;
        int at = column_of(ruler, percent);
        number_write(digits, percent, 0);
        if (at + (int)strlen(digits) <= BAND_COLUMNS)
            memcpy(line + at, digits, strlen(digits));
    }
}

static void interval_words(char *out, size_t size, struct interval interval)
{
    char lo[NUMBER_BYTES], hi[NUMBER_BYTES];

    sheet_percent(lo, interval.lo, 1);
    sheet_percent(hi, interval.hi, 1);
    text_add(out, size, "%s to %s %%", lo, hi);
}

static void mostly_words(const struct plan_document *document, char *out, size_t size)
{
    static const char *const cause[] = {[CAUSE_NONE] = "",
                                        [CAUSE_SAP] = "the saponification value of ",
                                        [CAUSE_PURITY] = "the purity of ",
                                        [CAUSE_SCALE] = "the scale for "};
    const struct margin *margin = &document->plan->margin;
    char share[NUMBER_BYTES];

    if (margin->mostly_from == CAUSE_NONE)
        return;
    sheet_percent(share, margin->mostly_share, 0);
    text_add(out, size, "; the spread comes mostly from %s%s (%s %%)", cause[margin->mostly_from],
             document_name(document->input, margin->mostly), share);
}

static void chance_words(double chance, char *out, size_t size)
{
    if (chance < 0.001)
        return;
    if (chance > 0.4)
        text_add(out, size, ". Lye-heavy about %ld times in 10", lround(10 * chance));
    else
        text_add(out, size, ". Lye-heavy about 1 time in %ld", lround(1 / chance));
}

/* Spaced out, so that it is read from further away. */
static void large_word(const char *word, struct buffer *out)
{
    buffer_add(out, " ");
    for (; *word != '\0'; word++)
        buffer_add(out, " %c", *word);
}

void sheet_margin(const struct plan_document *document, struct buffer *out)
{
    const struct margin *margin = &document->plan->margin;
    struct ruler ruler = ruler_for(margin);
    char line[LINE_BYTES * 2] = "", band[BAND_COLUMNS + 1], asked[NUMBER_BYTES], rounded[NUMBER_BYTES];

    sheet_percent(asked, document->input->recipe->superfat, 1);
    sheet_percent(rounded, margin->nominal, 2);
    sheet_heading(out, "SUPERFAT");
    large_word(document->margin_word, out);
    buffer_add(out, "    asked %s %%, as rounded %s %%\n\n", asked, rounded);
    draw_band(margin, ruler, band);
    buffer_add(out, "  alkali %s oil\n", band);
    draw_ruler(ruler, band);
    buffer_add(out, "         %s %%\n", band);
    text_add(line, sizeof line, "likely ");
    interval_words(line, sizeof line, margin->likely);
    text_add(line, sizeof line, ", at worst ");
    interval_words(line, sizeof line, margin->worst);
    mostly_words(document, line, sizeof line);
    chance_words(margin->chance_lye_heavy, line, sizeof line);
    text_add(line, sizeof line, "%s", ".");
    sheet_paragraph(out, "  ", line);
}
