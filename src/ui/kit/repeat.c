/* repeat.c - tells a held key from honest presses by when its repetitions come. */
#include "ui/kit/repeat.h"

#include <stdlib.h>

static bool same(const struct key *a, const struct key *b)
{
    return a->code == b->code && a->point == b->point && a->alt == b->alt;
}

/* Things that nobody can hold down. */
static bool is_no_press(const struct key *key)
{
    return key->code == KEY_PASTE || key->code == KEY_CLICK || key->code == KEY_WHEEL_UP || key->code == KEY_WHEEL_DOWN;
}

static bool is_again(const struct repeat *repeat, const struct key *key)
{
    return !is_no_press(key) && same(&repeat->last, key);
}

/* As quick upon the one before as a held key repeats. */
static bool is_quick(const struct repeat *repeat, int64_t gap_ms)
{
    return repeat->delay_ms && gap_ms < REPEAT_MS && gap_ms * REPEAT_DELAY_TIMES <= repeat->delay_ms;
}

static bool shows_a_hold(const struct repeat *repeat, int64_t gap_ms)
{
    return is_quick(repeat, gap_ms) &&
           (gap_ms < REPEAT_FINGER_MS || (repeat->every_ms && llabs(gap_ms - repeat->every_ms) <= REPEAT_STEADY_MS));
}

/* A second interval that is not the first tells of fingers. Of a key that was held already it may be the line's unsteadiness. */
static bool may_be_held(const struct repeat *repeat, int64_t gap_ms)
{
    return is_quick(repeat, gap_ms) && (!repeat->every_ms || repeat->held);
}

/* A pause after which repetitions may come. One within a hold is the line's, or the key was let go: what comes next tells. */
static int64_t delay_of(const struct repeat *repeat, int64_t gap_ms)
{
    if (gap_ms >= REPEAT_PAUSE_MS)
        return 0;
    if (repeat->held && repeat->delay_ms > gap_ms)
        return repeat->delay_ms;
    return gap_ms >= REPEAT_DELAY_MS ? gap_ms : 0;
}

static enum repeat_verdict drop(struct repeat *repeat)
{
    bool said = repeat->said;

    repeat->waiting = 0;
    repeat->said = true;
    return said ? REPEAT_DROP : REPEAT_HELD;
}

enum repeat_verdict repeat_key(struct repeat *repeat, const struct key *key, int64_t now_ms, bool once)
{
    int64_t gap_ms = now_ms - repeat->last_ms;

    if (!is_again(repeat, key)) {
        *repeat = (struct repeat){.last = *key, .last_ms = now_ms};
        repeat->last.paste = NULL;
        return REPEAT_TAKE;
    }
    repeat->last_ms = now_ms;
    if (shows_a_hold(repeat, gap_ms)) {
        repeat->held = true;
        repeat->every_ms = gap_ms;
        return once ? drop(repeat) : REPEAT_TAKE;
    }
    if (may_be_held(repeat, gap_ms))
        repeat->every_ms = gap_ms;
    else {
        repeat->delay_ms = delay_of(repeat, gap_ms);
        repeat->every_ms = 0;
        repeat->held = repeat->said = false;
    }
    if (!once || !repeat->delay_ms)
        return REPEAT_TAKE;
    repeat->waiting++;
    return REPEAT_WAIT;
}

int repeat_honest(struct repeat *repeat, const struct key *next, int64_t now_ms, struct key *key)
{
    int64_t gap_ms = now_ms - repeat->last_ms;
    int honest = repeat->waiting;
    bool told = next && is_again(repeat, next) ? !shows_a_hold(repeat, gap_ms) && !may_be_held(repeat, gap_ms)
                                               : next || gap_ms >= REPEAT_MS;

    if (!honest || !told)
        return 0;
    repeat->waiting = 0;
    *key = repeat->last;
    return honest;
}

int repeat_left_ms(const struct repeat *repeat, int64_t now_ms)
{
    int64_t left = repeat->last_ms + REPEAT_MS - now_ms;

    if (!repeat->waiting)
        return -1;
    return left > 0 ? (int)left : 0;
}
