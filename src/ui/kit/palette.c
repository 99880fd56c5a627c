/* palette.c - styles as attributes, and as colours where the terminal has them. */
#define _XOPEN_SOURCE    700
#define NCURSES_WIDECHAR 1
#include "ui/kit/palette.h"

#include <curses.h>

#include "ui/kit/surface.h"

/* Pair numbers: one for each style, then one for each colour that swatches use. */
enum { PAIR_STYLE = 1, PAIR_SWATCH = 32, CUBE = 16, GREYS = 232 };

static struct {
    int colours;
    bool started[256]; /* pair of that swatch colour is made */
} palette;

static const struct {
    attr_t attributes;
    short colour; /* of eight; -1: the terminal's own */
} styles[STYLE_COUNT] = {
    [STYLE_PLAIN] = {A_NORMAL, -1},
    [STYLE_STRONG] = {A_BOLD, -1},
    [STYLE_FAINT] = {A_DIM, -1},
    [STYLE_TITLE] = {A_BOLD, -1},
    [STYLE_CURSOR] = {A_REVERSE, -1},
    [STYLE_STOP] = {A_BOLD, COLOR_RED},
    [STYLE_CAUTION] = {A_BOLD, COLOR_YELLOW},
    [STYLE_REMARK] = {A_NORMAL, COLOR_CYAN},
    [STYLE_GOOD] = {A_NORMAL, COLOR_GREEN},
};

void palette_start(bool colour)
{
    palette.colours = 0;
    for (int i = 0; i < 256; i++)
        palette.started[i] = false;
    if (!colour || !has_colors() || start_color() == ERR || COLORS < 8)
        return;
    use_default_colors();
    palette.colours = COLORS > 256 ? 256 : COLORS;
    for (int i = 0; i < STYLE_COUNT; i++)
        if (styles[i].colour >= 0)
            init_pair((short)(PAIR_STYLE + i), styles[i].colour, -1);
}

int palette_colours(void)
{
    return palette.colours;
}

static int level(unsigned channel)
{
    /* The six steps of the usual 256-colour cube are 0, 95, 135, 175, 215, 255. */
    return channel < 48 ? 0 : channel < 115 ? 1 : (int)((channel - 35) / 40);
}

static int nearest(uint16_t style)
{
    unsigned red = ((style >> 8) & 0xfu) * 17, green = ((style >> 4) & 0xfu) * 17, blue = (style & 0xfu) * 17;
    unsigned most = red > green ? red : green, least = red < green ? red : green;

    most = most > blue ? most : blue;
    least = least < blue ? least : blue;
    if (palette.colours < 256)
        return (red > 100 ? 1 : 0) + (green > 100 ? 2 : 0) + (blue > 100 ? 4 : 0);
    if (most - least < 12 && most > 8 && most < 238)
        return GREYS + (int)((most - 8) / 10);
    return CUBE + 36 * level(red) + 6 * level(green) + level(blue);
}

static short swatch_pair(uint16_t style)
{
    int colour = nearest(style);

    if (PAIR_SWATCH + colour >= COLOR_PAIRS)
        return 0;
    if (!palette.started[colour]) {
        init_pair((short)(PAIR_SWATCH + colour), (short)colour, -1);
        palette.started[colour] = true;
    }
    return (short)(PAIR_SWATCH + colour);
}

void palette_style(uint16_t style, unsigned *attributes, short *pair)
{
    *attributes = A_NORMAL;
    *pair = 0;
    if (style & STYLE_SWATCH) {
        if (palette.colours > 0)
            *pair = swatch_pair(style);
        return;
    }
    if (style >= STYLE_COUNT)
        return;
    *attributes = styles[style].attributes;
    if (palette.colours > 0 && styles[style].colour >= 0)
        *pair = (short)(PAIR_STYLE + style);
}
