/* page_lye.c - alkali, water and the superfat with its band. */
#include <string.h>

#include "ui/kit/surface.h"
#include "ui/screens/recipe/page.h"
#include "ui/screens/show.h"

enum { LABEL_WIDTH = 9, MASS_WIDTH = 9, SIDE = 22 };

static struct piece *label(struct line *line, const char *text)
{
    return page_piece(line, 0, LABEL_WIDTH, "%s", text);
}

static void put_mass(const struct page *page, struct line *line, const struct weighing *weighing)
{
    char mass[SHOW_BYTES];

    show_mass(mass, weighing->rounded_ug, weighing->division_ug, page->settings);
    page_piece(line, LABEL_WIDTH, MASS_WIDTH, "%s", mass)->right = true;
    page_piece(line, LABEL_WIDTH + MASS_WIDTH + 1, 2, "%s", show_unit(page->settings));
}

static void alkali(struct page *page, enum alkali kind, int width)
{
    static const char *const names[ALKALIS] = {"NaOH", "KOH"};
    static const enum cell_kind strengths[ALKALIS] = {CELL_SOLUTION_NAOH, CELL_SOLUTION_KOH};
    const struct plan *plan = page->document->plan;
    bool solution = plan->alkali[kind].solution.division_ug > 0;
    const struct weighing *weighing = solution ? &plan->alkali[kind].solution : &plan->alkali[kind].alkali;
    struct line *line = page_line(page, REGION_LYE);
    char percent[SHOW_BYTES];

    label(line, names[kind]);
    put_mass(page, line, weighing);
    if (!solution) {
        page_piece(line, SIDE, width - SIDE, "%s", plan->scale[weighing->scale].name);
        return;
    }
    show_percent(percent, page->document->input->recipe->alkali.solution_share[kind], 1);
    page_edit(page_piece(line, SIDE, 6, "%s %%", percent), strengths[kind], 0, 0);
    page_piece(line, SIDE + 7, width - SIDE - 7, "lye");
}

/* What the alkali is taken to hold, and where that is from. */
static void purity(struct page *page, enum alkali kind, int width)
{
    static const enum cell_kind cells[ALKALIS] = {CELL_PURITY_NAOH, CELL_PURITY_KOH};
    const struct ranged *used = &page->document->plan->purity[kind];
    struct line *line = page_line(page, REGION_LYE);
    char nominal[SHOW_BYTES], lo[SHOW_BYTES], hi[SHOW_BYTES];

    show_percent(nominal, used->nominal, 1);
    show_percent(lo, used->lo, 1);
    show_percent(hi, used->hi, 1);
    label(line, "purity");
    page_piece(line, LABEL_WIDTH, MASS_WIDTH, "%s", nominal)->right = true;
    page_edit(&line->piece[line->pieces - 1], cells[kind], 0, 0);
    page_piece(line, LABEL_WIDTH + MASS_WIDTH + 1, 2, "%%");
    page_piece(line, SIDE, width - SIDE, "%s to %s", lo, hi);
}

static void water(struct page *page, int width)
{
    const struct plan_water *planned = &page->document->plan->water;
    const struct recipe_water *asked = &page->document->input->recipe->water;
    struct line *line = page_line(page, REGION_LYE);
    char strength[SHOW_BYTES], ratio[SHOW_BYTES], of_oils[SHOW_BYTES];

    label(line, "water");
    put_mass(page, line, &planned->water);
    show_number(ratio, planned->ratio, 2);
    page_piece(line, SIDE, width - SIDE, "%s to 1", ratio);
    if (asked->by == WATER_RATIO)
        page_edit(&line->piece[line->pieces - 1], CELL_WATER, 0, 0);
    line = page_line(page, REGION_LYE);
    label(line, "strength");
    show_percent(strength, planned->strength, 1);
    page_piece(line, LABEL_WIDTH, MASS_WIDTH, "%s", strength)->right = true;
    if (asked->by == WATER_STRENGTH)
        page_edit(&line->piece[line->pieces - 1], CELL_WATER, 0, 0);
    page_piece(line, LABEL_WIDTH + MASS_WIDTH + 1, 2, "%%");
    show_percent(of_oils, planned->of_oils, 1);
    page_piece(line, SIDE, width - SIDE, "%s %% of oils", of_oils);
    if (asked->by == WATER_OF_OILS)
        page_edit(&line->piece[line->pieces - 1], CELL_WATER, 0, 0);
}

static void liquid(struct page *page, int index, int width)
{
    const struct weighing *weighing = &page->document->plan->liquid[index].liquid;
    struct line *line = page_line(page, REGION_LYE);
    char share[SHOW_BYTES];
    struct piece *piece;

    line->part = CHANGE_LIQUID;
    line->index = index;
    line->removable = true;
    piece = page_name(page, line, 0, LABEL_WIDTH, (struct part_ref){PART_LIQUID, (int16_t)index, 0});
    page_pick(piece, ACT_PICK, CHANGE_LIQUID, index, 0);
    put_mass(page, line, weighing);
    show_percent(share, page->document->input->recipe->water.liquid[index].share_of_water, 1);
    page_edit(page_piece(line, SIDE, 6, "%s %%", share), CELL_LIQUID_SHARE, index, 0);
    page_piece(line, SIDE + 8, width - SIDE - 8, "water");
}

