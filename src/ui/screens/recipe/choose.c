/* choose.c - naming an ingredient by the picker, which shows what it would change here; and values that go round. */
#include <stdlib.h>
#include <string.h>

#include "base/number.h"
#include "base/text.h"
#include "ui/kit/picker.h"
#include "ui/screens/recipe/state.h"
#include "ui/screens/show.h"
#include "work/look.h"
#include "work/catalogue.h"

enum { SWATCH_WIDTH = 6 };

struct choice_of {
    struct recipe_screen *screen;
    struct catalogue catalogue;
    enum piece_act act;
    enum change_part part;
    bool colourant;
    int index, sub;
};

static enum fact_kind kind_of(enum change_part part, bool colourant)
{
    static const enum fact_kind kinds[CHANGE_PARTS] = {[CHANGE_OIL] = FACT_OIL,
                                                       [CHANGE_LIQUID] = FACT_LIQUID,
                                                       [CHANGE_ADDITIVE] = FACT_ADDITIVE,
                                                       [CHANGE_FRAGRANCE] = FACT_FRAGRANCE};

    return colourant ? FACT_COLOURANT : kinds[part];
}

/* What is archived stays in recipes that have it, but is not offered for others. */
static struct shelf_rows offered(const struct shelf *shelf)
{
    struct shelf_rows rows = resolve_rows(shelf);

    rows.oils = shelf->offered.oils;
    rows.additives = shelf->offered.additives;
    rows.liquids = shelf->offered.liquids;
    rows.colourants = shelf->offered.colourants;
    rows.fragrances = shelf->offered.fragrances;
    return rows;
}

/* The first oil is all of them; a later one begins at a tenth, and the others make room in their ratio. */
static int insert_oil(const struct recipe *recipe, const struct plan *plan, int index, const char *key,
                      struct change changes[])
{
    double share = recipe->oils == 0 ? 1 : 0.1;
    int n = 0;

    for (int i = 0; i < recipe->oils && recipe->oils_by == OILS_BY_SHARE; i++) {
        change_begin(recipe, CHANGE_OIL, i, &changes[n]);
        changes[n++].after.oil.amount = recipe->oil[i].amount * (1 - share);
    }
    memset(&changes[n], 0, sizeof changes[n]);
    changes[n].part = CHANGE_OIL;
    changes[n].kind = CHANGE_INSERT;
    changes[n].index = index;
    changes[n].after.oil.id = change_free_id(recipe, CHANGE_OIL);
    changes[n].after.oil.amount = recipe->oils_by == OILS_BY_SHARE ? share
                                  : plan->oils_exact_g > 0         ? plan->oils_exact_g / 9
                                                                   : 100;
    text_copy(changes[n].after.oil.name, LW_NAME_BYTES, key);
    return n + 1;
}

/* Doses that a new element begins with: common practice, and shown to be changed. */
static void begin_element(const struct recipe *recipe, enum change_part part, const char *key,
                          union change_element *element)
{
    memset(element, 0, sizeof *element);
    element->oil.id = change_free_id(recipe, part); /* every element of these lists begins with its id */
    if (part == CHANGE_LIQUID) {
        text_copy(element->liquid.name, LW_NAME_BYTES, key);
        element->liquid.share_of_water = 0.5;
    } else if (part == CHANGE_ADDITIVE) {
        const struct additive_fact *fact = facts_additive(key);

        text_copy(element->additive.name, LW_NAME_BYTES, key);
        element->additive.by = ADDITIVE_OF_OILS;
        element->additive.value = fact && fact->usual_lo > 0 ? fact->usual_lo : 0.01;
    } else {
        const struct fragrance_fact *fact = facts_fragrance(key);

        text_copy(element->fragrance.name, LW_NAME_BYTES, key);
        element->fragrance.by = FRAGRANCE_OF_OILS;
        element->fragrance.value = fact && fact->usual_max > 0 && fact->usual_max < 0.03 ? fact->usual_max : 0.03;
    }
}

static void begin_colourant(const struct recipe_portion *portion, const char *key, struct recipe_colourant *colourant)
{
    const struct colourant_fact *fact = facts_colourant(key);
    uint32_t id = 0;

    for (int i = 0; i < portion->colourants; i++)
        id = portion->colourant[i].id > id ? portion->colourant[i].id : id;
    memset(colourant, 0, sizeof *colourant);
    colourant->id = id + 1;
    text_copy(colourant->name, LW_NAME_BYTES, key);
    colourant->by = COLOUR_PER_KG_OILS;
    colourant->value = fact ? (fact->dose_lo + fact->dose_hi) / 2 : 3;
}

