/* paint.c - the page on the screen: regions side by side, the strip between them, findings below. */
#include <stdio.h>
#include <string.h>

#include "base/mass.h"
#include "base/text.h"
#include "ui/kit/band.h"
#include "ui/kit/strip.h"
#include "ui/screens/recipe/state.h"
#include "ui/screens/show.h"

enum {
    LYE_WIDTH = 37,
    STRIP_ROWS = 3,
    LEAST_UPPER = 12,
    LEAST_LOWER = 6,
    FINDING_ROWS = 2,
    WIDE_FROM = 112,
    TALL_FROM = 30,
    SIDE = 46
};

static void paint_piece(struct recipe_screen *screen, const struct canvas *line, const struct piece *piece, bool here)
{
    bool cursor = here && piece == state_piece(screen);

    if (cursor && screen->editing) {
        int width = piece->width > 6 ? piece->width + 2 : 8;

        field_paint(&screen->field, line, 0, piece->right ? piece->col + piece->width - width + 1 : piece->col - 1,
                    width);
        return;
    }
    if (piece->right)
        canvas_span_right(line, 0, piece->col, piece->width, piece->style, piece->text);
    else
        canvas_span(line, 0, piece->col, piece->width, piece->style, piece->text);
    if (cursor) {
        /* Only the characters are marked, not the padding: a move of the cursor is to cost few bytes. */
        size_t lead = piece->right ? strspn(piece->text, " ") : 0;
        struct canvas span = canvas_part(line, 0, piece->col, 1, piece->width);
        char text[PIECE_BYTES];

        text_copy(text, sizeof text, piece->text + lead);
        for (size_t n = strlen(text); n > 0 && text[n - 1] == ' '; n--)
            text[n - 1] = '\0';
        if (piece->right)
            canvas_text(&span, 0, piece->width - (int)strlen(piece->text) + (int)lead, STYLE_CURSOR, text);
        else
            canvas_text(&span, 0, 0, STYLE_CURSOR, text);
    }
}

/* The axis always holds 0 and the worst interval; it moves in steps, so that typing does not make it jump. */
static void paint_band(struct recipe_screen *screen, const struct canvas *line)
{
    const struct plan *plan = screen->page.document->plan;
    const struct margin *margin = &plan->margin;
    const char *word = screen->page.document->margin_word;
    double to = 0.12;

    while (to < margin->worst.hi && to < 1)
        to += 0.12;
    band_paint(line, 0,
               &(struct band){.from = -0.04,
                              .to = to,
                              .mark = 0,
                              .worst_lo = margin->worst.lo,
                              .worst_hi = margin->worst.hi,
                              .likely_lo = margin->likely.lo,
                              .likely_hi = margin->likely.hi,
                              .point = margin->nominal,
                              .mark_name = "0",
                              .left = margin->worst.lo < 0 ? "LYE!" : "lye",
                              .right = "oil"},
               strcmp(word, "WIDE") == 0    ? STYLE_GOOD
               : strcmp(word, "TIGHT") == 0 ? STYLE_CAUTION
                                            : STYLE_STOP);
}

static void scroll(struct recipe_screen *screen, enum region region, int rows)
{
    int *top = &screen->scrolled[region];

    screen->rows[region] = rows;
    if (screen->spot.region == region && screen->spot.line < *top + 1)
        *top = screen->spot.line - 1;
    if (screen->spot.region == region && screen->spot.line >= *top + rows)
        *top = screen->spot.line - rows + 1;
    if (*top > screen->page.lines[region] - rows)
        *top = screen->page.lines[region] - rows;
    if (*top < 0)
        *top = 0;
}

static void paint_region(struct recipe_screen *screen, enum region region, const struct canvas *canvas)
{
    scroll(screen, region, canvas->rows);
    for (int row = 0; row < canvas->rows && screen->scrolled[region] + row < screen->page.lines[region]; row++) {
        int at = row == 0 ? 0 : screen->scrolled[region] + row; /* the heading stays */
        const struct line *line = &screen->page.line[region][at];
        struct canvas span = canvas_part(canvas, row, 1, 1, canvas->cols - 1);
        bool here = screen->spot.region == region && screen->spot.line == at;

        canvas_text(canvas, row, 0, STYLE_STRONG, here ? ">" : " ");
        if (line->kind == LINE_BAND)
            paint_band(screen, &span);
        for (int i = 0; i < line->pieces; i++)
            if (!(here && i == screen->spot.piece && screen->editing))
                paint_piece(screen, &span, &line->piece[i], here);
        if (here && screen->editing)
            paint_piece(screen, &span, &line->piece[screen->spot.piece], here);
    }
}

