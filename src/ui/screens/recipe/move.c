/* move.c - where the cursor can go. */
#include <stdlib.h>

#include "ui/screens/recipe/state.h"

static int first_choosable(const struct line *line, int col)
{
    int best = -1, distance = 0;

    for (int i = 0; i < line->pieces; i++) {
        const struct piece *piece = &line->piece[i];
        int off = abs(piece->col - col);

        if (piece->act != ACT_NONE && (best < 0 || off < distance)) {
            best = i;
            distance = off;
        }
    }
    return best;
}

static int column(struct recipe_screen *screen)
{
    const struct piece *piece = state_piece(screen);

    return piece ? piece->col : 0;
}

/* The next line of that region in that direction that has something to choose, near the column; false if none. */
static bool to_line(struct recipe_screen *screen, enum region region, int from, int step, int col)
{
    for (int i = from; i >= 0 && i < screen->page.lines[region]; i += step) {
        int piece = first_choosable(&screen->page.line[region][i], col);

        if (piece >= 0) {
            screen->spot = (struct spot){region, i, piece};
            return true;
        }
    }
    return false;
}

static void vertically(struct recipe_screen *screen, int step)
{
    enum region region = screen->spot.region;
    int col = column(screen);

    if (to_line(screen, region, screen->spot.line + step, step, col))
        return;
    if (step > 0 && region != REGION_PORTIONS)
        to_line(screen, REGION_PORTIONS, 0, 1, col + (region == REGION_LYE ? screen->width[REGION_OILS] + 1 : 0));
    else if (step < 0 && region == REGION_PORTIONS) {
        bool right = col > screen->width[REGION_OILS];
        enum region above = right ? REGION_LYE : REGION_OILS;

        to_line(screen, above, screen->page.lines[above] - 1, -1, right ? col - screen->width[REGION_OILS] - 1 : col);
    }
}

static bool along(struct recipe_screen *screen, int step)
{
    const struct line *line = state_line(screen);

    for (int i = screen->spot.piece + step; line && i >= 0 && i < line->pieces; i += step)
        if (line->piece[i].act != ACT_NONE) {
            screen->spot.piece = i;
            return true;
        }
    return false;
}

static void sideways(struct recipe_screen *screen, int step)
{
    int row = screen->spot.line - screen->scrolled[screen->spot.region];

    if (along(screen, step))
        return;
    if (step > 0 && screen->spot.region == REGION_OILS) {
        if (!to_line(screen, REGION_LYE, row + screen->scrolled[REGION_LYE], 1, 0))
            to_line(screen, REGION_LYE, 0, 1, 0);
    } else if (step < 0 && screen->spot.region == REGION_LYE) {
        if (!to_line(screen, REGION_OILS, row + screen->scrolled[REGION_OILS], 1, screen->width[REGION_OILS]))
            to_line(screen, REGION_OILS, screen->page.lines[REGION_OILS] - 1, -1, screen->width[REGION_OILS]);
    }
}

static void to_region(struct recipe_screen *screen, int step)
{
    int region = ((int)screen->spot.region + step + REGIONS) % REGIONS;

    to_line(screen, (enum region)region, screen->scrolled[region], 1, 0);
}

static void page_step(struct recipe_screen *screen, int step)
{
    for (int i = 0; i < screen->rows[screen->spot.region] - 1; i++)
        if (!to_line(screen, screen->spot.region, screen->spot.line + step, step, column(screen)))
            return;
}

bool move_key(struct recipe_screen *screen, const struct key *key)
{
    /* A table of functions would need a step with each; these few read better in a row. */
    if (key->code == KEY_ARROW_UP || key->code == KEY_WHEEL_UP)
        vertically(screen, -1);
    else if (key->code == KEY_ARROW_DOWN || key->code == KEY_WHEEL_DOWN)
        vertically(screen, 1);
    else if (key->code == KEY_ARROW_LEFT)
        sideways(screen, -1);
    else if (key->code == KEY_ARROW_RIGHT)
        sideways(screen, 1);
    else if (key->code == KEY_TAB)
        to_region(screen, 1);
    else if (key->code == KEY_BACKTAB)
        to_region(screen, -1);
    else if (key->code == KEY_PAGE_UP)
        page_step(screen, -1);
    else if (key->code == KEY_PAGE_DOWN)
        page_step(screen, 1);
    else if (key->code == KEY_TO_START)
        to_line(screen, screen->spot.region, 0, 1, 0);
    else if (key->code == KEY_TO_END)
        to_line(screen, screen->spot.region, screen->page.lines[screen->spot.region] - 1, -1, 0);
    else
        return false;
    return true;
}

static bool inside(const struct piece *piece, int col)
{
    return piece->act != ACT_NONE && col >= piece->col && col < piece->col + piece->width;
}

bool move_to(struct recipe_screen *screen, int row, int col)
{
    static const enum region above[] = {REGION_OILS, REGION_LYE};
    bool upper = row < screen->rows[REGION_OILS];
    enum region region = upper ? above[col > screen->width[REGION_OILS]] : REGION_PORTIONS;
    int line = row + screen->scrolled[region] - (upper ? 0 : screen->portions_row);
    int at = col - (region == REGION_LYE ? screen->width[REGION_OILS] + 1 : 1);

    if (line < 0 || line >= screen->page.lines[region])
        return false;
    for (int i = 0; i < screen->page.line[region][line].pieces; i++)
        if (inside(&screen->page.line[region][line].piece[i], at)) {
            screen->spot = (struct spot){region, line, i};
            return true;
        }
    return false;
}
