/* mini.c - see the header. */
#define _GNU_SOURCE
#define NCURSES_WIDECHAR 1
#include "bench/mini.h"

#include <curses.h>
#include <locale.h>
#include <poll.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { LINES_MOST = 256, LINE_BYTES = 1024 };

static char text[LINES_MOST][LINE_BYTES];

static void paint(int marked)
{
    erase();
    for (int row = 0; row < LINES && row < LINES_MOST; row++) {
        attrset(row == marked ? A_REVERSE : A_NORMAL);
        mvaddstr(row, 0, text[row]);
    }
    refresh();
}

static bool read_lines(const char *name)
{
    FILE *file = fopen(name, "r");
    int n = 0;

    if (!file)
        return false;
    while (n < LINES_MOST && fgets(text[n], LINE_BYTES, file)) {
        text[n][strcspn(text[n], "\n")] = '\0';
        n++;
    }
    return fclose(file) == 0 && n > 0;
}

int mini_run(const char *file)
{
    struct pollfd input = {.fd = STDIN_FILENO, .events = POLLIN};
    int marked = 2, c = 0;

    setlocale(LC_CTYPE, "");
    if (!read_lines(file) || !initscr())
        return 1;
    cbreak();
    noecho();
    keypad(stdscr, TRUE);
    nodelay(stdscr, TRUE);
    curs_set(0);
    while (c != 'q') {
        paint(marked);
        ppoll(&input, 1, NULL, NULL);
        while ((c = getch()) != ERR && c != 'q')
            marked += c == KEY_DOWN ? 1 : c == KEY_UP ? -1 : 0;
    }
    endwin();
    return 0;
}
