/* bench_key.c - from a key to the last byte that it changes, cold: 15 ms after the last one, as a person types. The floor is mini, which
 * moves its mark on the same screen; both take turns. */
#include <poll.h>
#include <stdio.h>

#include "bench/measure.h"
#include "bench/setting.h"

enum { ROUNDS = 200, WARM_UP = 20, IDLE_MS = 15, P99 = ROUNDS * 99 / 100 };

static const double ratio_most = 0.9, frame_us = 16000;

static double key_us(struct driver *driver, const char *key)
{
    poll(NULL, 0, IDLE_MS);
    setting_need(driver_keys(driver, key), "a key was not taken");
    return driver_latency_us(driver);
}

/* Two keys, one of which takes back what the other did. */
struct keys {
    const char *what, *there, *back;
};

static void compare(struct driver *lyeway, struct driver *mini, const struct keys *keys, const struct view *view)
{
    double took[2][ROUNDS];

    for (int i = -WARM_UP; i < ROUNDS; i++) {
        double a = key_us(lyeway, i % 2 ? keys->back : keys->there);
        double b = key_us(mini, i % 2 ? "<Up>" : "<Down>");

        if (i >= 0) {
            took[0][i] = a;
            took[1][i] = b;
        }
    }

    double us = measure_median(took[0], ROUNDS), floor_us = measure_median(took[1], ROUNDS);
    double slow_us = took[0][P99]; /* measure_median has sorted them */

    printf("key to last cell at %dx%d, %s: %.0f us, mini %.0f us, ratio %.2f (at most %.1f), of 100 keys one takes "
           "%.0f us (at most %.0f)%s\n",
           view->cols, view->rows, keys->what, us, floor_us, us / floor_us, ratio_most, slow_us, frame_us,
           us / floor_us > ratio_most || slow_us > frame_us ? "  MISSED" : "");
}

static void measure_view(const struct setting *setting, const struct view *view)
{
    const char *to_recipe = "2/quince<Enter><Enter>";
    struct driver *lyeway, *mini;

    setting_take_screen(setting, view, to_recipe);
    lyeway = setting_open(setting, SUBJECT_DEMO, view);
    mini = setting_open(setting, SUBJECT_MINI, view);
    setting_need(driver_keys(lyeway, to_recipe), "the recipe was not reached");
    compare(lyeway, mini, &(struct keys){"moving", "<Down>", "<Up>"}, view);
    setting_need(driver_keys(lyeway, "<Tab><Tab><Tab><Home><Right>4"), "an edit was not begun");
    compare(lyeway, mini, &(struct keys){"typing a share", "5", "<BS>"}, view);
    driver_close(lyeway);
    driver_close(mini);
}

int main(void)
{
    static struct setting setting;

    setting_begin(&setting);
    measure_view(&setting, &(struct view){24, 80, true});
    measure_view(&setting, &(struct view){60, 200, true});
    setting_end(&setting);
    return 0;
}
