/* page_portions.c - how the batter is split, coloured and scented; its size above, the fragrances below. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "lyeway/names.h"
#include "ui/kit/surface.h"
#include "ui/screens/recipe/page.h"
#include "ui/screens/show.h"
#include "work/look.h"
#include "work/words_learned.h"

/* Columns at a width of 80; what is over goes to the names. */
struct columns {
    int name, amount, batter, unit, swatch, colour, dose, scented, use;
    int name_width, colour_width;
};

enum {
    AMOUNT_WIDTH = 9,
    BATTER_WIDTH = 8,
    DOSE_WIDTH = 8,
    SCENT_WIDTH = 5,
    USE_WIDTH = 5,
    SWATCH_WIDTH = 2,
    LOOK_COL = 2
};

static struct columns columns_of(int width)
{
    struct columns at;
    int over = width > 79 ? (width - 79) / 2 : 0;

    at.name = 0;
    at.name_width = 12 + over;
    at.amount = at.name_width + 1;
    at.batter = at.amount + AMOUNT_WIDTH + 1;
    at.unit = at.batter + BATTER_WIDTH + 1;
    at.swatch = at.unit + 3;
    at.colour = at.swatch + SWATCH_WIDTH + 1;
    at.use = width - USE_WIDTH;
    at.scented = at.use - SCENT_WIDTH - 1;
    at.dose = at.scented - DOSE_WIDTH - 1;
    at.colour_width = at.dose - at.colour - 1;
    return at;
}

static void heading(struct page *page, const struct columns *at)
{
    struct line *line = page_line(page, REGION_PORTIONS);

    page_piece(line, at->name, at->name_width, "Portions")->style = STYLE_TITLE;
    page_piece(line, at->amount, AMOUNT_WIDTH, "asked")->right = true;
    page_piece(line, at->batter, BATTER_WIDTH, "batter")->right = true;
    page_piece(line, at->swatch, SWATCH_WIDTH + 1 + at->colour_width, "colour");
    page_piece(line, at->dose, DOSE_WIDTH, "%s", show_unit(page->settings))->right = true;
    page_piece(line, at->scented, SCENT_WIDTH, "scent");
    page_piece(line, at->use, USE_WIDTH, "use");
}

static void cycle(struct piece *piece, enum cycle which, int index)
{
    piece->act = ACT_CYCLE;
    piece->cycle = which;
    piece->cell.index = index;
}

static void amount_text(const struct recipe_portion *asked, char out[SHOW_BYTES])
{
    if (asked->demand == DEMAND_REST || asked->demand == DEMAND_PIECES) {
        snprintf(out, SHOW_BYTES, "%s", asked->demand == DEMAND_REST ? "rest" : "pieces");
        return;
    }
    if (asked->demand == DEMAND_SHARE)
        show_percent(out, asked->amount, 2);
    else
        show_number(out, asked->amount, asked->demand == DEMAND_GRAMS ? 2 : 1);
    text_add(out, SHOW_BYTES, asked->demand == DEMAND_SHARE ? " %%" : asked->demand == DEMAND_GRAMS ? " g" : " mm");
}

static void colour(struct page *page, struct line *line, const struct columns *at, int index, int sub)
{
    const struct plan_document *document = page->document;
    const struct weighing *weighing = &document->plan->portion[index].colourant[sub].colourant;
    struct piece *piece = page_name(page, line, at->colour, at->colour_width,
                                    (struct part_ref){PART_COLOURANT, (int16_t)index, (int16_t)sub});
    char dose[SHOW_BYTES];

    page_pick(piece, ACT_PICK, CHANGE_PORTION, index, sub);
    show_mass(dose, weighing->rounded_ug, weighing->division_ug, page->settings);
    piece = page_piece(line, at->dose, DOSE_WIDTH, "%s", dose);
    piece->right = true;
    page_edit(piece, CELL_COLOUR_DOSE, index, sub);
}

static void more_colours(struct page *page, const struct columns *at, int index)
{
    const struct recipe_portion *asked = &page->document->input->recipe->portion[index];

    for (int sub = 1; sub < asked->colourants; sub++) {
        struct line *line = page_line(page, REGION_PORTIONS);

        line->part = CHANGE_PORTION;
        line->index = index;
        line->sub = sub;
        line->removable = true;
        colour(page, line, at, index, sub);
    }
}

