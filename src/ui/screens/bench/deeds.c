/* deeds.c - the table of what can be done, and what of it is possible where the batch is now. */
#include "ui/screens/bench/deeds.h"

#include <string.h>

#include "base/text.h"
#include "ui/kit/ask.h"

static void back(void *state, const struct key *key)
{
    struct bench_screen *screen = state;
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};
    char echo[ECHO_BYTES] = "";

    (void)key;
    if (bench_done(screen, run_back(screen->run, &now, echo, sizeof echo, &error), &error)) {
        screen->echo[0] = '\0';
        desk_say(screen->top.desk, STYLE_PLAIN, "%s", echo);
    }
}

static void skip(void *state, const struct key *key)
{
    struct bench_screen *screen = state;
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    (void)key;
    if (bench_done(screen, run_skip(screen->run, &now, &error), &error))
        desk_say(screen->top.desk, STYLE_PLAIN, "Skipped; - brings it back.");
}

static void later(void *state, const struct key *key)
{
    struct bench_screen *screen = state;
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    (void)key;
    if (bench_done(screen, run_later(screen->run, &now, &error), &error))
        desk_say(screen->top.desk, STYLE_PLAIN, "Put off until after the step that follows.");
}

static void going(void *state, const struct key *key)
{
    struct bench_screen *screen = state;
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    (void)key;
    if (bench_done(screen, run_going(screen->run, &now, &error), &error))
        desk_say(screen->top.desk, STYLE_CAUTION, "It is going: stamped. What is shown now is the shortest way.");
}

static void one_more(void *state, const struct key *key)
{
    (void)key;
    bench_count(state, EVENT_PIECES, 1);
}

static void take_back(void *state, const struct key *key)
{
    (void)key;
    bench_count(state, EVENT_PIECES, -1);
}

static void reject(void *state, const struct key *key)
{
    (void)key;
    bench_count(state, EVENT_REJECTS, 1);
}

static void scraped(void *state, const struct key *key)
{
    (void)key;
    bench_count(state, EVENT_SCRAPED, 1);
}

static void weigh_rest(void *state, const struct key *key)
{
    (void)key;
    bench_type(state, TYPING_LEFT, "");
}

static void noted(void *context, const char *text)
{
    struct bench_screen *screen = context;
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    if (bench_done(screen, run_note(screen->run, &now, text, &error), &error))
        desk_say(screen->top.desk, STYLE_GOOD, "Noted.");
}

static bool has_words(void *context, const char *text, char *note, size_t size)
{
    (void)context;
    text_copy(note, size, text[0] ? "Enter writes it down with the time." : "Write a few words.");
    return text[0] != '\0';
}

static void note(void *state, const struct key *key)
{
    struct bench_screen *screen = state;

    (void)key;
    ask_line(screen->top.desk, "A note", "What is to be remembered of this moment?", "", FIELD_BYTES - 1, has_words,
             noted, screen);
}

static void step_added(void *context, const char *text)
{
    struct bench_screen *screen = context;
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    bench_done(screen, run_add_step(screen->run, &now, text, &error), &error);
}

static void add_step(void *state, const struct key *key)
{
    struct bench_screen *screen = state;

    (void)key;
    ask_line(screen->top.desk, "A step of your own", "What is to be done before this step?", "", LW_NAME_BYTES - 1,
             has_words, step_added, screen);
}

static const char *const problems[] = {
    "thickens too fast", "seized",  "riced: grains in it",  "separated", "does not thicken", "foams or boils up",
    "a colour is off",   "spilled", "a tool or bag failed",
};
enum { PROBLEMS = sizeof problems / sizeof *problems };

static void problem_named(void *context, const char *text)
{
    struct bench_screen *screen = context;
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    if (bench_done(screen, run_problem(screen->run, &now, text, &error), &error))
        desk_say(screen->top.desk, STYLE_PLAIN, "Written down: %s.", text);
}

static void problem_taken(void *context, int index)
{
    struct bench_screen *screen = context;

    if (index == PROBLEMS)
        ask_line(screen->top.desk, "A problem", "What went wrong?", "", FIELD_BYTES - 1, has_words, problem_named,
                 screen);
    else if (index >= 0)
        problem_named(screen, problems[index]);
}

