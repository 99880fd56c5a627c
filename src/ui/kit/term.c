/* term.c - curses, and what curses leaves out: crashes, paste, characters that the terminal measures otherwise. */
#define _XOPEN_SOURCE    700
#define NCURSES_WIDECHAR 1
#include "ui/kit/term.h"

#include <curses.h>
#include <langinfo.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <unistd.h>
#include <wchar.h>

#include "base/error.h"
#include "base/utf8.h"
#include "ui/kit/crash.h"
#include "ui/kit/palette.h"

enum { PASTE_BYTES = 64 * 1024, CODE_PASTE_START = KEY_MAX + 1, CODE_PASTE_END, ESCAPE_MS = 25 };

static struct {
    SCREEN *screen;
    struct surface shown; /* what the terminal has */
    bool utf8, whole;
    char paste[PASTE_BYTES];
    cchar_t *line; /* one row of cells on their way */
    int line_cols;
} term;

static void paste_mode(bool on)
{
    /* Only terminals that have a mouse report know this mode; a plain vt100 would show the letters. */
    const char *mouse = tigetstr("kmous");

    if (!mouse || mouse == (char *)-1)
        return;
    putp(on ? "\033[?2004h" : "\033[?2004l");
    fflush(stdout);
}

/* Until it has been left once, ncurses writes to the terminal after each move of the cursor; from then on one write takes a whole
 * refresh. Nothing is on the screen yet. */
static void leave_once(void)
{
    endwin();
    refresh();
}

/* What keyboards send whose terminal's description does not know it (a plain vt100 has no End): taken apart it would be an Esc and
 * letters, and do what nobody asked for. ECMA-48 and the DEC VT220 manual. */
static void know_keys(void)
{
    static const struct {
        const char *sent;
        int key;
    } known[] = {
        {"\033[A", KEY_UP},   {"\033[B", KEY_DOWN},   {"\033[C", KEY_RIGHT},  {"\033[D", KEY_LEFT}, {"\033OA", KEY_UP},
        {"\033OB", KEY_DOWN}, {"\033OC", KEY_RIGHT},  {"\033OD", KEY_LEFT},   {"\033[H", KEY_HOME}, {"\033[F", KEY_END},
        {"\033OH", KEY_HOME}, {"\033OF", KEY_END},    {"\033[1~", KEY_HOME},  {"\033[4~", KEY_END}, {"\033[2~", KEY_IC},
        {"\033[3~", KEY_DC},  {"\033[5~", KEY_PPAGE}, {"\033[6~", KEY_NPAGE}, {"\033[Z", KEY_BTAB},
    };

    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        if (key_defined(known[i].sent) == 0)
            define_key(known[i].sent, known[i].key);
}

static void take_over(void)
{
    cbreak();
    noecho();
    nonl();
    intrflush(stdscr, FALSE);
    keypad(stdscr, TRUE);
    nodelay(stdscr, TRUE);
    leaveok(stdscr, FALSE);
    mousemask(BUTTON1_PRESSED | BUTTON4_PRESSED | BUTTON5_PRESSED, NULL);
    mouseinterval(0);
    define_key("\033[200~", CODE_PASTE_START);
    define_key("\033[201~", CODE_PASTE_END);
    know_keys();
    paste_mode(true);
}

enum lw_status term_start(const struct term_options *options, struct lw_error *error)
{
    if (!isatty(STDIN_FILENO) || !isatty(STDOUT_FILENO))
        return lw_fail(error, LW_NOT_FOUND, "The workbench needs a terminal; use a command such as plan for pipes.");
    crash_remember();
    set_escdelay(ESCAPE_MS);
    term.screen = newterm(NULL, stdout, stdin);
    if (!term.screen)
        return lw_fail(error, LW_NOT_FOUND,
                       "The terminal type in TERM is not known here; set TERM, for example to xterm.");
    set_escdelay(ESCAPE_MS);
    term.utf8 = strcmp(nl_langinfo(CODESET), "UTF-8") == 0;
    term.whole = true;
    leave_once();
    take_over();
    palette_start(options->colour);
    crash_guard();
    return LW_OK;
}

void term_stop(void)
{
    if (!term.screen)
        return;
    paste_mode(false);
    endwin();
    delscreen(term.screen);
    crash_unguard();
    surface_done(&term.shown);
    free(term.line);
    term.line = NULL;
    term.line_cols = 0;
    term.screen = NULL;
}

struct term_facts term_facts(void)
{
    return (struct term_facts){.rows = LINES, .cols = COLS, .utf8 = term.utf8, .colours = palette_colours()};
}

void term_resized(void)
{
    struct winsize size;

    if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_row > 0 && size.ws_col > 0)
        resizeterm(size.ws_row, size.ws_col);
    term.whole = true;
}

void term_suspend(void)
{
    paste_mode(false);
    endwin();
    raise(SIGSTOP);
    take_over();
    refresh();
    term_resized();
}

