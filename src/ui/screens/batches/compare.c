/* compare.c - two to four batches side by side: why they differ, then the rows that differ, then all of them. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "base/utf8.h"
#include "ui/kit/list.h"
#include "ui/screens/batches/batches.h"

enum { NAME_LEAST = 20, VALUE_MOST = 22, CAUSES_SHOWN = 6 };

struct compare_screen {
    struct top top; /* first, for top_key */
    int64_t id[BOOK_COMPARED];
    int n;
    int about; /* a figure */
    bool all;  /* rows that are the same too */
    struct compare compare;
    struct list list;
    int row[COMPARE_ROWS]; /* those shown */
    int column;            /* the batch that Enter opens */
    int head_rows, cols;   /* when last painted: rows above the list, columns of all of it */
};

static void choose_rows(struct compare_screen *screen)
{
    int n = 0;

    for (int i = 0; i < screen->compare.rows; i++)
        if (screen->all || screen->compare.row[i].differs)
            screen->row[n++] = i;
    list_count(&screen->list, n);
}

static bool compared(struct compare_screen *screen)
{
    struct lw_error error = {""};

    if (book_compare(screen->top.workshop, screen->id, screen->n, (enum book_figure)screen->about, &screen->compare,
                     &error) != LW_OK) {
        desk_say(screen->top.desk, STYLE_STOP, "%s", error.text);
        return false;
    }
    choose_rows(screen);
    return true;
}

static void read_compare(void *state)
{
    compared(state);
}

/* ---- painting */

static int value_width(const struct compare_screen *screen, int cols)
{
    int width = (cols - NAME_LEAST - 3) / screen->n - 1;

    return width > VALUE_MOST ? VALUE_MOST : width;
}

static int name_width(const struct compare_screen *screen, int cols)
{
    return cols - 3 - screen->n * (value_width(screen, cols) + 1);
}

static void paint_row(void *context, int index, bool selected, const struct canvas *line)
{
    const struct compare_screen *screen = context;
    const struct compare_row *row = &screen->compare.row[screen->row[index]];
    int width = value_width(screen, line->cols + 1), name = name_width(screen, line->cols + 1);

    canvas_span(line, 0, 0, name, selected ? STYLE_CURSOR : STYLE_PLAIN, row->name);
    for (int b = 0; b < screen->n; b++)
        canvas_span_right(line, 0, name + 1 + b * (width + 1), width, row->differs ? STYLE_STRONG : STYLE_PLAIN,
                          row->value[b]);
}

static int paint_why(const struct compare_screen *screen, const struct canvas *body)
{
    struct canvas text = canvas_part(body, 0, 1, body->rows, body->cols - 2);
    int row = canvas_wrap(&text, 0, 5, STYLE_PLAIN, screen->compare.summary);

    for (int i = 0; i < screen->compare.causes && i < CAUSES_SHOWN; i++) {
        struct canvas line = canvas_part(&text, row, 2, text.rows - row, text.cols - 2);

        row += canvas_wrap(&line, 0, 2, STYLE_STRONG, screen->compare.cause[i].text);
    }
    return row + 1;
}

static void paint_heading(const struct compare_screen *screen, const struct canvas *line)
{
    int width = value_width(screen, line->cols), name = name_width(screen, line->cols);

    canvas_text(line, 0, 1, STYLE_TITLE, screen->all ? "all rows" : "rows that differ");
    for (int b = 0; b < screen->n; b++)
        canvas_span_right(line, 0, name + 2 + b * (width + 1), width, b == screen->column ? STYLE_CURSOR : STYLE_TITLE,
                          screen->compare.line[b].number);
}

static void paint(void *state, const struct canvas *body)
{
    struct compare_screen *screen = state;
    int row = paint_why(screen, body);
    struct canvas rows = canvas_part(body, row, 0, 1, body->cols);

    paint_heading(screen, &rows);
    screen->head_rows = row + 1;
    screen->cols = body->cols;
    rows = canvas_part(body, row + 1, 0, body->rows - row - 1, body->cols);
    if (screen->list.count == 0)
        canvas_text(&rows, 0, 1, STYLE_PLAIN, "Nothing that is on record differs between them; a shows all rows.");
    list_paint(&screen->list, &rows, paint_row, screen);
}

static void where(void *state, char *out, size_t size)
{
    const struct compare_screen *screen = state;

    text_copy(out, size, "Batches > ");
    if (screen->n == 2)
        text_add(out, size, "%s against %s", screen->compare.line[0].number, screen->compare.line[1].number);
    else /* the heads of the table name them */
        text_add(out, size, "%d side by side", screen->n);
}

/* ---- keys */

/* What a cell has no room for stands whole in the line below while its row is marked. */
static void say_whole(const struct compare_screen *screen)
{
    const struct compare_row *row = &screen->compare.row[screen->row[screen->list.selected]];
    bool cut = (int)utf8_columns(row->name) > name_width(screen, screen->cols);
    char text[512] = "";

    if (screen->list.count == 0)
        return;
    text_add(text, sizeof text, "%s:", row->name);
    for (int b = 0; b < screen->n; b++) {
        cut |= (int)utf8_columns(row->value[b]) > value_width(screen, screen->cols);
        text_add(text, sizeof text, "%s %s %s", b > 0 ? ";" : "", screen->compare.line[b].number, row->value[b]);
    }
    if (cut)
        desk_say(screen->top.desk, STYLE_PLAIN, "%s.", text);
}