static void problem(void *state, const struct key *key)
{
    struct bench_screen *screen = state;
    struct numbered lines = {0};

    (void)key;
    for (int i = 0; i < PROBLEMS; i++)
        numbered_add(&lines, "%s", problems[i]);
    numbered_add(&lines, "something else, in your own words");
    numbered_open(screen->top.desk, "A problem", "What went wrong? It is stamped with the time.", &lines, problem_taken,
                  screen);
}

static void acknowledge(void *state, const struct key *key)
{
    struct bench_screen *screen = state;
    struct lw_now now = bench_now(screen);
    struct lw_error error = {""};

    (void)key;
    bench_done(screen, run_acknowledge(screen->run, &now, &error), &error);
}

static void turned(void *context, int index)
{
    struct bench_screen *screen = context;

    if (index >= 0)
        bench_turn_to(screen, screen->id[index]);
}

static const char *no_other(void *state)
{
    const struct bench_screen *screen = state;
    const struct board *board = &screen->top.running->board;
    int others = board->batches - (screen->run != NULL);

    return others > 0 ? NULL : "No other batch is on the bench; b on a recipe starts one.";
}

/* With two there is nothing to choose. */
static void next_batch(void *state, const struct key *key)
{
    struct bench_screen *screen = state;
    const struct board *board = &screen->top.running->board;
    int64_t here = screen->run ? run_batch(screen->run)->head.id : 0;
    struct numbered lines = {0};

    (void)key;
    for (int i = 0; i < board->batches; i++)
        if (board->line[i].id != here) {
            screen->id[lines.count] = board->line[i].id;
            numbered_add(&lines, "%s   batch %s", board->line[i].name, board->line[i].number);
        }
    if (lines.count == 1)
        turned(screen, 0);
    else
        numbered_open(screen->top.desk, "On the bench", "Which batch?", &lines, turned, screen);
}

static void leave(void *state, const struct key *key)
{
    (void)key;
    desk_pop(((struct bench_screen *)state)->top.desk);
}

static const char *already_set_aside(void *state)
{
    const struct bench_screen *screen = state;

    return run_batch(screen->run)->set_aside ? "This batch is set aside already." : NULL;
}

static const char *not_combined(void *state)
{
    const struct bench_screen *screen = state;

    return run_batch(screen->run)->combined_s ? NULL : "There is no batter yet that could be left over.";
}

static const char *no_kept_number(void *state)
{
    const struct bench_screen *screen = state;

    if (run_batch(screen->run)->step[screen->at].step.kind == STEP_CUT)
        return screen->kept == 0 ? "Type how many bars there are." : "Type what the lightest bar weighs.";
    if (screen->kept == 0 && bench_nothing_counted(screen))
        return "Nothing was counted while they were piped: type how many are good, 0 if there are none.";
    return NULL;
}

static const char *has_to_be_typed(void *state)
{
    (void)state;
    return "Alkali is never taken as shown: type what the scale reads, then Enter.";
}

#define AT(place) (1u << (place))
enum { ALWAYS = (1 << DEED_PLACES) - 1, AT_STEPS = (1 << DEED_AT_END) - 1, AT_BATCH = (1 << DEED_AT_NOTHING) - 1 };
enum { AT_NO_PIECES = AT_STEPS & ~(1 << ASK_PIECES) };