void term_bell(void)
{
    beep();
    flash(); /* gloves, a blender, a radio: it is to be seen too */
}

/* Box and block characters in ASCII, for terminals without UTF-8. Anything else that is not ASCII is a '?'. */
static wchar_t in_ascii(uint32_t point)
{
    static const struct {
        uint32_t from, to;
        wchar_t as;
    } table[] = {
        {0x2500, 0x2501, L'-'}, {0x2502, 0x2503, L'|'}, {0x250C, 0x254B, L'+'}, {0x2550, 0x2550, L'='},
        {0x2551, 0x2551, L'|'}, {0x2552, 0x256C, L'+'}, {0x2580, 0x2590, L'#'}, {0x2591, 0x2591, L'.'},
        {0x2592, 0x2593, L'%'}, {0x25A0, 0x25A0, L'#'}, {0x25B2, 0x25B2, L'^'}, {0x25B6, 0x25B6, L'>'},
        {0x25CF, 0x25CF, L'o'}, {0x00B7, 0x00B7, L'.'}, {0x2026, 0x2026, L'~'}, {0x2013, 0x2014, L'-'},
        {0x2190, 0x2190, L'<'}, {0x2192, 0x2192, L'>'}, {0x2800, 0x28FF, L'*'},
    };

    if (point < 0x80)
        return (wchar_t)point;
    for (size_t i = 0; i < sizeof table / sizeof *table; i++)
        if (point >= table[i].from && point <= table[i].to)
            return table[i].as;
    return L'?';
}

static void to_curses(const struct glyph *cell, cchar_t *out)
{
    wchar_t text[CCHARW_MAX + 1] = {0};
    attr_t attributes;
    short pair;
    size_t left = strlen(cell->text), count = 0;
    const char *at = cell->text;

    palette_style(cell->style, &attributes, &pair);
    while (left > 0 && count < CCHARW_MAX) {
        uint32_t point;
        size_t bytes = utf8_next(at, left, &point);

        text[count++] = term.utf8 ? (wchar_t)point : in_ascii(point);
        at += bytes;
        left -= bytes;
        if (!term.utf8)
            break;
    }
    /* Where the C library measures a character otherwise than we do, every later column would shift. */
    if (term.utf8 && count > 0 && wcwidth(text[0]) != cell->width) {
        text[0] = L'?';
        text[1] = L'\0';
    }
    setcchar(out, text, attributes, pair, NULL);
}

static bool same(const struct glyph *a, const struct glyph *b)
{
    return a->style == b->style && a->width == b->width && memcmp(a->text, b->text, GLYPH_BYTES) == 0;
}

/* Columns first..last of a row differ. Both are moved to whole characters. */
static bool changed_span(const struct glyph *now, const struct glyph *before, int cols, int *first, int *last)
{
    int from = 0, to = cols - 1;

    while (from < cols && same(&now[from], &before[from]))
        from++;
    if (from == cols)
        return false;
    while (same(&now[to], &before[to]))
        to--;
    while (from > 0 && (now[from].width == 0 || before[from].width == 0))
        from--;
    while (to + 1 < cols && (now[to + 1].width == 0 || before[to + 1].width == 0))
        to++;
    *first = from;
    *last = to;
    return true;
}

static void send_span(int row, const struct glyph *cell, int first, int last)
{
    int count = 0;
    bool blank_half = false;

    for (int col = first; col <= last; col++) {
        if (cell[col].width == 0 && !blank_half)
            continue;
        to_curses(cell[col].width ? &cell[col] : &(struct glyph){.text = " ", .width = 1, .style = cell[col].style},
                  &term.line[count++]);
        blank_half = cell[col].width == 2 && !term.utf8;
    }
    mvadd_wchnstr(row, first, term.line, count);
}

static bool ready_for(const struct surface *surface)
{
    if (term.line_cols < surface->cols) {
        cchar_t *line = realloc(term.line, (size_t)surface->cols * sizeof *line);

        if (!line)
            return false;
        term.line = line;
        term.line_cols = surface->cols;
    }
    if (term.shown.rows != surface->rows || term.shown.cols != surface->cols || !term.shown.cell) {
        if (!surface_resize(&term.shown, surface->rows, surface->cols))
            return false;
        term.whole = true;
    }
    return true;
}

static void place_cursor(const struct surface *surface)
{
    curs_set(surface->cursor_row >= 0 ? 1 : 0);
    if (surface->cursor_row >= 0)
        move(surface->cursor_row, surface->cursor_col);
}