static char *name_in(enum change_part part, union change_element *element)
{
    switch (part) {
    case CHANGE_OIL:
        return element->oil.name;
    case CHANGE_LIQUID:
        return element->liquid.name;
    case CHANGE_ADDITIVE:
        return element->additive.name;
    case CHANGE_FRAGRANCE:
        return element->fragrance.name;
    case CHANGE_HEAD:
    case CHANGE_NOTE:
    case CHANGE_PORTION:
    case CHANGE_SCALE:
    case CHANGE_PARTS:
        break;
    }
    return element->note;
}

static int colourant_changes(const struct choice_of *choice, const char *key, struct change changes[])
{
    struct recipe_portion *portion = &changes[0].after.portion;

    change_begin(editor_recipe(choice->screen->editor), CHANGE_PORTION, choice->index, &changes[0]);
    if (choice->act == ACT_PICK)
        text_copy(portion->colourant[choice->sub].name, LW_NAME_BYTES, key);
    else if (portion->colourants < PORTION_COLOURANTS)
        begin_colourant(&changes[0].before.portion, key, &portion->colourant[portion->colourants++]);
    else
        return 0;
    return 1;
}

/* What taking this key would change. */
static int changes_for(const struct choice_of *choice, const char *key, struct change changes[])
{
    const struct recipe *recipe = editor_recipe(choice->screen->editor);

    if (choice->colourant)
        return colourant_changes(choice, key, changes);
    if (choice->act == ACT_PICK) {
        change_begin(recipe, choice->part, choice->index, &changes[0]);
        text_copy(name_in(choice->part, &changes[0].after), LW_NAME_BYTES, key);
        if (choice->part == CHANGE_OIL)
            memset(&changes[0].after.oil.sap, 0, sizeof changes[0].after.oil.sap);
        return 1;
    }
    if (choice->part == CHANGE_OIL)
        return insert_oil(recipe, editor_document(choice->screen->editor)->plan, choice->index, key, changes);
    memset(&changes[0], 0, sizeof changes[0]);
    changes[0].part = choice->part;
    changes[0].kind = CHANGE_INSERT;
    changes[0].index = choice->index;
    begin_element(recipe, choice->part, key, &changes[0].after);
    return 1;
}

static size_t find(void *context, const char *filter, int index[], size_t most)
{
    return catalogue_find(&((struct choice_of *)context)->catalogue, filter, index, most);
}

static void row(void *context, int index, char *name, size_t name_size, char *remark, size_t remark_size)
{
    const struct catalogue_entry *entry = &((struct choice_of *)context)->catalogue.entry[index];

    text_copy(name, name_size, entry->name);
    text_copy(remark, remark_size, entry->own ? "own" : entry->key);
}

static void compare(const struct canvas *pane, int at, const char *what, const char *before, const char *after)
{
    canvas_print(pane, at, 0, STYLE_PLAIN, "%-12s %9s -> %s", what, before, after);
}

static void compare_percent(const struct canvas *pane, int at, const char *what, double before, double after)
{
    char from[SHOW_BYTES], to[SHOW_BYTES];

    show_percent(from, before, 1);
    show_percent(to, after, 1);
    text_add(to, sizeof to, " %%");
    compare(pane, at, what, from, to);
}

static double alkali_g(const struct plan *plan)
{
    return plan->alkali[ALKALI_NAOH].alkali.exact_g + plan->alkali[ALKALI_KOH].alkali.exact_g;
}

static void paint_swatches(const struct canvas *pane, int row, const struct plan_colour *colour)
{
    bool shifts = colour->fresh_rgb != colour->cured_rgb;

    if (!colour->known)
        return;
    canvas_fill(pane, row, 0, SWATCH_WIDTH, style_fill(colour->fresh_rgb), " ");
    if (shifts)
        canvas_fill(pane, row, SWATCH_WIDTH + 1, SWATCH_WIDTH, style_fill(colour->cured_rgb), " ");
}