static bool take_key(void *state, const struct key *key)
{
    struct compare_screen *screen = state;

    if (key->code == KEY_CLICK) {
        int index = list_at(&screen->list, key->row - 1 - screen->head_rows);

        if (index >= 0)
            screen->list.selected = index;
        say_whole(screen);
        return index >= 0;
    }
    if (key->code == KEY_ARROW_LEFT || key->code == KEY_ARROW_RIGHT) {
        screen->column += key->code == KEY_ARROW_RIGHT ? 1 : screen->n - 1;
        screen->column %= screen->n;
        return true;
    }
    if (!list_key(&screen->list, key))
        return top_key(&screen->top, key);
    say_whole(screen);
    return true;
}

static void about_taken(void *context, int figure)
{
    struct compare_screen *screen = context;

    screen->about = figure;
    read_compare(screen);
}

static void about(void *state, const struct key *key)
{
    struct compare_screen *screen = state;

    (void)key;
    figure_ask(&screen->top, "Why does which figure differ?", false, about_taken, screen);
}

static void show_all(void *state, const struct key *key)
{
    struct compare_screen *screen = state;

    (void)key;
    screen->all = !screen->all;
    choose_rows(screen);
}

static void open_one(void *state, const struct key *key)
{
    struct compare_screen *screen = state;

    (void)key;
    batch_open(&screen->top, screen->id[screen->column]);
}

static void leave(void *state, const struct key *key)
{
    (void)key;
    desk_pop(((struct compare_screen *)state)->top.desk);
}

static void learned(void *state, const struct key *key)
{
    (void)key;
    learned_open(&((struct compare_screen *)state)->top);
}

static const struct action *actions_of(void *state, size_t *count)
{
    static const struct action actions[] = {
        {"f", "why which figure", "Explains another figure: any that is on record.", about, NULL},
        {"L", "learned", "What the batches have taught, with how many of them speak.", learned, NULL},
        {"a", "all rows", "Shows the rows that are the same too, or not.", show_all, NULL},
        {"Enter", "open", "Opens the marked batch; Left and Right mark another.", open_one, NULL},
        {"Up", NULL, "Moves through the rows; Down likewise.", NULL, NULL},
        {"1 2 3 4 S", NULL, "Today, Recipes, Bench, Batches, Settings.", NULL, NULL},
        {"Esc", "back", "Goes back.", leave, NULL},
    };

    (void)state;
    *count = sizeof actions / sizeof *actions;
    return actions;
}

void compare_open(const struct top *top, const int64_t id[], int n)
{
    static const struct view_ops ops = {.title = "Batches side by side",
                                        .where = where,
                                        .paint = paint,
                                        .key = take_key,
                                        .actions = actions_of,
                                        .news = read_compare,
                                        .closed = free};
    struct compare_screen *screen = calloc(1, sizeof *screen);

    if (!screen) {
        desk_say(top->desk, STYLE_STOP, "There is no memory left to compare.");
        return;
    }
    screen->top = *top;
    screen->n = n;
    screen->about = BOOK_WINDOW;
    memcpy(screen->id, id, (size_t)n * sizeof id[0]);
    if (compared(screen))
        desk_push(top->desk, &ops, screen);
    else
        free(screen);
}

/* ---- the one before: of the same recipe, and one that counts */

struct before {
    int64_t recipe;
    int64_t id;            /* 0: not found yet */
    struct book_line last; /* looked at */
    int looked;
};

static bool take_before(void *context, const struct book_line *line)
{
    struct before *before = context;

    before->last = *line;
    before->looked++;
    if (line->recipe_id == before->recipe && line->teaches)
        before->id = line->id;
    return before->id == 0;
}

/* Page by page back through the book. */
static enum lw_status find_before(struct store *store, const struct book_line *line, struct before *before,
                                  struct lw_error *error)
{
    const struct book_filter all = {.terms = 0};
    enum lw_status status = LW_OK;

    *before = (struct before){.recipe = line->recipe_id, .last = *line};
    do {
        struct book_line beyond = before->last;

        before->looked = 0;
        status = book_page(store, &all, BOOK_NEWEST, &beyond, false, BOOK_PAGE, take_before, before, error);
    } while (status == LW_OK && before->id == 0 && before->looked == BOOK_PAGE);
    return status;
}

void compare_with_before(const struct top *top, const struct book_line *line)
{
    struct before before;
    struct lw_error error = {""};

    if (find_before(workshop_store(top->workshop), line, &before, &error) != LW_OK)
        desk_say(top->desk, STYLE_STOP, "%s", error.text);
    else if (before.id == 0)
        desk_say(top->desk, STYLE_PLAIN, "There is no earlier batch of this recipe that counts, to compare it with.");
    else
        compare_open(top, (int64_t[]){line->id, before.id}, 2);
}
