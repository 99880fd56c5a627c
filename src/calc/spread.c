/* spread.c - running mean, quantile and line; each by the formula that keeps its digits. */
#include "calc/spread.h"

#include <math.h>

void running_mean_add(struct running_mean *running, double value)
{
    double before = value - running->mean;

    running->n++;
    running->mean += before / running->n;
    running->squares += before * (value - running->mean);
}

double running_mean_sd(const struct running_mean *running)
{
    return running->n < 2 ? (double)NAN : sqrt(running->squares / (running->n - 1));
}

double quantile_sorted(const double sorted[], int n, double p)
{
    double position = fmin(fmax(p, 0.0), 1.0) * (n - 1);
    int below = (int)position;
    double between = position - below;

    if (below >= n - 1)
        return sorted[n - 1];
    return (1.0 - between) * sorted[below] + between * sorted[below + 1];
}

struct line line_fit(const double x[], const double y[], int n)
{
    struct running_mean of_x = {0}, of_y = {0};
    struct line line = {.n = n};
    double together = 0.0, rss = 0.0;

    for (int i = 0; i < n; i++) {
        running_mean_add(&of_x, x[i]);
        running_mean_add(&of_y, y[i]);
    }
    if (n < 3 || !(of_x.squares > 0.0))
        return line;
    for (int i = 0; i < n; i++)
        together += (x[i] - of_x.mean) * (y[i] - of_y.mean);
    line.known = true;
    line.slope = together / of_x.squares;
    line.at_0 = of_y.mean - line.slope * of_x.mean;
    for (int i = 0; i < n; i++) {
        double off = (y[i] - of_y.mean) - line.slope * (x[i] - of_x.mean);

        rss += off * off;
    }
    line.sd = sqrt(rss / (n - 2));
    line.sd_slope = line.sd / sqrt(of_x.squares);
    return line;
}