/* "1 stop, 2 cautions": the worst level that there is, and how many, at the right end. */
static void paint_count(struct recipe_screen *screen, const struct canvas *canvas)
{
    static const char *const words[] = {"stop", "caution", "remark"};
    static const uint16_t styles[] = {STYLE_STOP, STYLE_CAUTION, STYLE_REMARK};
    enum finding_level worst = LEVEL_REMARK;
    char text[SHOW_BYTES];
    int count[3];

    if (!plan_worst(screen->page.document->plan, &worst, count))
        return;
    snprintf(text, sizeof text, "%d %s%s", count[worst], words[worst], count[worst] == 1 ? "" : "s");
    canvas_text(canvas, 0, canvas->cols - 1 - (int)strlen(text), styles[worst], text);
}

static void paint_size(struct recipe_screen *screen, const struct canvas *canvas)
{
    static const char *const ways[] = {"oils as entered", "oils", "batter", "mould", "pieces"};
    const struct plan *plan = screen->page.document->plan;
    char batter[SHOW_BYTES], oils[SHOW_BYTES], volume[SHOW_BYTES];

    show_mass(batter, plan->batter_ug, 10000, screen->page.settings);
    show_mass(oils, plan->oils_ug, 10000, screen->page.settings);
    show_number(volume, plan->batter_ml, 0);
    canvas_print(canvas, 0, 1, STYLE_PLAIN, "Batter %s %s  %s mL  oils %s %s  sized by %s (z)", batter,
                 show_unit(screen->page.settings), volume, oils, show_unit(screen->page.settings),
                 ways[screen->page.document->input->recipe->size.by]);
    paint_count(screen, canvas);
}

/* What goes in, drawn to the same length as what it is split into. */
static void paint_ingredients(struct recipe_screen *screen, const struct canvas *canvas, int row)
{
    const struct plan *plan = screen->page.document->plan;
    int64_t oils = plan->oils_ug, alkali = 0, water = plan->water.water.rounded_ug, rest;
    struct strip_part parts[4];

    for (int i = 0; i < ALKALIS; i++)
        alkali += plan->alkali[i].solution.division_ug ? plan->alkali[i].solution.rounded_ug
                                                       : plan->alkali[i].alkali.rounded_ug;
    for (int i = 0; i < screen->page.document->input->recipe->water.liquids; i++)
        water += plan->liquid[i].liquid.rounded_ug;
    rest = plan->batter_ug - oils - alkali - water;
    parts[0] = (struct strip_part){"oils", mass_g(oils), STYLE_PLAIN};
    parts[1] = (struct strip_part){"alkali", mass_g(alkali), STYLE_PLAIN};
    parts[2] = (struct strip_part){"additives", mass_g(rest), STYLE_PLAIN};
    parts[3] = (struct strip_part){"water", mass_g(water), STYLE_PLAIN};
    strip_paint(canvas, row, mass_g(plan->batter_ug), parts, 4);
}

/* A plain portion is drawn in the terminal's own colour: cream would not be seen on a pale one. */
static uint16_t swatch(const struct plan_document *document, const struct plan_portion *portion)
{
    bool coloured = portion->source >= 0 && document->input->recipe->portion[portion->source].colourants > 0;

    return coloured && portion->colour.known ? style_swatch(portion->colour.cured_rgb) : STYLE_PLAIN;
}

static void paint_split(struct recipe_screen *screen, const struct canvas *canvas, int row)
{
    const struct plan_document *document = screen->page.document;
    const struct plan *plan = document->plan;
    struct strip_part parts[PLAN_PORTIONS + 1];
    size_t count = 0;

    for (int i = 0; i < plan->portions; i++) {
        int source = plan->portion[i].source;

        parts[count++] = (struct strip_part){source >= 0 ? document->input->recipe->portion[source].name
                                             : document->input->recipe->portions > 0 ? "leftover"
                                                                                     : "batter",
                                             mass_g(plan->portion[i].batter_ug), swatch(document, &plan->portion[i])};
    }
    parts[count++] = (struct strip_part){"", mass_g(plan->residue_ug), STYLE_PLAIN};
    strip_paint(canvas, row, mass_g(plan->batter_ug), parts, count);
}

