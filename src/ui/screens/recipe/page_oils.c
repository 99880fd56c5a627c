/* page_oils.c - the oils with their shares and what the scale will read; additives under them. */
#include <string.h>

#include "ui/kit/surface.h"
#include "ui/screens/recipe/page.h"
#include "ui/screens/show.h"

/* Columns from the right edge, so that names get what is left. */
enum { SHARE_WIDTH = 6, MASS_WIDTH = 8, UNIT_WIDTH = 2 };

struct columns {
    int name, share, mass, unit;
};

static struct columns columns_of(int width)
{
    int unit = width - UNIT_WIDTH, mass = unit - MASS_WIDTH - 1, share = mass - SHARE_WIDTH - 3;

    return (struct columns){share - 1, share, mass, unit};
}

static void heading(struct page *page, const struct columns *at)
{
    struct line *line = page_line(page, REGION_OILS);

    page_piece(line, 0, at->name, "Oils")->style = STYLE_TITLE;
    page_piece(line, at->share, SHARE_WIDTH, "share")->right = true;
    page_piece(line, at->mass, MASS_WIDTH, "to weigh")->right = true;
}

static void put_mass(const struct page *page, struct line *line, const struct columns *at, int64_t ug,
                     int64_t division_ug)
{
    char mass[SHOW_BYTES];

    show_mass(mass, ug, division_ug, page->settings);
    page_piece(line, at->mass, MASS_WIDTH, "%s", mass)->right = true;
    page_piece(line, at->unit, UNIT_WIDTH, "%s", show_unit(page->settings));
}

static void oil(struct page *page, const struct columns *at, int index)
{
    const struct plan *plan = page->document->plan;
    struct line *line = page_line(page, REGION_OILS);
    char share[SHOW_BYTES];
    struct piece *piece;

    line->part = CHANGE_OIL;
    line->index = index;
    line->removable = true;
    piece = page_name(page, line, 0, at->name, (struct part_ref){PART_OIL, (int16_t)index, 0});
    page_pick(piece, ACT_PICK, CHANGE_OIL, index, 0);
    show_percent(share, plan->oil_share[index], 2);
    piece = page_piece(line, at->share, SHARE_WIDTH, "%s", share);
    piece->right = true;
    page_edit(piece, CELL_OIL_SHARE, index, 0);
    page_piece(line, at->share + SHARE_WIDTH + 1, 1, "%%");
    put_mass(page, line, at, plan->oil[index].rounded_ug, plan->oil[index].division_ug);
    page_edit(&line->piece[line->pieces - 2], CELL_OIL_GRAMS, index, 0);
}

static void total(struct page *page, const struct columns *at)
{
    const struct plan *plan = page->document->plan;
    struct line *line;
    int64_t finest = 0;

    for (int i = 0; i < page->document->input->recipe->oils; i++)
        if (finest == 0 || plan->oil[i].division_ug < finest)
            finest = plan->oil[i].division_ug;
    line = page_line(page, REGION_OILS);
    page_piece(line, 0, at->name, "total");
    page_piece(line, at->share, SHARE_WIDTH, "100.00")->right = true;
    page_piece(line, at->share + SHARE_WIDTH + 1, 1, "%%");
    put_mass(page, line, at, plan->oils_ug, finest);
}

static void additive(struct page *page, const struct columns *at, int index)
{
    const struct recipe_additive *given = &page->document->input->recipe->additive[index];
    const struct weighing *weighing = &page->document->plan->additive[index].additive;
    struct line *line = page_line(page, REGION_OILS);
    char dose[SHOW_BYTES];
    struct piece *piece;

    line->part = CHANGE_ADDITIVE;
    line->index = index;
    line->removable = true;
    piece = page_name(page, line, 0, at->name, (struct part_ref){PART_ADDITIVE, (int16_t)index, 0});
    page_pick(piece, ACT_PICK, CHANGE_ADDITIVE, index, 0);
    if (given->by == ADDITIVE_OF_OILS)
        show_percent(dose, given->value, 2);
    else
        show_number(dose, given->value, 2);
    piece = page_piece(line, at->share, SHARE_WIDTH, "%s", dose);
    piece->right = true;
    page_edit(piece, CELL_ADDITIVE_DOSE, index, 0);
    page_piece(line, at->share + SHARE_WIDTH + 1, 1, given->by == ADDITIVE_OF_OILS ? "%%" : "g");
    put_mass(page, line, at, weighing->rounded_ug, weighing->division_ug);
}

static void add_line(struct page *page, enum change_part part, int index, const char *text)
{
    struct line *line = page_line(page, REGION_OILS);

    page_pick(page_piece(line, 0, (int)strlen(text), "%s", text), ACT_ADD, part, index, 0);
}

void page_oils(struct page *page, int width)
{
    const struct recipe *recipe = page->document->input->recipe;
    struct columns at = columns_of(width);

    heading(page, &at);
    for (int i = 0; i < recipe->oils; i++)
        oil(page, &at, i);
    add_line(page, CHANGE_OIL, recipe->oils, "+ oil");
    if (recipe->oils > 0)
        total(page, &at);
    for (int i = 0; i < recipe->additives; i++)
        additive(page, &at, i);
    add_line(page, CHANGE_ADDITIVE, recipe->additives, "+ additive");
}