static void heat(struct page *page, int width)
{
    const struct plan_heat *planned = &page->document->plan->heat;
    struct line *line = page_line(page, REGION_LYE);
    char reached[SHOW_BYTES], start[SHOW_BYTES];

    show_temperature(start, page->document->input->recipe->water.temp_c, page->settings);
    page_piece(line, 0, 10, "water at");
    page_edit(page_piece(line, 9, 6, "%s", start), CELL_WATER_TEMP, 0, 0);
    if (!planned->has)
        return;
    show_temperature(reached, planned->up_to_c, page->settings);
    page_piece(line, 16, width - 16, "lye to about %s", reached);
}

static uint16_t margin_style(const struct page *page)
{
    const char *word = page->document->margin_word;

    return strcmp(word, "WIDE") == 0 ? STYLE_GOOD : strcmp(word, "TIGHT") == 0 ? STYLE_CAUTION : STYLE_STOP;
}

static void interval(struct page *page, const char *name, const struct interval *interval)
{
    struct line *line = page_line(page, REGION_LYE);
    char lo[SHOW_BYTES], hi[SHOW_BYTES];

    show_percent(lo, interval->lo, 1);
    show_percent(hi, interval->hi, 1);
    label(line, name);
    page_piece(line, LABEL_WIDTH + 1, 24, "%s to %s %%", lo, hi);
}

/* "mostly from Olive oil's published range". */
static void cause(struct page *page, int width)
{
    const struct margin *margin = &page->document->plan->margin;
    static const char *const why[] = {[CAUSE_NONE] = "",
                                      [CAUSE_SAP] = "mostly range of",
                                      [CAUSE_PURITY] = "mostly purity of",
                                      [CAUSE_SCALE] = "mostly weighing of"};
    struct line *line;
    int used;

    if (margin->mostly_from == CAUSE_NONE)
        return;
    line = page_line(page, REGION_LYE);
    used = (int)strlen(why[margin->mostly_from]);
    page_piece(line, 0, used, "%s", why[margin->mostly_from]);
    page_name(page, line, used + 1, width - used - 1, margin->mostly);
}

static void superfat(struct page *page, int width)
{
    const struct plan *plan = page->document->plan;
    struct line *line = page_line(page, REGION_LYE);
    char asked[SHOW_BYTES], rounded[SHOW_BYTES];

    label(line, "superfat");
    show_percent(asked, page->document->input->recipe->superfat, 1);
    page_piece(line, LABEL_WIDTH, MASS_WIDTH, "%s", asked)->right = true;
    page_edit(&line->piece[line->pieces - 1], CELL_SUPERFAT, 0, 0);
    show_percent(rounded, plan->margin.nominal, 2);
    page_piece(line, LABEL_WIDTH + MASS_WIDTH + 1, 2, "%%");
    page_piece(line, SIDE, width - SIDE, "%s", page->document->margin_word)->style = margin_style(page);
    page_line(page, REGION_LYE)->kind = LINE_BAND;
    line = page_line(page, REGION_LYE);
    label(line, "weighed");
    page_piece(line, LABEL_WIDTH + 1, 24, "%s %% as rounded", rounded);
    interval(page, "likely", &plan->margin.likely);
    interval(page, "at worst", &plan->margin.worst);
    cause(page, width);
}

static void purpose(struct page *page)
{
    static const char *const names[PURPOSES] = {"skin", "shaving", "cleaning", "liquid"};
    struct line *line = page_line(page, REGION_LYE);
    struct piece *piece;
    char potassium[SHOW_BYTES];

    page_piece(line, 0, LABEL_WIDTH, "Lye")->style = STYLE_TITLE;
    piece = page_piece(line, LABEL_WIDTH + 1, 9, "%s", names[page->document->input->recipe->purpose]);
    piece->act = ACT_CYCLE;
    piece->cycle = CYCLE_PURPOSE;
    show_percent(potassium, page->document->input->recipe->alkali.potassium_share, 0);
    page_edit(page_piece(line, SIDE, 5, "%s %%", potassium), CELL_POTASSIUM, 0, 0);
    page_piece(line, SIDE + 6, 8, "KOH");
}

void page_lye(struct page *page, int width)
{
    const struct recipe *recipe = page->document->input->recipe;
    double potassium = recipe->alkali.potassium_share;

    purpose(page);
    if (recipe->oils == 0) {
        page_piece(page_line(page, REGION_LYE), 0, width, "follows from the oils");
        return;
    }
    for (int kind = 0; kind < ALKALIS; kind++)
        if (kind == ALKALI_KOH ? potassium > 0 : potassium < 1)
            alkali(page, (enum alkali)kind, width);
    water(page, width);
    for (int i = 0; i < recipe->water.liquids; i++)
        liquid(page, i, width);
    superfat(page, width);
    heat(page, width);
    for (int kind = 0; kind < ALKALIS; kind++)
        if (kind == ALKALI_KOH ? potassium > 0 : potassium < 1)
            purity(page, (enum alkali)kind, width);
    page_pick(page_piece(page_line(page, REGION_LYE), 0, 8, "+ liquid"), ACT_ADD, CHANGE_LIQUID, recipe->water.liquids,
              0);
}
