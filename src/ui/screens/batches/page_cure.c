/* page_cure.c - how the bars dry: the curve drawn, the day they are cured, the mass for the label, tests. */
#include <math.h>
#include <stdio.h>

#include "base/text.h"
#include "lyeway/names.h"
#include "ui/kit/plot.h"
#include "ui/screens/batches/page.h"
#include "ui/screens/dates.h"
#include "ui/screens/show.h"

enum { PLOT_ROWS = 10, PLOT_DAYS_LEAST = 30, LINE_BYTES = 256, DAY_SECONDS = 86400, MARGIN = 2 };

static double mass_on(const void *context, double day)
{
    return 100 * cure_mass(context, day);
}

/* Percent of the mass at the cut, by the day; a weighing is the digit of its marker bar. */
static int curve(const struct curing *curing, const struct canvas *canvas, int row)
{
    char sign[CURE_WEIGHINGS] = "";
    double x[CURE_WEIGHINGS], y[CURE_WEIGHINGS], last = fmax(curing->day, PLOT_DAYS_LEAST), low = 100, high = 100;
    struct canvas part = canvas_part(canvas, row, MARGIN, PLOT_ROWS, canvas->cols < 78 ? canvas->cols - 4 : 74);
    struct plot plot = {.across = {.name = "days from the cut"},
                        .up = {.name = "% of the mass at the cut"},
                        .n = curing->points,
                        .x = x,
                        .y = y,
                        .sign = sign,
                        .marked = -1,
                        .curve = mass_on,
                        .mark_x = curing->cured_day,
                        .context = &curing->fit};

    for (int i = 0; i < curing->points; i++) {
        x[i] = curing->point[i].day;
        y[i] = 100 * curing->point[i].mass;
        sign[i] = (char)('0' + curing->marker_of[i]);
        low = fmin(low, y[i]);
        last = fmax(last, x[i]);
    }
    last = isfinite(curing->cured_day) ? fmin(fmax(last, curing->cured_day), fmax(last, 90)) : last;
    low = fmin(low, mass_on(&curing->fit, last));
    plot_reach(&plot.across, 0, last);
    plot_reach(&plot.up, low, high);
    plot.curve_from = 0;
    plot.curve_to = last;
    plot_paint(&plot, &part);
    return row + PLOT_ROWS;
}

static void say_curve(const struct curing *curing, char *text, size_t size)
{
    char loss[SHOW_BYTES], spread[SHOW_BYTES], now[SHOW_BYTES];

    show_percent(loss, 1 - curing->fit.end / curing->fit.start, 1);
    show_percent(spread, 2 * curing->fit.sd_end / curing->fit.start, 1);
    show_percent(now, curing->loss_a_day, 2);
    if (curing->from_batches < 0)
        text_add(text, size,
                 "By %d weighings of %d bar%s it loses %s %% in the end, %s %% either way; %s %% a day now.",
                 curing->points, curing->markers, curing->markers == 1 ? "" : "s", loss, spread, now);
    else if (curing->from_batches > 0)
        text_add(text, size, "%s. By %d other batches it loses about %s %% in the end.", curing->why_no_curve,
                 curing->from_batches, loss);
    else
        text_add(text, size, "%s. By common practice it loses about %s %% in the end.", curing->why_no_curve, loss);
}

static void say_cured(const struct page_source *source, char *text, size_t size)
{
    const struct curing *curing = source->curing;
    char day[DATE_BYTES], threshold[SHOW_BYTES];

    show_percent(threshold, curing->threshold, 2);
    if (!isfinite(curing->cured_day)) {
        text_add(text, size, "When it is cured cannot be told yet.");
        return;
    }
    date_of(day, curing->cut_s + (int64_t)(ceil(curing->cured_day) * DAY_SECONDS),
            run_batch(source->run)->head.offset_s);
    text_add(text, size, "%s on %s, day %d: at least %d days and under %s %% a day.",
             curing->cured ? "Cured" : "Cured about", day, (int)ceil(curing->cured_day), (int)curing->least_days,
             threshold);
}

static void say_label(const struct page_source *source, char *text, size_t size)
{
    const struct curing *curing = source->curing;

    if (curing->label_g <= 0) {
        text_add(text, size, "The mass for a label wants the lightest bar at the cut, which was not weighed.");
        return;
    }
    text_add(text, size, "The lightest bar will weigh no less than about %d g", (int)curing->label_g);
    text_add(text, size,
             curing->may_label ? ": the mass for the label." : "; not for a label before the batch is released.");
}

static int wrapped(const struct canvas *canvas, int row, const char *text)
{
    struct canvas rest = canvas_part(canvas, row, MARGIN, canvas->rows - row, canvas->cols - MARGIN - 2);

    return row + canvas_wrap(&rest, 0, 4, STYLE_PLAIN, text);
}

static int tests(const struct page_source *source, const struct canvas *canvas, int row)
{
    const struct batch *batch = run_batch(source->run);
    char text[LINE_BYTES] = "Tests: ";

    if (batch->tests == 0)
        return wrapped(canvas, row, "Tests: none yet; t records a tongue test, a pH or a look.");
    for (int i = 0; i < batch->tests; i++) {
        const struct batch_event *event = run_event_at(source->run, (int)batch->test[i].event - 1);
        char words[LINE_BYTES], day[DATE_BYTES];

        run_event_words(source->run, event, words, sizeof words);
        date_of(day, event->at_s, batch->head.offset_s);
        text_add(text, sizeof text, "%s%s %s", i > 0 ? "; " : "", day, words);
    }
    return wrapped(canvas, row, text);
}

int page_cure(const struct page_source *source, const struct canvas *canvas, int row)
{
    const struct curing *curing = source->curing;
    char text[LINE_BYTES] = "";

    say_curve(curing, text, sizeof text);
    row = wrapped(canvas, row, text);
    text[0] = '\0';
    say_cured(source, text, sizeof text);
    row = wrapped(canvas, row, text);
    text[0] = '\0';
    say_label(source, text, sizeof text);
    row = wrapped(canvas, row, text);
    row = tests(source, canvas, row);
    return curing->fit.unknown == CURE_KNOWN ? curve(curing, canvas, row) : row;
}
