/* run_count.c - counting: pieces one by one, what is left in the bag, the recount, bars, pieces placed, leftovers. */
#include <string.h>

#include "base/error.h"
#include "base/mass.h"
#include "base/text.h"
#include "work/run_inside.h"

static enum lw_status at_kind(const struct run *run, enum step_kind kind, const char *what,
                              const struct batch_step **here, struct lw_error *error)
{
    *here = run_here(run);
    if (!*here || (*here)->step.kind != kind)
        return lw_fail(error, LW_INVALID, "%s is not the step at hand.", what);
    return LW_OK;
}

static enum lw_status record(struct run *run, const struct lw_now *now, struct batch_event event,
                             struct lw_error *error)
{
    enum lw_status status = run_append(run, now, event, error);

    if (status == LW_OK)
        run_reckon(run);
    return status;
}

int run_kind(const struct run *run)
{
    const struct batch_step *here = run_here(run);

    if (!here || (here->step.kind != STEP_PIPE && here->step.kind != STEP_RECOUNT))
        return -1;
    for (int i = 0; i < run->batch.kinds; i++)
        if (run->batch.pieces[i].portion == here->step.what.index)
            return i;
    return -1;
}

void run_piping(const struct run *run, const struct lw_now *now, struct piping *piping)
{
    piping_now(run_input(run), &run->charged, &run->batch, run_kind(run), now->utc_s, piping);
}

bool run_own_mass(const struct run *run, int kind, struct piping_terms *terms)
{
    return piping_own(run_input(run), &run->charged, &run->batch, kind, terms);
}

void run_piping_help(const struct run *run, const struct lw_now *now, struct piping_help *help)
{
    struct piping piping;

    run_piping(run, now, &piping);
    piping_short(run_input(run), &run->charged, &run->batch, run_kind(run), &piping, 0, help);
}

enum lw_status run_count(struct run *run, const struct lw_now *now, enum event_kind what, int how_many,
                         struct lw_error *error)
{
    const struct batch_step *here;
    const struct batch_pieces *pieces;
    struct batch_event event = run_event(what);
    enum lw_status status = at_kind(run, STEP_PIPE, "Piping", &here, error);
    int have;

    if (status != LW_OK)
        return status;
    pieces = &run->batch.pieces[run_kind(run)];
    have = what == EVENT_PIECES ? pieces->good : what == EVENT_REJECTS ? pieces->rejects : pieces->scraped;
    if (have + how_many < 0)
        return lw_fail(error, LW_INVALID, "There is none to take back.");
    if (what == EVENT_SCRAPED && pieces->scraped + how_many > pieces->rejects)
        return lw_fail(error, LW_INVALID, "There are no more rejects to scrape back.");
    if (what == EVENT_REJECTS && pieces->rejects + how_many < pieces->scraped)
        return lw_fail(error, LW_INVALID, "That reject is back in the bag already.");
    event.step = here->step.id;
    event.what = here->step.what;
    event.number[0] = how_many;
    return record(run, now, event, error);
}

/* Does not close the step: piping goes on. */
enum lw_status run_left(struct run *run, const struct lw_now *now, int64_t mass_ug, bool weighed,
                        struct lw_error *error)
{
    const struct batch_step *here;
    struct batch_event event = run_event(EVENT_LEFT);
    enum lw_status status = at_kind(run, STEP_PIPE, "Piping", &here, error);

    if (status != LW_OK)
        return status;
    if (mass_ug < 0)
        return lw_fail(error, LW_INVALID, "No less than nothing can be left; type 0 for an empty bag.");
    if (mass_ug > run->charged.batter_ug)
        return lw_fail(error, LW_INVALID,
                       "That is more than the whole batter was; weigh the bag without its tip and try again.");
    event.step = here->step.id;
    event.what = here->step.what;
    event.mass_ug = mass_ug;
    event.number[0] = weighed;
    return record(run, now, event, error);
}

/* Events that say a count and close their step. */
static enum lw_status close_with(struct run *run, const struct lw_now *now, enum step_kind kind, const char *what,
                                 struct batch_event event, struct lw_error *error)
{
    const struct batch_step *here;
    enum lw_status status = at_kind(run, kind, what, &here, error);

    if (status != LW_OK)
        return status;
    event.step = here->step.id;
    event.what = here->step.what;
    status = run_append(run, now, event, error);
    if (status == LW_OK) {
        event = run_event(EVENT_DONE);
        event.step = here->step.id;
        status = record(run, now, event, error);
    }
    return status == LW_OK ? run_timers_begin(run, now, error) : status;
}

enum lw_status run_recount(struct run *run, const struct lw_now *now, int good, int rejects, struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_RECOUNTED);

    if (good < 0 || rejects < 0)
        return lw_fail(error, LW_INVALID, "Counts begin at 0.");
    event.number[0] = good;
    event.number[1] = rejects;
    if (run_kind(run) >= 0)
        run_kind_name(run, run->batch.pieces[run_kind(run)].portion, event.text, LW_NAME_BYTES);
    return close_with(run, now, STEP_RECOUNT, "Counting again", event, error);
}

enum lw_status run_cut(struct run *run, const struct lw_now *now, int bars, double lightest_g, struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_CUT);

    if (bars < 1)
        return lw_fail(error, LW_INVALID, "At least one bar comes off a mould; skip the step if it is not cut.");
    if (!(lightest_g >= 0))
        return lw_fail(error, LW_INVALID, "A bar does not weigh less than nothing; type 0 if it was not weighed.");
    if (bars * lightest_g > mass_g(run->charged.batter_ug))
        return lw_fail(error, LW_INVALID, "%d bars of that are more than the whole batter was.", bars);
    event.number[0] = bars;
    event.number[1] = lightest_g;
    return close_with(run, now, STEP_CUT, "Cutting", event, error);
}

enum lw_status run_place(struct run *run, const struct lw_now *now, int pieces, const struct pieces_line *from,
                         struct lw_error *error)
{
    const struct batch_step *here;
    struct batch_event event = run_event(EVENT_PLACED);
    enum lw_status status = at_kind(run, STEP_PLACE, "Placing pieces", &here, error);

    if (status != LW_OK)
        return status;
    if (pieces < 1 || pieces > from->on_shelf)
        return lw_fail(error, LW_INVALID, "Of batch %s there are %d on the shelf (%s); type 1 up to that.",
                       from->number, from->on_shelf, from->kind);
    event.step = here->step.id;
    event.number[0] = pieces;
    text_add(event.text, sizeof event.text, "%s %s", from->number, from->kind);
    return record(run, now, event, error);
}

enum lw_status run_leftover(struct run *run, const struct lw_now *now, int portion, int64_t mass_ug, int days,
                            struct lw_error *error)
{
    struct batch_event event = run_event(EVENT_LEFTOVER);

    if (mass_ug <= 0 || portion < 0 || portion >= run_plan(run)->portions)
        return lw_fail(error, LW_INVALID, "A leftover has a mass above 0 and the portion that it is from.");
    if (mass_ug > run->charged.portion[portion].batter_ug)
        return lw_fail(error, LW_INVALID, "That is more than there was of it (%s).",
                       run_mass(run, run->charged.portion[portion].batter_ug, 0).text);
    event.what = (struct part_ref){PART_PORTION, (int16_t)portion, 0};
    event.mass_ug = mass_ug;
    event.number[0] = days;
    return record(run, now, event, error);
}