/* clang-format off */
static const struct deed table[] = {
    {"done", "Enter", "done", "The step is done.", bench_enter, NULL, AT(ASK_ENTER), false},
    {"done", "Enter", "as shown", "Takes the reading as it is shown.", bench_enter, NULL, AT(ASK_READING), false},
    {"", "0-9", "what it reads", "Types what the scale reads, with units and arithmetic if you like: 12 oz, 250/3.", NULL,
     NULL, AT(ASK_READING) | AT(DEED_AT_ALKALI), false},
    {"done", "Enter", NULL, "Takes nothing here: the reading of an alkali has to be typed.", bench_enter, has_to_be_typed,
     AT(DEED_AT_ALKALI), false},
    {"", "0-9", "temperature", "Types the lye's temperature, then the oils'; both can be left out.", NULL, NULL,
     AT(ASK_TEMPERATURES), false},
    {"done", "Enter", "combined", "Lye meets oil: stamps the time.", bench_enter, NULL, AT(ASK_TEMPERATURES), false},
    {"", "0-7", "how thick it is", "Stamps that stage of trace.", NULL, NULL, AT(ASK_STAGE), false},
    {"done", "Enter", "go on", "It is thick enough; goes on.", bench_enter, NULL, AT(ASK_STAGE), false},
    {"more", "+", "one more", "One more good piece.", one_more, NULL, AT(ASK_PIECES), false},
    {"take back", "-", "take back", "Takes one good piece back.", take_back, NULL, AT(ASK_PIECES), false},
    {"reject", "*", "reject", "One more piece that is not good enough.", reject, NULL, AT(ASK_PIECES), false},
    {"scraped", "/", "scraped back", "One reject was scraped back into the bag.", scraped, NULL, AT(ASK_PIECES), false},
    {"done", "Enter", "done", "All that can be piped is piped.", bench_enter, NULL, AT(ASK_PIECES), false},
    {"weigh", "w", "weigh the rest", "Weighs what is left in the bag, so that what it still makes is known.", weigh_rest, NULL,
     AT(ASK_PIECES), true},
    {"", "0-9", "count", "Types a number.", NULL, NULL, AT(ASK_TWO_COUNTS) | AT(ASK_COUNT), false},
    {"done", "Enter", "as counted", "Takes the numbers.", bench_enter, no_kept_number, AT(ASK_TWO_COUNTS), false},
    {"done", "Enter", "all placed", "No more pieces are placed; goes on.", bench_enter, NULL, AT(ASK_COUNT), false},
    {"done", "Enter", "the questions", "Five questions with a key each, then the batch is finished.", bench_enter, NULL,
     AT(DEED_AT_END), false},
    {"done", "Enter", "read and done", "The notes were read, and what they ask for is done.", acknowledge, NULL,
     AT(DEED_AT_NOTES), false},
    {"going", "g", "it is going", "The batter is setting: keeps only the shortest way to a pour.", going, NULL,
     AT(ASK_STAGE) | AT(ASK_PIECES), true},
    {"splash", "!", "splash", "Lye on somebody: first aid, large, with a timer of 20 minutes.", bench_splash, NULL, ALWAYS,
     true},
    {"back", "-", "back", "Takes back what was said last.", back, NULL, AT_NO_PIECES | AT(DEED_AT_END), false},
    {"back", "b", NULL, "Takes back what was said last, a step or a weighing.", back, NULL, AT(ASK_PIECES), true},
    {"menu", ".", "list", "Lists by number what has a letter or sign, for a number pad alone.", bench_menu, NULL, AT_BATCH,
     false},
    {"timer", "t", "timer", "Starts or stops a timer.", bench_timers, NULL, AT_STEPS, true},
    {"skip", "s", "skip", "Skips the step; not an alkali weighing, not combining.", skip, NULL, AT_STEPS, true},
    {"going", "g", "it is going", "The batter is setting: keeps only the shortest way to a pour.", going, NULL,
     AT_STEPS & ~(AT(ASK_STAGE) | AT(ASK_PIECES)), true},
    {"next", "n", "next batch", "Goes to another batch on the bench.", next_batch, no_other, ALWAYS, true},
    {"put right", "r", "put right", "What can be done about a weighing that is off.", bench_put_right, NULL, AT_BATCH, true},
    {"correct", "c", NULL, "Says what is really in: found out later, or forgotten.", bench_correct, NULL, AT_BATCH, true},
    {"later", "l", NULL, "Does the step that follows first.", later, NULL, AT_STEPS, true},
    {"note", "*", "note", "Writes a note with the time.", note, NULL, AT_NO_PIECES | AT(DEED_AT_END), false},
    {"note", "N", NULL, "Writes a note with the time.", note, NULL, AT_BATCH, true},
    {"problem", "p", NULL, "Something went wrong: says what, with the time.", problem, NULL, AT_BATCH, true},
    {"left over", "o", NULL, "Batter that is kept for later: of which colour, how much, and until when.", bench_leftover, not_combined,
     AT_BATCH, true},
    {"step", "a", NULL, "Adds a step of your own before this one.", add_step, NULL, AT_STEPS, true},
    {"finish", "e", NULL, "Ends the batch before its last step, with the five questions.", bench_finish, NULL, AT_STEPS, true},
    {"set aside", "x", NULL, "Sets the batch aside, not to be used.", bench_aside, already_set_aside, AT_BATCH, true},
    {"leave", "Esc q", "leave", "Goes back; the batch and its timers go on.", leave, NULL, ALWAYS, true},
};
/* clang-format on */

