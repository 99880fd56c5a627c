/* leftover.c - batter that is kept: of which colour, how much, and how long it is good for. */
#include "base/mass.h"
#include "base/text.h"
#include "ui/kit/ask.h"
#include "ui/screens/bench/state.h"

/* How long soap dough is kept, airtight: common practice, from memory. */
static const struct {
    int days;
    const char *text;
} keeps[] = {{2, "two days"}, {7, "a week"}, {14, "two weeks"}, {30, "a month"}, {90, "three months"}};

enum { KEEPS = sizeof keeps / sizeof *keeps, QUESTION_BYTES = LW_NAME_BYTES + 64 };

static void kept(void *context, int index)
{
    struct bench_screen *screen = context;
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    if (index < 0)
        return;
    if (bench_done(
            screen,
            run_leftover(screen->run, &now, screen->off.index, mass_ug(screen->number[0]), keeps[index].days, &error),
            &error))
        desk_say(screen->top.desk, STYLE_GOOD, "Kept, to be used within %s; mark it with the batch number.",
                 keeps[index].text);
}

static bool good_mass(void *context, const char *text, char *note, size_t size)
{
    struct lw_error error = {""};
    double g = 0;

    if (!text[0])
        text_copy(note, size, "What it weighs without its vessel.");
    else if (bench_read_mass(context, text, &g, &error) != LW_OK)
        text_copy(note, size, error.text);
    else
        text_copy(note, size, g > 0 ? "Enter asks how long it keeps." : "There has to be some of it.");
    return text[0] && !error.text[0] && g > 0;
}

static void weighed(void *context, const char *text)
{
    struct bench_screen *screen = context;
    struct numbered lines = {0};
    struct lw_error error;

    if (bench_read_mass(screen, text, &screen->number[0], &error) != LW_OK)
        return;
    for (int i = 0; i < KEEPS; i++)
        numbered_add(&lines, "%s", keeps[i].text);
    numbered_open(screen->top.desk, "Left over", "Within what time is it to be used?", &lines, kept, screen);
}

static void chosen(void *context, int index)
{
    struct bench_screen *screen = context;
    char question[QUESTION_BYTES] = "";

    if (index < 0)
        return;
    screen->off = screen->part[index];
    text_add(question, sizeof question, "How much of %s is left over?",
             document_name(run_planned(screen->run)->input, screen->off));
    ask_line(screen->top.desk, "Left over", question, "", FIELD_BYTES - 1, good_mass, weighed, screen);
}

void bench_leftover(void *state, const struct key *key)
{
    struct bench_screen *screen = state;
    const struct plan_document *document = run_planned(screen->run);
    struct numbered lines = {0};

    (void)key;
    for (int p = 0; p < document->plan->portions && lines.count < NUMBERED_LINES; p++) {
        screen->part[lines.count] = (struct part_ref){PART_PORTION, (int16_t)p, 0};
        numbered_add(&lines, "%s", document_name(document->input, screen->part[lines.count]));
    }
    if (lines.count == 1)
        chosen(screen, 0);
    else
        numbered_open(screen->top.desk, "Left over", "Of which portion?", &lines, chosen, screen);
}
