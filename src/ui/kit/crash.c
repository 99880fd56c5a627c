/* crash.c - the handler does only what POSIX allows in one: write, tcsetattr, signal, raise. */
#define _XOPEN_SOURCE    700
#define NCURSES_WIDECHAR 1
#include "ui/kit/crash.h"

#include <curses.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

enum { RESTORE_BYTES = 256, STACK_BYTES = 64 * 1024 };

static struct {
    struct termios before;
    bool have;
    char restore[RESTORE_BYTES];
    size_t length;
    char *stack;
} crash;

static const int signals[] = {SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGABRT};

static void add(const char *text)
{
    size_t n;

    if (!text || text == (char *)-1)
        return;
    n = strlen(text);
    if (crash.length + n < RESTORE_BYTES) {
        memcpy(crash.restore + crash.length, text, n);
        crash.length += n;
    }
}

static void on_crash(int number)
{
    ssize_t ignored = write(STDOUT_FILENO, crash.restore, crash.length);

    (void)ignored;
    tcsetattr(STDIN_FILENO, TCSANOW, &crash.before);
    signal(number, SIG_DFL);
    raise(number);
}

void crash_remember(void)
{
    crash.have = tcgetattr(STDIN_FILENO, &crash.before) == 0;
}

void crash_guard(void)
{
    struct sigaction action = {.sa_handler = on_crash, .sa_flags = SA_ONSTACK | (int)SA_RESETHAND};

    crash.length = 0;
    if (tigetstr("kmous") && tigetstr("kmous") != (char *)-1)
        add("\033[?1006;1000l\033[?2004l");
    add(tigetstr("cnorm"));
    add(tigetstr("sgr0"));
    add(tigetstr("rmkx"));
    add(tigetstr("rmcup"));
    crash.stack = malloc(STACK_BYTES);
    if (!crash.have || !crash.stack)
        return;
    sigaltstack(&(stack_t){.ss_sp = crash.stack, .ss_size = STACK_BYTES}, NULL);
    sigemptyset(&action.sa_mask);
    for (size_t i = 0; i < sizeof signals / sizeof *signals; i++)
        sigaction(signals[i], &action, NULL);
}

void crash_unguard(void)
{
    for (size_t i = 0; i < sizeof signals / sizeof *signals; i++)
        signal(signals[i], SIG_DFL);
    sigaltstack(&(stack_t){.ss_flags = SS_DISABLE}, NULL);
    free(crash.stack);
    crash.stack = NULL;
}