static const char *level_sign(enum finding_level level)
{
    return level == LEVEL_STOP ? "STOP" : level == LEVEL_CAUTION ? "!" : "i";
}

static uint16_t level_style(enum finding_level level)
{
    return level == LEVEL_STOP ? STYLE_STOP : level == LEVEL_CAUTION ? STYLE_CAUTION : STYLE_REMARK;
}

/* Where there is nothing to point out, a newcomer is told how to go on. */
static const char *what_is_next(const struct recipe *recipe)
{
    if (recipe->oils == 0)
        return "Begin with an oil: Enter on \"+ oil\", then type any part of its name.";
    if (recipe->oils == 1)
        return "Add more oils with a. A digit on a share changes it; the others make room.";
    if (recipe->portions == 0)
        return "Split the batter: go down to \"+ portion\". Every portion has its own colours; one takes the rest.";
    return "Nothing to point out.";
}

/* As many findings as fit, with what to do; the rest is counted. */
static void paint_findings(struct recipe_screen *screen, const struct canvas *canvas)
{
    const struct plan_document *document = screen->page.document;
    int row = 0, i;

    for (i = 0; i < document->plan->findings && row < canvas->rows; i++) {
        const struct finding *finding = &document->plan->finding[i];
        struct canvas text = canvas_part(canvas, row, 6, canvas->rows - row, canvas->cols - 7);
        int used;

        canvas_text(canvas, row, 1, level_style(finding->level), level_sign(finding->level));
        used = canvas_wrap(&text, 0, text.rows, STYLE_PLAIN, document->words[i].what);
        if (used < text.rows)
            used += canvas_wrap(&text, used, text.rows - used, STYLE_FAINT, document->words[i].todo);
        row += used;
    }
    if (document->plan->findings == 0) {
        struct canvas text = canvas_part(canvas, 0, 1, canvas->rows, canvas->cols - 2);

        canvas_wrap(&text, 0, text.rows, STYLE_PLAIN, what_is_next(document->input->recipe));
    }
}

/* Rows of the upper regions, of the portions, and of the findings. */
static void share_rows(struct recipe_screen *screen, int rows, int *upper, int *lower, int *below)
{
    int wanted_upper = screen->page.lines[REGION_OILS] > screen->page.lines[REGION_LYE]
                           ? screen->page.lines[REGION_OILS]
                           : screen->page.lines[REGION_LYE];
    int wanted_lower = screen->page.lines[REGION_PORTIONS];
    int left = rows - STRIP_ROWS - FINDING_ROWS;

    *upper = wanted_upper < left - LEAST_LOWER ? wanted_upper : left - LEAST_LOWER;
    if (*upper > LEAST_UPPER && wanted_lower > left - *upper)
        *upper = left - wanted_lower > LEAST_UPPER ? left - wanted_lower : LEAST_UPPER;
    *lower = wanted_lower < left - *upper ? wanted_lower : left - *upper;
    *below = rows - STRIP_ROWS - *upper - *lower;
}

void paint_recipe(void *state, const struct canvas *body)
{
    struct recipe_screen *screen = state;
    int cols = body->cols, upper, lower, below;
    struct canvas part;

    screen->width[REGION_LYE] = LYE_WIDTH - 1;
    screen->width[REGION_OILS] = cols - LYE_WIDTH - 3;
    screen->width[REGION_PORTIONS] = cols - 1;
    screen->tall = body->rows >= TALL_FROM;
    state_page(screen);
    share_rows(screen, body->rows, &upper, &lower, &below);
    part = canvas_part(body, 0, 0, upper, cols - LYE_WIDTH - 1);
    paint_region(screen, REGION_OILS, &part);
    part = canvas_part(body, 0, cols - LYE_WIDTH, upper, LYE_WIDTH);
    paint_region(screen, REGION_LYE, &part);
    part = canvas_part(body, upper, 0, STRIP_ROWS, cols);
    paint_size(screen, &part);
    part = canvas_part(&part, 0, 1, STRIP_ROWS, cols - 2);
    paint_ingredients(screen, &part, 1);
    paint_split(screen, &part, 2);
    screen->portions_row = upper + STRIP_ROWS;
    part = canvas_part(body, upper + STRIP_ROWS, 0, lower, cols);
    paint_region(screen, REGION_PORTIONS, &part);
    part = canvas_part(body, upper + STRIP_ROWS + lower, 0, below, cols);
    paint_findings(screen, &part);
}
