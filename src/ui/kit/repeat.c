/* repeat.c - tells a held key from honest presses by when its repetitions come. */
#include "ui/kit/repeat.h"

static bool same(const struct key *a, const struct key *b)
{
    return a->code == b->code && a->point == b->point && a->alt == b->alt;
}

/* Things that nobody can hold down. */
static bool is_no_press(const struct key *key)
{
    return key->code == KEY_PASTE || key->code == KEY_CLICK || key->code == KEY_WHEEL_UP || key->code == KEY_WHEEL_DOWN;
}

enum repeat_verdict repeat_key(struct repeat *repeat, const struct key *key, int64_t now_ms, bool once)
{
    int64_t gap = now_ms - repeat->last_ms;

    if (is_no_press(key) || !same(&repeat->last, key)) {
        *repeat = (struct repeat){.last = *key, .last_ms = now_ms};
        repeat->last.paste = NULL;
        return REPEAT_TAKE;
    }
    repeat->last_ms = now_ms;
    if (gap < REPEAT_MS || (repeat->held && gap < REPEAT_HELD_MS)) {
        repeat->held = true;
        repeat->waiting = false;
        return once ? REPEAT_DROP : REPEAT_TAKE;
    }
    repeat->held = false;
    repeat->waiting = once && gap < REPEAT_PAUSE_MS;
    return repeat->waiting ? REPEAT_WAIT : REPEAT_TAKE;
}

bool repeat_honest(struct repeat *repeat, const struct key *next, int64_t now_ms, struct key *key)
{
    bool other = next && (is_no_press(next) || !same(&repeat->last, next));

    if (!repeat->waiting || (!other && now_ms - repeat->last_ms < REPEAT_MS))
        return false;
    repeat->waiting = false;
    *key = repeat->last;
    return true;
}

int repeat_left_ms(const struct repeat *repeat, int64_t now_ms)
{
    int64_t left = repeat->last_ms + REPEAT_MS - now_ms;

    if (!repeat->waiting)
        return -1;
    return left > 0 ? (int)left : 0;
}
