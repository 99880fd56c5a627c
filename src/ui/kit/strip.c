/* strip.c - cells are shared by largest remainder, so that the same whole is drawn equally long in every row. */
#include "ui/kit/strip.h"

#include <math.h>
#include <string.h>

#include "base/utf8.h"

static const char *const patterns[] = {"#", "=", "%", "~", "+", ":", "*", "o", "/", "-", "x", "."};
enum { PATTERNS = sizeof patterns / sizeof *patterns };

static double usable(double amount)
{
    return isfinite(amount) && amount > 0 ? amount : 0;
}

static size_t largest_remainder(const double remainder[], size_t count)
{
    size_t best = 0;

    for (size_t i = 1; i < count; i++)
        if (remainder[i] > remainder[best])
            best = i;
    return best;
}

/* Cells of each part; the sum is the rounded length of them all. */
static void share_cells(int width, double whole, const struct strip_part parts[], size_t count, int cells[])
{
    double sum = 0, remainder[STRIP_PARTS];
    int left, given = 0;

    for (size_t i = 0; i < count; i++)
        sum += usable(parts[i].amount);
    if (whole < sum)
        whole = sum;
    for (size_t i = 0; i < count; i++) {
        double exact = whole > 0 ? usable(parts[i].amount) / whole * width : 0;

        cells[i] = exact > 0 && exact < 1 ? 1 : (int)exact;
        remainder[i] = exact - cells[i];
        given += cells[i];
    }
    left = (whole > 0 ? (int)lround(sum / whole * width) : 0) - given;
    for (; left > 0 && count > 0; left--) {
        size_t i = largest_remainder(remainder, count);

        cells[i]++;
        remainder[i] -= 1;
    }
}

void strip_paint(const struct canvas *canvas, int row, double whole, const struct strip_part parts[], size_t count)
{
    int cells[STRIP_PARTS] = {0}, col = 0;

    if (count > STRIP_PARTS)
        count = STRIP_PARTS;
    share_cells(canvas->cols, whole, parts, count, cells);
    for (size_t i = 0; i < count; i++) {
        struct canvas part = canvas_part(canvas, row, col, 1, cells[i]);
        int name = (int)utf8_columns(parts[i].name);

        canvas_fill(&part, 0, 0, part.cols, parts[i].style, patterns[i % PATTERNS]);
        if (name > 0 && part.cols >= name + 3)
            canvas_print(&part, 0, 0, STYLE_PLAIN, "%s ", parts[i].name);
        col += cells[i];
    }
}