/* "  24 blossom of 6.50 g: pipe 29; about 26 good; 88 times in 100 enough; 2 bags". */
static void pieces(struct page *page, int index, const struct plan_pieces *planned)
{
    const struct pieces *asked = &page->document->input->recipe->portion[index].pieces;
    struct line *line = page_line(page, REGION_PORTIONS);
    char mass[SHOW_BYTES], chance[SHOW_BYTES], good[SHOW_BYTES];

    page_edit(page_piece(line, 2, 5, "%d", planned->wanted), CELL_PIECES_COUNT, index, 0);
    line->piece[0].right = true;
    page_edit(page_piece(line, 8, 10, "%s", asked->kind[0] ? asked->kind : "pieces"), CELL_PIECES_KIND, index, 0);
    show_number(mass, asked->mass_g, 2);
    page_edit(page_piece(line, 19, 8, "%s g", mass), CELL_PIECES_MASS, index, 0);
    if (planned->mass_batches > 0)
        show_number(mass, planned->mass_g, 2);
    show_percent(chance, planned->chance, 0);
    show_number(good, planned->expected_good, 0);
    if (planned->mass_batches > 0)
        page_piece(line, 28, 50, "%s g by %d batches: pipe %d; %s in 100 enough", mass, planned->mass_batches,
                   planned->to_pipe, chance);
    else if (planned->chance > 0.995)
        page_piece(line, 28, 50, "pipe %d; about %s good; nearly always enough", planned->to_pipe, good);
    else
        page_piece(line, 28, 50, "pipe %d; about %s good; %s times in 100 enough", planned->to_pipe, good, chance);
}

/* Blank where the colour is not known, but there: the cursor counts pieces, and typing a dose may make a colour known. */
static void swatch(struct line *line, int col, bool known, unsigned rgb)
{
    struct piece *piece = page_piece(line, col, SWATCH_WIDTH, "%s", "");

    if (known)
        piece->style = style_fill(rgb);
}

static void look_words(struct page *page, struct line *line, int col, int i)
{
    char words[PIECE_BYTES];

    look_of_portion(page->document->input, page->document->plan, i, words, sizeof words);
    page_piece(line, col, (int)strlen(words), "%s", words);
}

/* How a coloured portion looks takes a line of its own where there is room; else it is said when the cursor comes to it. */
static void look(struct page *page, int i)
{
    const struct plan_colour *colour = &page->document->plan->portion[i].colour;
    struct line *line;

    if (!page->tall)
        return;
    line = page_line(page, REGION_PORTIONS);
    if (colour->known && colour->fresh_rgb != colour->cured_rgb)
        swatch(line, LOOK_COL, true, colour->fresh_rgb);
    look_words(page, line, LOOK_COL + SWATCH_WIDTH + 1, i);
}

/* Who speaks for mass and window: a line of its own where there is room, as above. */
static void learned(struct page *page, int i)
{
    char words[PIECE_BYTES];

    if (!page->tall)
        return;
    words_of_learned(page->document->plan, i, words, sizeof words);
    page_piece(page_line(page, REGION_PORTIONS), LOOK_COL + SWATCH_WIDTH + 1, (int)strlen(words), "%s", words);
}

static void portion(struct page *page, const struct columns *at, int i)
{
    const struct recipe *recipe = page->document->input->recipe;
    const struct plan_portion *planned = &page->document->plan->portion[i];
    const struct recipe_portion *asked = planned->source >= 0 ? &recipe->portion[planned->source] : NULL;
    const char *unnamed = recipe->portions > 0 ? "leftover" : "batter";
    struct line *line = page_line(page, REGION_PORTIONS);
    char mass[SHOW_BYTES], amount[SHOW_BYTES];
    struct piece *piece = page_piece(line, at->name, at->name_width, "%s", asked ? asked->name : unnamed);

    show_mass(mass, planned->batter_ug, planned->division_ug, page->settings);
    page_piece(line, at->batter, BATTER_WIDTH, "%s", mass)->right = true;
    page_piece(line, at->unit, 2, "%s", show_unit(page->settings));
    swatch(line, at->swatch, planned->colour.known, planned->colour.cured_rgb);
    if (!asked) {
        look_words(page, line, at->colour, i);
        return;
    }
    line->part = CHANGE_PORTION;
    line->index = i;
    line->removable = true;
    page_edit(piece, CELL_PORTION_NAME, i, 0);
    amount_text(asked, amount);
    piece = page_piece(line, at->amount, AMOUNT_WIDTH, "%s", amount);
    piece->right = true;
    page_edit(piece, CELL_PORTION_AMOUNT, i, 0);
    if (asked->colourants > 0)
        colour(page, line, at, i, 0);
    else {
        page_pick(page_piece(line, at->colour, 8, "+ colour"), ACT_ADD, CHANGE_PORTION, i, 0);
        look_words(page, line, at->colour + 9, i);
    }
    cycle(page_piece(line, at->scented, SCENT_WIDTH, "%s", asked->scented ? "yes" : "no"), CYCLE_SCENTED, i);
    cycle(page_piece(line, at->use, USE_WIDTH, "%s", name_of_technique(asked->technique)), CYCLE_TECHNIQUE, i);
    more_colours(page, at, i);
    if (asked->colourants > 0)
        look(page, i);
    if (planned->has_pieces)
        pieces(page, i, &planned->pieces);
    learned(page, i);
}

