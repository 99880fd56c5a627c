/* book_points.c - one figure of the book against another. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/day.h"
#include "base/error.h"
#include "work/book.h"

struct point {
    int64_t id;
    double x, y;
    bool out, least;
};

struct gathering {
    const struct settings *settings;
    int64_t now_s;
    int across, up;
    struct point *point;
    int n, seen, without;
    bool more;
};

static double value_of(const struct gathering *gathering, const struct book_line *line, int figure)
{
    if (figure == BOOK_FIGURE_COUNT)
        return (double)(line->started_s - gathering->now_s) / DAY_S;
    return book_figure_value(line->figure[figure], (enum book_figure)figure, gathering->settings);
}

static bool at_least(const struct book_line *line, int figure)
{
    return figure != BOOK_FIGURE_COUNT && book_at_least(line, (enum book_figure)figure);
}

static bool take_line(void *context, const struct book_line *line)
{
    struct gathering *gathering = context;
    double x = value_of(gathering, line, gathering->across), y = value_of(gathering, line, gathering->up);

    if (gathering->seen == BOOK_POINTS) {
        gathering->more = true;
        return false;
    }
    gathering->seen++;
    if (isfinite(x) && isfinite(y))
        gathering->point[gathering->n++] = (struct point){
            line->id, x, y, !line->teaches, at_least(line, gathering->across) || at_least(line, gathering->up)};
    else
        gathering->without++;
    return true;
}

static int by_place(const void *a, const void *b)
{
    const struct point *one = a, *two = b;

    if (one->x != two->x)
        return one->x < two->x ? -1 : 1;
    return one->y < two->y ? -1 : one->y > two->y;
}

static int by_value(const void *a, const void *b)
{
    const double *one = a, *two = b;

    return *one < *two ? -1 : *one > *two;
}

static void widen(double *low, double *high, double value)
{
    *low = fmin(*low, value);
    *high = fmax(*high, value);
}

/* Line and quantiles of those that count. */
static void describe(struct points *points, double x[], double y[])
{
    int n = 0;

    for (int i = 0; i < points->n; i++) {
        if (points->out[i])
            continue;
        x[n] = points->x[i];
        y[n++] = points->y[i];
        points->least_of += points->least[i];
    }
    points->line = line_fit(x, y, n);
    points->one_x = n > 1;
    for (int i = 1; i < n; i++)
        points->one_x = points->one_x && x[i] == x[0];
    if (n == 0)
        return;
    qsort(y, (size_t)n, sizeof *y, by_value);
    points->quarter_y = quantile_sorted(y, n, 0.25);
    points->median_y = quantile_sorted(y, n, 0.5);
    points->three_quarters_y = quantile_sorted(y, n, 0.75);
}

static enum lw_status fill(const struct gathering *gathering, struct points *points, struct lw_error *error)
{
    size_t n = (size_t)gathering->n + 1;
    double *room = calloc(2 * n, sizeof *room);

    *points = (struct points){.without = gathering->without,
                              .more = gathering->more,
                              .id = calloc(n, sizeof *points->id),
                              .x = calloc(n, sizeof *points->x),
                              .y = calloc(n, sizeof *points->y),
                              .out = calloc(n, sizeof *points->out),
                              .least = calloc(n, sizeof *points->least),
                              .low_x = INFINITY,
                              .high_x = -INFINITY,
                              .low_y = INFINITY,
                              .high_y = -INFINITY,
                              .median_y = NAN,
                              .quarter_y = NAN,
                              .three_quarters_y = NAN};
    if (!room || !points->id || !points->x || !points->y || !points->out || !points->least) {
        free(room);
        points_free(points);
        return lw_fail(error, LW_FULL, "There is no memory left to draw that.");
    }
    for (int i = 0; i < gathering->n; i++) {
        const struct point *point = &gathering->point[i];

        points->id[i] = point->id;
        points->x[i] = point->x;
        points->y[i] = point->y;
        points->out[i] = point->out;
        points->least[i] = point->least;
        points->left_out += point->out;
        widen(&points->low_x, &points->high_x, point->x);
        widen(&points->low_y, &points->high_y, point->y);
    }
    points->n = gathering->n;
    describe(points, room, room + n);
    free(room);
    return LW_OK;
}

enum lw_status book_points(struct workshop *workshop, const struct book_filter *filter, int across, int up,
                           struct points *points, struct lw_error *error)
{
    struct gathering gathering = {.settings = workshop_settings(workshop),
                                  .now_s = workshop_now(workshop).utc_s,
                                  .across = across,
                                  .up = up,
                                  .point = calloc(BOOK_POINTS, sizeof *gathering.point)};
    enum lw_status status;

    memset(points, 0, sizeof *points);
    if (!gathering.point)
        return lw_fail(error, LW_FULL, "There is no memory left to draw that.");
    status = book_page(workshop_store(workshop), filter, BOOK_NEWEST, NULL, false, BOOK_POINTS + 1, take_line,
                       &gathering, error);
    if (status == LW_OK) {
        qsort(gathering.point, (size_t)gathering.n, sizeof *gathering.point, by_place);
        status = fill(&gathering, points, error);
    }
    free(gathering.point);
    return status;
}

void points_free(struct points *points)
{
    free(points->id);
    free(points->x);
    free(points->y);
    free(points->out);
    free(points->least);
    memset(points, 0, sizeof *points);
}
