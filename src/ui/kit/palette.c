/* palette.c - styles as attributes, and as colours where the terminal has them. */
#define _XOPEN_SOURCE    700
#define NCURSES_WIDECHAR 1
#include "ui/kit/palette.h"

#include <curses.h>
#include <limits.h>

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

struct shade {
    int red, green, blue;
};

/* What the colours of a terminal usually look like: the eight of ANSI, then the cube and the greys of 256. */
static struct shade shade_of(int colour)
{
    static const int steps[] = {0, 95, 135, 175, 215, 255};
    int cube = colour - CUBE, grey = 8 + 10 * (colour - GREYS);

    if (colour < CUBE)
        return (struct shade){colour & 1 ? 205 : 0, colour & 2 ? 205 : 0, colour & 4 ? 205 : 0};
    if (colour < GREYS)
        return (struct shade){steps[cube / 36], steps[cube / 6 % 6], steps[cube % 6]};
    return (struct shade){grey, grey, grey};
}

static int nearest(uint16_t style)
{
    struct shade wanted = {((style >> 8) & 0xf) * 17, ((style >> 4) & 0xf) * 17, (style & 0xf) * 17};
    bool many = palette.colours >= 256;
    int best = 0, least = INT_MAX;

    /* The first sixteen of 256 are the maker's own theme. */
    for (int colour = many ? CUBE : 0; colour < (many ? 256 : 8); colour++) {
        struct shade shade = shade_of(colour);
        int red = shade.red - wanted.red, green = shade.green - wanted.green, blue = shade.blue - wanted.blue;
        int distance = red * red + green * green + blue * blue;

        if (distance < least) {
            least = distance;
            best = colour;
        }
    }
    return best;
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
    if (style & (STYLE_SWATCH | STYLE_FILL)) {
        if (palette.colours > 0)
            *pair = swatch_pair(style);
        if (*pair != 0 && style & STYLE_FILL)
            *attributes = A_REVERSE; /* so that both kinds share one pair a colour */
        return;
    }
    if (style >= STYLE_COUNT)
        return;
    *attributes = styles[style].attributes;
    if (palette.colours > 0 && styles[style].colour >= 0)
        *pair = (short)(PAIR_STYLE + style);
}