void term_show(const struct surface *surface)
{
    int first, last;

    if (!term.screen || !ready_for(surface))
        return;
    if (term.whole) {
        clear();
        surface_clear(&term.shown);
        term.whole = false;
    }
    for (int row = 0; row < surface->rows; row++) {
        const struct glyph *now = &surface->cell[(size_t)row * (size_t)surface->cols];
        struct glyph *before = &term.shown.cell[(size_t)row * (size_t)surface->cols];

        if (!changed_span(now, before, surface->cols, &first, &last))
            continue;
        send_span(row, now, first, last);
        memcpy(&before[first], &now[first], (size_t)(last - first + 1) * sizeof *now);
    }
    place_cursor(surface);
    refresh();
}

static bool from_mouse(struct key *key)
{
    MEVENT event;

    if (getmouse(&event) != OK)
        return false;
    *key = (struct key){.row = event.y, .col = event.x, .code = KEY_CLICK};
    if (event.bstate & BUTTON4_PRESSED)
        key->code = KEY_WHEEL_UP;
    else if (event.bstate & BUTTON5_PRESSED)
        key->code = KEY_WHEEL_DOWN;
    return true;
}

/* Reads up to the end mark, or as far as there is input: a paste that never ends must not hang the program. */
static void read_paste(struct key *key)
{
    size_t length = 0;
    wint_t c;
    int kind, waits = 0;

    timeout(100);
    while ((kind = get_wch(&c)) != ERR || waits++ < 5) {
        char bytes[4];
        size_t n;

        if (kind == ERR)
            continue;
        if (kind == KEY_CODE_YES && (int)c == CODE_PASTE_END)
            break;
        if (kind == KEY_CODE_YES)
            continue;
        n = utf8_put(c == L'\r' ? '\n' : (uint32_t)c, bytes);
        if (length + n < PASTE_BYTES) {
            memcpy(term.paste + length, bytes, n);
            length += n;
        }
    }
    nodelay(stdscr, TRUE);
    term.paste[length] = '\0';
    *key = (struct key){.code = KEY_PASTE, .paste = term.paste};
}

static enum key_code from_curses(wint_t c)
{
    static const struct {
        int curses;
        enum key_code code;
    } table[] = {
        {KEY_ENTER, KEY_RETURN},  {KEY_BACKSPACE, KEY_ERASE}, {KEY_DC, KEY_DEL},          {KEY_IC, KEY_INS},
        {KEY_UP, KEY_ARROW_UP},   {KEY_DOWN, KEY_ARROW_DOWN}, {KEY_LEFT, KEY_ARROW_LEFT}, {KEY_RIGHT, KEY_ARROW_RIGHT},
        {KEY_HOME, KEY_TO_START}, {KEY_END, KEY_TO_END},      {KEY_PPAGE, KEY_PAGE_UP},   {KEY_NPAGE, KEY_PAGE_DOWN},
        {KEY_BTAB, KEY_BACKTAB},
    };

    for (size_t i = 0; i < sizeof table / sizeof *table; i++)
        if ((wint_t)table[i].curses == c)
            return table[i].code;
    return KEY_NONE;
}

static struct key from_function(wint_t c)
{
    if (c >= (wint_t)KEY_F(1) && c <= (wint_t)KEY_F(12))
        return (struct key){.code = KEY_FUNCTION, .point = (uint32_t)(c - (wint_t)KEY_F0)};
    return (struct key){.code = from_curses(c)};
}

static struct key from_character(wint_t c)
{
    switch (c) {
    case L'\r':
    case L'\n':
        return (struct key){.code = KEY_RETURN};
    case L'\t':
        return (struct key){.code = KEY_TAB};
    case 0x7f:
    case 0x08:
        return (struct key){.code = KEY_ERASE};
    default:
        break;
    }
    if (c < 0x20)
        return (struct key){.code = KEY_CONTROL, .point = (uint32_t)(c + 'a' - 1)};
    return (struct key){.code = KEY_CHARACTER, .point = (uint32_t)c};
}

/* Esc alone, or Alt and a character that came in the same breath. */
static void after_escape(struct key *key)
{
    wint_t c;
    int kind = get_wch(&c);

    if (kind == ERR) {
        *key = (struct key){.code = KEY_ESCAPE};
        return;
    }
    if (kind == OK && c != 0x1b) {
        *key = from_character(c);
        key->alt = true;
        return;
    }
    if (kind == OK)
        unget_wch((wchar_t)c);
    else
        ungetch((int)c);
    *key = (struct key){.code = KEY_ESCAPE};
}

bool term_key(struct key *key)
{
    wint_t c;
    int kind;

    for (;;) {
        kind = get_wch(&c);
        if (kind == ERR)
            return false;
        if (kind == OK && c == 0x1b) {
            after_escape(key);
            return true;
        }
        if (kind == OK) {
            *key = from_character(c);
            return true;
        }
        if (c == KEY_MOUSE) {
            if (from_mouse(key))
                return true;
            continue;
        }
        if ((int)c == CODE_PASTE_START) {
            read_paste(key);
            return true;
        }
        *key = from_function(c);
        if (key->code != KEY_NONE)
            return true;
    }
}
