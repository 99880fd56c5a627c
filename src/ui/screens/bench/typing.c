/* typing.c - the field for what a scale reads and for counts. A number pad has no key to erase: two points begin again. */
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "ui/screens/bench/state.h"
#include "work/quantity.h"
#include "work/words.h"

enum { TYPED_BYTES = 40, FIELD_WIDTH = 24 };

bool bench_takes_number(const struct bench_screen *screen)
{
    return screen->run && screen->at >= 0 && screen->ask.kind != ASK_ENTER && screen->ask.kind != ASK_STAGE;
}

void bench_type(struct bench_screen *screen, enum typed_what typing, const char *text)
{
    screen->typing = typing;
    screen->echo[0] = '\0';
    field_start(&screen->field, text, TYPED_BYTES);
}

static bool is_mass(const struct bench_screen *screen)
{
    const struct batch *batch = run_batch(screen->run);

    if (screen->typing == TYPING_LEFT || screen->ask.kind == ASK_READING)
        return true;
    return screen->ask.kind == ASK_TWO_COUNTS && screen->kept == 1 && batch->step[screen->at].step.kind == STEP_CUT;
}

/* Grams where it is a mass. */
static enum lw_status read_field(const struct bench_screen *screen, double *number, struct lw_error *error)
{
    static const char *const units[] = {[MASS_G] = "g", [MASS_OZ] = "oz", [MASS_LB] = "lb"};

    if (is_mass(screen))
        return quantity_mass(screen->field.text, units[run_settings(screen->run)->mass_unit], number, error);
    return quantity_number(screen->field.text, number, error);
}

static const char *prompt(const struct bench_screen *screen)
{
    static const char *const prompts[] = {
        [ASK_READING] = "the scale reads", [ASK_TEMPERATURES] = "temperature of the lye",
        [ASK_PIECES] = "so many at once",  [ASK_TWO_COUNTS] = "good pieces",
        [ASK_COUNT] = "pieces placed",
    };

    if (screen->typing == TYPING_LEFT)
        return "the rest in the bag weighs";
    if (screen->ask.kind == ASK_TEMPERATURES && screen->kept > 0)
        return "temperature of the oils";
    if (screen->ask.kind == ASK_TWO_COUNTS && run_batch(screen->run)->step[screen->at].step.kind == STEP_CUT)
        return screen->kept == 0 ? "bars" : "the lightest weighs";
    if (screen->ask.kind == ASK_TWO_COUNTS && screen->kept > 0)
        return "rejects";
    return prompts[screen->ask.kind] ? prompts[screen->ask.kind] : "";
}

/* What arithmetic and units come to, as it will be taken. */
static void note_on(const struct bench_screen *screen, char *out, size_t size)
{
    struct lw_error error = {""};
    double number = 0;

    text_copy(out, size, "");
    if (!screen->field.text[0])
        return;
    if (read_field(screen, &number, &error) != LW_OK)
        text_copy(out, size, error.text);
    else if (is_mass(screen) && strpbrk(screen->field.text, "+-*/() abcdefghijklmnopqrstuvwxyz")) {
        text_copy(out, size, "= ");
        words_of_mass(number, 0, run_settings(screen->run)->mass_unit, out + 2, size - 2);
    }
}

void bench_paint_typing(const struct bench_screen *screen, const struct canvas *line)
{
    char note[WORDS_WHAT_BYTES];
    int col = canvas_text(line, 0, 0, STYLE_STRONG, prompt(screen)) + 1;
    int width = line->cols - col < FIELD_WIDTH ? line->cols - col : FIELD_WIDTH;

    field_paint(&screen->field, line, 0, col, width);
    note_on(screen, note, sizeof note);
    canvas_span(line, 0, col + width + 1, line->cols - col - width - 1, STYLE_PLAIN, note);
}

static void take_typed(struct bench_screen *screen)
{
    struct lw_error error = {""};
    double number = 0;

    if (!screen->field.text[0]) {
        screen->typing = TYPING_NOTHING;
        return;
    }
    if (read_field(screen, &number, &error) != LW_OK) {
        desk_say(screen->top.desk, STYLE_PLAIN, "%s", error.text);
        return;
    }
    bench_take_number(screen, number);
}

/* True where the point was the second in a row. */
static bool begins_again(struct bench_screen *screen, const struct key *key)
{
    size_t length = strlen(screen->field.text);

    if (!key_is(key, '.'))
        return false;
    if (length == 0)
        screen->typing = TYPING_NOTHING;
    else if (screen->field.text[length - 1] == '.')
        field_start(&screen->field, "", TYPED_BYTES);
    else
        return false;
    return true;
}

bool bench_type_key(struct bench_screen *screen, const struct key *key)
{
    if (key_is(key, '!')) /* first aid is wanted now, not in a number */
        return false;
    if (key->code == KEY_ESCAPE)
        screen->typing = TYPING_NOTHING;
    else if (key->code == KEY_RETURN)
        take_typed(screen);
    else if (!begins_again(screen, key))
        return field_key(&screen->field, key) != FIELD_IGNORED;
    return true;
}