/* How the portion would look with the colourant under the cursor, which the document shown has in it. */
static void about_colourant(const struct choice_of *choice, const struct canvas *pane)
{
    const struct plan_document *document = editor_document(choice->screen->editor);
    const struct recipe_portion *asked = &document->input->recipe->portion[choice->index];
    int sub = choice->act == ACT_PICK ? choice->sub : asked->colourants - 1, row = 2;
    const struct colourant_fact *fact = document->input->facts->colourant[choice->index][sub];
    char words[PIECE_BYTES], media[SHOW_BYTES], from[NUMBER_BYTES], to[NUMBER_BYTES];

    look_of_portion(document->input, document->plan, choice->index, words, sizeof words);
    canvas_print(pane, 0, 0, STYLE_TITLE, "%s would look about so", asked->name);
    paint_swatches(pane, 1, &document->plan->portion[choice->index].colour);
    row += canvas_wrap(pane, row, pane->rows - row, STYLE_PLAIN, words);
    text_copy(media, sizeof media, fact->dispersion);
    for (char *bar = strchr(media, '|'); bar; bar = strchr(bar, '|'))
        *bar = '/';
    number_write_short(from, fact->dose_lo, 2);
    number_write_short(to, fact->dose_hi, 2);
    if (fact->dose_hi > 0)
        canvas_print(pane, row++, 0, STYLE_PLAIN, "usual %s to %s g/kg of oils, in %s", from, to, media);
    canvas_wrap(pane, row, pane->rows - row, STYLE_PLAIN, fact->behaviour_note);
}

/* What adding or changing to the one under the cursor would do here. */
static void about(void *context, int index, const struct canvas *pane)
{
    struct choice_of *choice = context;
    struct editor *editor = choice->screen->editor;
    struct change changes[EDITOR_CHANGES];
    const struct plan *now = editor_document(editor)->plan, *then;
    char from[SHOW_BYTES], to[SHOW_BYTES];
    struct lw_error error = {""};
    int n = changes_for(choice, choice->catalogue.entry[index].key, changes);

    if (n == 0 || editor_preview(editor, changes, n, &error) != LW_OK) {
        canvas_wrap(pane, 0, pane->rows, STYLE_PLAIN, n == 0 ? "No more colourants fit in this portion." : error.text);
        return;
    }
    if (choice->colourant) {
        about_colourant(choice, pane);
        editor_preview_end(editor);
        return;
    }
    then = editor_document(editor)->plan;
    canvas_text(pane, 0, 0, STYLE_TITLE, "It would change");
    show_number(from, alkali_g(now), 2);
    show_number(to, alkali_g(then), 2);
    compare(pane, 1, "alkali, g", from, to);
    compare_percent(pane, 2, "likely low", now->margin.likely.lo, then->margin.likely.lo);
    show_number(from, now->acids.iodine_value, 1);
    show_number(to, then->acids.iodine_value, 1);
    compare(pane, 3, "iodine value", from, to);
    compare_percent(pane, 4, "saturated", now->acids.saturated, then->acids.saturated);
    show_number(from, now->findings, 0);
    show_number(to, then->findings, 0);
    compare(pane, 5, "findings", from, to);
    editor_preview_end(editor);
}

static void taken(void *context, int index)
{
    struct choice_of *choice = context;
    struct change changes[EDITOR_CHANGES];
    int n = changes_for(choice, choice->catalogue.entry[index].key, changes);

    if (n == 0)
        desk_say(choice->screen->top.desk, STYLE_PLAIN, "A portion has at most %d colourants.", PORTION_COLOURANTS);
    else if (state_apply(choice->screen, changes, n)) {
        if (choice->act == ACT_ADD)
            state_go(choice->screen, choice->part, choice->index, 0);
        state_say_look(choice->screen);
    }
}

/* What was typed becomes an oil of its own, known by its saponification value alone, which the maker types next. */
static void made(void *context, const char *name)
{
    struct choice_of *choice = context;
    struct change changes[EDITOR_CHANGES];
    int n = changes_for(choice, name, changes), last = n - 1;

    changes[last].after.oil.sap = (struct ranged){.given = true, .nominal = 190};
    if (facts_oil(name)) {
        desk_say(choice->screen->top.desk, STYLE_PLAIN, "%s is known already; find it in the list.", name);
        return;
    }
    if (state_apply(choice->screen, changes, n))
        desk_say(choice->screen->top.desk, STYLE_CAUTION,
                 "%s has a stand-in saponification value of 190: set the supplier's with s before you weigh.", name);
}

