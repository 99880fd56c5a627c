/* bench_bytes.c - what goes to the terminal: counts of bytes, which are the same on every machine. */
#include <stdio.h>
#include <string.h>

#include "bench/setting.h"

enum { IDLE_MS = 5000, ROWS = 24, COLS = 80 };

struct screen {
    struct driver_cell cell[ROWS][COLS];
};

static void look(struct driver *driver, struct screen *screen)
{
    for (int row = 0; row < ROWS; row++)
        for (int col = 0; col < COLS; col++)
            screen->cell[row][col] = driver_cell(driver, row, col);
}

static int changed_cells(const struct screen *a, const struct screen *b)
{
    int n = 0;

    for (int row = 0; row < ROWS; row++)
        for (int col = 0; col < COLS; col++)
            n += strcmp(a->cell[row][col].text, b->cell[row][col].text) != 0;
    return n;
}

static int sent_for(struct driver *driver, const char *keys)
{
    uint64_t before = driver_sent(driver);

    setting_need(driver_keys(driver, keys), "a key was not taken");
    return (int)(driver_sent(driver) - before);
}

static bool say(const char *what, int bytes, int most)
{
    printf("bytes to %s: %d (at most %d)%s\n", what, bytes, most, bytes > most ? "  MISSED" : "");
    return bytes <= most;
}

/* Begins a number on a field and takes it back; what is typed is one character that changes figures all over the screen. */
static bool edit(struct driver *driver, const char *to_field, const char *key, const char *what)
{
    static struct screen before, after;
    char line[128];
    int bytes, changed;

    setting_need(driver_keys(driver, to_field), "the field was not reached");
    look(driver, &before);
    bytes = sent_for(driver, key);
    look(driver, &after);
    changed = changed_cells(&before, &after);
    setting_need(changed > 1, "an edit changed nothing");
    snprintf(line, sizeof line, "%s, %d cells changed", what, changed);
    return say(line, bytes, 40 + 20 * changed);
}

static bool idle(struct driver *driver)
{
    uint64_t before = driver_sent(driver);

    driver_wait(driver, "what never comes", IDLE_MS);
    return say("idle for 5 s", (int)(driver_sent(driver) - before), 0);
}

int main(void)
{
    static struct setting setting;
    bool good = true;
    struct driver *driver;

    setting_begin(&setting);
    driver = setting_open(&setting, SUBJECT_DEMO, &(struct view){ROWS, COLS, false});
    setting_need(driver_keys(driver, "2/quince<Enter><Enter>"), "the recipe was not reached");
    good &= say("move the selection", sent_for(driver, "<Down>"), 90);
    good &= say("move it back", sent_for(driver, "<Up>"), 90);
    setting_need(driver_keys(driver, "N"), "the name was not reached");
    good &= say("type a character that changes nothing else", sent_for(driver, "x"), 6);
    good &= say("take it back", sent_for(driver, "<BS>"), 6);
    good &= edit(driver, "<Esc><Right>4", "5", "type a share");
    good &= edit(driver, "<Esc><Tab><Down><Down><Down>", "3", "begin a superfat");
    good &= edit(driver, "", "<Esc>", "take it back");
    good &= idle(driver);
    driver_close(driver);
    setting_end(&setting);
    return good ? 0 : 1;
}