static void residue(struct page *page, const struct columns *at)
{
    const struct plan *plan = page->document->plan;
    struct line *line = page_line(page, REGION_PORTIONS);
    char mass[SHOW_BYTES];

    page_piece(line, at->name, at->name_width, "left in jug");
    show_mass(mass, plan->residue_ug, 10000, page->settings);
    page_edit(page_piece(line, at->batter, BATTER_WIDTH, "%s", mass), CELL_RESIDUE, 0, 0);
    line->piece[line->pieces - 1].right = true;
    page_piece(line, at->unit, 2, "%s", show_unit(page->settings));
}

static void fragrance(struct page *page, const struct columns *at, int index, int width)
{
    static const char *const signs[] = {
        [FRAGRANCE_OF_OILS] = "%", [FRAGRANCE_OF_BATTER] = "% batter", [FRAGRANCE_PER_KG_OILS] = "g/kg"};
    const struct recipe_fragrance *asked = &page->document->input->recipe->fragrance[index];
    const struct plan_fragrance *planned = &page->document->plan->fragrance[index];
    struct line *line = page_line(page, REGION_PORTIONS);
    char load[SHOW_BYTES], mass[SHOW_BYTES], share[SHOW_BYTES], limit[SHOW_BYTES] = "";
    struct piece *piece = page_name(page, line, at->name, at->name_width,
                                    (struct part_ref){PART_FRAGRANCE, (int16_t)index, 0});

    line->part = CHANGE_FRAGRANCE;
    line->index = index;
    line->removable = true;
    page_pick(piece, ACT_PICK, CHANGE_FRAGRANCE, index, 0);
    show_number(load, asked->value * (asked->by == FRAGRANCE_PER_KG_OILS ? 1 : 100), 2);
    piece = page_piece(line, at->amount, AMOUNT_WIDTH, "%s %s", load, signs[asked->by]);
    piece->right = true;
    page_edit(piece, CELL_FRAGRANCE_LOAD, index, 0);
    show_mass(mass, planned->rounded_ug, 10000, page->settings);
    page_piece(line, at->batter, BATTER_WIDTH, "%s", mass)->right = true;
    page_piece(line, at->unit, 2, "%s", show_unit(page->settings));
    show_percent(share, planned->share_of_product, 2);
    if (planned->has_limit)
        show_percent(limit, planned->limit_share, 2);
    page_piece(line, at->colour, width - at->colour,
               planned->has_limit ? "%s %% of the bar, limit %s" : "%s %% of the bar, no limit known", share, limit);
}

static void add_line(struct page *page, enum change_part part, int index, const char *text)
{
    page_pick(page_piece(page_line(page, REGION_PORTIONS), 0, (int)strlen(text), "%s", text), ACT_ADD, part, index,
              part == CHANGE_PORTION ? -1 : 0);
}

void page_portions(struct page *page, int width)
{
    const struct recipe *recipe = page->document->input->recipe;
    struct columns at = columns_of(width);

    heading(page, &at);
    for (int i = 0; i < page->document->plan->portions; i++)
        portion(page, &at, i);
    residue(page, &at);
    for (int i = 0; i < recipe->fragrances; i++)
        fragrance(page, &at, i, width);
    page_note(page);
    add_line(page, CHANGE_PORTION, recipe->portions, "+ portion");
    add_line(page, CHANGE_FRAGRANCE, recipe->fragrances, "+ fragrance");
}