static void open_picker(struct recipe_screen *screen, const struct piece *piece)
{
    static const struct picker_source source = {
        .find = find, .row = row, .about = about, .taken = taken, .closed = free};
    static const struct picker_source source_of_oils = {.find = find,
                                                        .row = row,
                                                        .about = about,
                                                        .taken = taken,
                                                        .made = made,
                                                        .closed = free,
                                                        .made_text = "make a new oil of it"};
    static const char *const titles[] = {[FACT_OIL] = "Oils",
                                         [FACT_ADDITIVE] = "Additives",
                                         [FACT_LIQUID] = "Liquids",
                                         [FACT_COLOURANT] = "Colourants",
                                         [FACT_FRAGRANCE] = "Fragrances"};
    struct choice_of *choice = calloc(1, sizeof *choice);
    struct shelf_rows rows = offered(workshop_shelf(screen->top.workshop));
    enum fact_kind kind = kind_of(piece->part, piece->colourant);

    if (!choice) {
        desk_say(screen->top.desk, STYLE_STOP, "There is no memory left for the list.");
        return;
    }
    *choice = (struct choice_of){.screen = screen,
                                 .act = piece->act,
                                 .part = piece->part,
                                 .colourant = piece->colourant,
                                 .index = piece->cell.index,
                                 .sub = piece->cell.sub};
    catalogue_open(&choice->catalogue, kind, &rows);
    picker_open(screen->top.desk, titles[kind], kind == FACT_OIL ? &source_of_oils : &source, choice);
}

/* A new portion takes the rest if nothing does yet, else a tenth. */
static void add_portion(struct recipe_screen *screen)
{
    const struct recipe *recipe = editor_recipe(screen->editor);
    bool rest = false;
    struct change change;

    for (int i = 0; i < recipe->portions; i++)
        rest = rest || recipe->portion[i].demand == DEMAND_REST;
    memset(&change, 0, sizeof change);
    change.part = CHANGE_PORTION;
    change.kind = CHANGE_INSERT;
    change.index = recipe->portions;
    change.after.portion.id = change_free_id(recipe, CHANGE_PORTION);
    change.after.portion.demand = rest ? DEMAND_SHARE : DEMAND_REST;
    change.after.portion.amount = rest ? 0.1 : 0;
    if (recipe->portions == 0)
        text_copy(change.after.portion.name, LW_NAME_BYTES, "base");
    else
        text_add(change.after.portion.name, LW_NAME_BYTES, "portion %d", recipe->portions + 1);
    if (state_apply(screen, &change, 1))
        state_go(screen, CHANGE_PORTION, change.index, 0);
}

void choose_for_piece(struct recipe_screen *screen, const struct piece *piece)
{
    if (piece->part == CHANGE_PORTION && !piece->colourant)
        add_portion(screen);
    else
        open_picker(screen, piece);
}

void choose_add(struct recipe_screen *screen, enum change_part part)
{
    struct piece piece = {
        .act = ACT_ADD, .part = part, .cell = {CELL_NONE, change_count(editor_recipe(screen->editor), part), 0}};

    choose_for_piece(screen, &piece);
}

/* A purpose brings its usual superfat with it, unless the maker's own stands there. */
static void next_purpose(struct recipe_screen *screen, struct recipe_head *head)
{
    const struct purpose_defaults *defaults = workshop_settings(screen->top.workshop)->purpose;

    if (head->superfat == defaults[head->purpose].superfat)
        head->superfat = defaults[(head->purpose + 1) % PURPOSES].superfat;
    head->purpose = (enum purpose)((head->purpose + 1) % PURPOSES);
}

void choose_cycle(struct recipe_screen *screen, const struct piece *piece)
{
    bool purpose = piece->cycle == CYCLE_PURPOSE;
    struct change change;

    change_begin(editor_recipe(screen->editor), purpose ? CHANGE_HEAD : CHANGE_PORTION, purpose ? 0 : piece->cell.index,
                 &change);
    switch (piece->cycle) {
    case CYCLE_PURPOSE:
        next_purpose(screen, &change.after.head);
        break;
    case CYCLE_SCENTED:
        change.after.portion.scented = !change.after.portion.scented;
        break;
    case CYCLE_TECHNIQUE:
        change.after.portion.technique = (enum technique)((change.after.portion.technique + 1) % (TECHNIQUE_MOULD + 1));
        break;
    case CYCLE_PIECE_CLASS:
        change.after.portion.pieces.class = change.after.portion.pieces.class == PIECE_SIMPLE ? PIECE_FLOWER
                                                                                              : PIECE_SIMPLE;
        break;
    }
    state_apply(screen, &change, 1);
}