const struct deed *deeds(size_t *n)
{
    *n = sizeof table / sizeof *table;
    return table;
}

unsigned deeds_place(const struct bench_screen *screen)
{
    if (!screen->run)
        return DEED_AT_NOTHING;
    if (screen->at < 0)
        return DEED_AT_END;
    if (screen->notes_due)
        return DEED_AT_NOTES;
    return screen->ask.typed ? DEED_AT_ALKALI : (unsigned)screen->ask.kind;
}

bool deeds_known(const char *word)
{
    for (size_t i = 0; i < sizeof table / sizeof *table; i++)
        if (table[i].word[0] && strcmp(table[i].word, word) == 0)
            return true;
    return false;
}

void deeds_words(char *out, size_t size)
{
    out[0] = '\0';
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        bool before = !table[i].word[0];

        for (size_t j = 0; j < i && !before; j++)
            before = strcmp(table[j].word, table[i].word) == 0;
        if (!before)
            text_add(out, size, "%s%s", out[0] ? ", " : "", table[i].word);
    }
}

/* What the maker's settings use this key for; NULL: nothing. */
static const char *use_of(const struct settings *settings, const char *key, size_t length)
{
    for (int i = 0; i < settings->keys; i++)
        if (strlen(settings->key[i].key) == length && strncmp(settings->key[i].key, key, length) == 0)
            return settings->key[i].action;
    return NULL;
}

/* The usual keys but those that the maker uses otherwise, then the maker's own. */
static void keys_of(const struct bench_screen *screen, const struct deed *deed, char *out, size_t size)
{
    const struct settings *settings = workshop_settings(screen->top.workshop);

    out[0] = '\0';
    for (const char *key = deed->keys; *key; key += strspn(key, " ")) {
        size_t length = strcspn(key, " ");

        if (!use_of(settings, key, length))
            text_add(out, size, "%s%.*s", out[0] ? " " : "", (int)length, key);
        key += length;
    }
    for (int i = 0; i < settings->keys && deed->word[0]; i++)
        if (strcmp(settings->key[i].action, deed->word) == 0)
            text_add(out, size, "%s%s", out[0] ? " " : "", settings->key[i].key);
}

static const struct action *typing_actions(size_t *n)
{
    static const struct action actions[] = {
        {"Enter", "take it", "Takes what is typed.", NULL, NULL},
        {"..", "begin again", "Two points one after the other empty the field; once more closes it.", NULL, NULL},
        {"!", "splash", "Lye on somebody: first aid, large, with a timer of 20 minutes.", bench_splash, NULL},
        {"Esc", "close", "Closes the field; nothing is taken.", NULL, NULL},
    };

    *n = sizeof actions / sizeof *actions;
    return actions;
}

const struct action *bench_actions(void *state, size_t *n)
{
    struct bench_screen *screen = state;
    unsigned place = deeds_place(screen);

    if (screen->typing != TYPING_NOTHING)
        return typing_actions(n);
    *n = 0;
    for (size_t i = 0; i < sizeof table / sizeof *table && *n < BENCH_ACTIONS; i++) {
        if (!(table[i].steps >> place & 1))
            continue;
        keys_of(screen, &table[i], screen->keys[*n], BENCH_KEYS_BYTES);
        screen->action[*n] = (struct action){screen->keys[*n], table[i].label, table[i].help, table[i].run,
                                             table[i].why_not};
        (*n)++;
    }
    return screen->action;
}
