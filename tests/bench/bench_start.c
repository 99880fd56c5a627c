/* bench_start.c - from the start of the program to the last byte of its first screen, against programs that do the least: mini fills
 * the same screen, minidb also opens the same store and reads 20 rows. All take turns. */
#include <stdio.h>

#include "bench/measure.h"
#include "bench/setting.h"

enum { ROUNDS = 60, WARM_UP = 5 };

static const double ratio_most = 1.5;

static double start_us(const struct setting *setting, enum subject subject, const struct view *view)
{
    struct driver *driver = setting_open(setting, subject, view);
    double us = driver_latency_us(driver);

    driver_close(driver);
    return us;
}

static void compare(const struct setting *setting, const struct view *view)
{
    double took[SUBJECTS][ROUNDS], us[SUBJECTS];

    setting_take_screen(setting, view, "");
    for (int i = -WARM_UP; i < ROUNDS; i++)
        for (enum subject subject = 0; subject < SUBJECTS; subject++) {
            double once = start_us(setting, subject, view);

            if (i >= 0)
                took[subject][i] = once;
        }
    for (enum subject subject = 0; subject < SUBJECTS; subject++)
        us[subject] = measure_median(took[subject], ROUNDS);

    double ratio = us[SUBJECT_LYEWAY] / us[SUBJECT_MINI], demo = us[SUBJECT_DEMO] / us[SUBJECT_MINI];

    printf("start at %dx%d: %.0f us, mini %.0f us, ratio %.2f; demo %.2f (at most %.1f), minidb %.2f%s\n", view->cols,
           view->rows, us[SUBJECT_LYEWAY], us[SUBJECT_MINI], ratio, demo, ratio_most,
           us[SUBJECT_MINIDB] / us[SUBJECT_MINI], ratio > ratio_most || demo > ratio_most ? "  MISSED" : "");
}

int main(void)
{
    static struct setting setting;

    setting_begin(&setting);
    compare(&setting, &(struct view){24, 80, true});
    compare(&setting, &(struct view){60, 200, true});
    setting_end(&setting);
    return 0;
}
