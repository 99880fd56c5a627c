/* driver.c - the pseudo-terminal, the emulator and the settling. */
#define _GNU_SOURCE
#include "terminal/driver.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <pty.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>
#include <vterm.h>

enum { LOG_BYTES = 1 << 22, SETTLE_MS = 5000, QUIET_MS = 50, FLUSH_MS = 4 };

struct driver {
    pid_t pid;
    int master, slave;
    VTerm *vterm;
    VTermScreen *screen;
    bool ended, blind;
    int status;
    double asked_us, answered_us; /* the start or the last keys; the last bytes */
    struct driver_state state;
    uint64_t sent;
    char *log; /* the last LOG_BYTES that were sent */
    size_t logged;
    unsigned long long due; /* bytes that the child must have read in all before it can have settled */
};

static double now_us(void)
{
    struct timespec now;

    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec * 1e6 + (double)now.tv_nsec / 1e3;
}

static int64_t now_ms(void)
{
    return (int64_t)(now_us() / 1000);
}

static void answer(const char *bytes, size_t n, void *user)
{
    struct driver *driver = user;
    ssize_t ignored = write(driver->master, bytes, n);

    (void)ignored;
}

static int on_property(VTermProp property, VTermValue *value, void *user)
{
    struct driver *driver = user;

    if (property == VTERM_PROP_ALTSCREEN)
        driver->state.alternate = value->boolean;
    if (property == VTERM_PROP_CURSORVISIBLE)
        driver->state.cursor_shown = value->boolean;
    return 1;
}

/* Mouse and paste modes come several in one sequence, which the emulator does not all report: they are read from the bytes. */
static void look_for_modes(struct driver *driver, const char *bytes, size_t n)
{
    for (size_t i = 0; i + 4 < n; i++) {
        bool on;
        size_t end = i;

        if (memcmp(bytes + i, "\033[?", 3) != 0)
            continue;
        while (end < n && bytes[end] != 'h' && bytes[end] != 'l' && end - i < 32)
            end++;
        if (end >= n)
            return;
        on = bytes[end] == 'h';
        if (memmem(bytes + i, end - i, "1000", 4))
            driver->state.mouse = on;
        if (memmem(bytes + i, end - i, "2004", 4))
            driver->state.paste = on;
    }
}

static void take(struct driver *driver, const char *bytes, size_t n)
{
    driver->sent += n;
    if (driver->blind)
        return;
    if (driver->logged + n <= LOG_BYTES) {
        memcpy(driver->log + driver->logged, bytes, n);
        driver->logged += n;
    }
    look_for_modes(driver, bytes, n);
    vterm_input_write(driver->vterm, bytes, n);
}

/* Reads what is there; true if there was something. */
static bool drain(struct driver *driver)
{
    char bytes[16384];
    bool any = false;
    ssize_t n;

    while ((n = read(driver->master, bytes, sizeof bytes)) > 0) {
        driver->answered_us = now_us();
        take(driver, bytes, (size_t)n);
        any = true;
    }
    vterm_screen_flush_damage(driver->screen);
    return any;
}

static bool reap(struct driver *driver)
{
    if (!driver->ended && waitpid(driver->pid, &driver->status, WNOHANG) == driver->pid)
        driver->ended = true;
    return driver->ended;
}

static bool read_proc(pid_t pid, const char *name, char *out, size_t size)
{
    char path[64];
    ssize_t n;
    int fd;

    snprintf(path, sizeof path, "/proc/%d/%s", (int)pid, name);
    fd = open(path, O_RDONLY | O_CLOEXEC);
    if (fd < 0)
        return false;
    n = read(fd, out, size - 1);
    close(fd);
    if (n <= 0)
        return false;
    out[n] = '\0';
    return true;
}

/* Bytes the child has read by any read call. What is written to the master reaches the slave's queue a moment later, so
 * just after a write the child still looks blocked with an empty queue; this count tells when it has taken the bytes.
 * (Its wake-ups would not do: reading the master wakes a poll on the slave too.) */
static unsigned long long bytes_read(pid_t pid)
{
    char text[512];
    unsigned long long count;

    return read_proc(pid, "io", text, sizeof text) && sscanf(text, "rchar: %llu", &count) == 1 ? count : 0;
}

/* 1: blocked for input without a near time-out; 0: busy; -1: this system does not tell. */
static int waits_for_input(pid_t pid)
{
    char text[256];
    long number;
    unsigned long arg[6];

    if (!read_proc(pid, "syscall", text, sizeof text))
        return -1;
    if (strncmp(text, "running", 7) == 0)
        return 0;
    if (sscanf(text, "%ld %lx %lx %lx %lx %lx %lx", &number, &arg[0], &arg[1], &arg[2], &arg[3], &arg[4], &arg[5]) != 7)
        return -1;
#ifdef __x86_64__
    if (number == 271) /* ppoll: its third argument is the time-out; the loop sets one only for a running timer */
        return 1;
    return 0;
#elif defined __aarch64__
    return number == 73;
#else
    return -1;
#endif
}

static void nap(int fd, int ms)
{
    struct pollfd polled = {.fd = fd, .events = POLLIN};

    poll(&polled, 1, ms);
}

static bool quiet(struct driver *driver)
{
    /* In this order: a program that was seen to wait before it took the bytes may be busy with them by now. */
    bool taken = bytes_read(driver->pid) >= driver->due;
    int queued = 0, state = waits_for_input(driver->pid);

    if (state < 0) {
        nap(driver->master, QUIET_MS);
        return !drain(driver);
    }
    if (state == 0 || !taken)
        return false;
    if (ioctl(driver->slave, FIONREAD, &queued) == 0 && queued > 0)
        return false;
    /* What the program wrote reaches the master a moment later, too. */
    nap(driver->master, FLUSH_MS);
    return !drain(driver);
}

bool driver_settle(struct driver *driver, int most_ms)
{
    int64_t end = now_ms() + most_ms;

    while (now_ms() < end) {
        drain(driver);
        if (reap(driver)) {
            drain(driver);
            return false;
        }
        if (quiet(driver))
            return true;
        nap(driver->master, 1);
    }
    return false;
}

static void child(const char *const argv[], const struct driver_options *options, int slave)
{
    static char term[64], locale[64];
    char *env[40];
    int count = 0;
    sigset_t none;

    snprintf(term, sizeof term, "TERM=%s", options->term ? options->term : "xterm-256color");
    snprintf(locale, sizeof locale, "LC_ALL=%s", options->locale ? options->locale : "C.UTF-8");
    env[count++] = term;
    env[count++] = locale;
    /* Of a name that comes twice the first one counts. */
    for (int i = 0; options->env && options->env[i] && count < 36; i++)
        env[count++] = (char *)options->env[i];
    env[count++] = "TZ=UTC0";
    env[count++] = "PATH=/usr/bin:/bin";
    env[count] = NULL;
    setsid();
    ioctl(slave, TIOCSCTTY, 0);
    dup2(slave, STDIN_FILENO);
    dup2(slave, STDOUT_FILENO);
    for (int i = 1; i < 32; i++)
        signal(i, SIG_DFL);
    sigemptyset(&none);
    sigprocmask(SIG_SETMASK, &none, NULL);
    execve(argv[0], (char *const *)argv, env);
    _exit(127);
}

static void start_emulator(struct driver *driver, const struct driver_options *options)
{
    static const VTermScreenCallbacks callbacks = {.settermprop = on_property};

    driver->vterm = vterm_new(options->rows, options->cols);
    vterm_set_utf8(driver->vterm, !options->locale || strstr(options->locale, "UTF-8"));
    vterm_output_set_callback(driver->vterm, answer, driver);
    driver->screen = vterm_obtain_screen(driver->vterm);
    vterm_screen_set_callbacks(driver->screen, &callbacks, driver);
    vterm_screen_enable_altscreen(driver->screen, 1);
    vterm_screen_reset(driver->screen, 1);
    driver->state.cursor_shown = true;
}

struct driver *driver_open(const char *const argv[], const struct driver_options *options)
{
    struct winsize size = {.ws_row = (unsigned short)options->rows, .ws_col = (unsigned short)options->cols};
    struct driver *driver = calloc(1, sizeof *driver);

    if (!driver || !(driver->log = malloc(LOG_BYTES)) ||
        openpty(&driver->master, &driver->slave, NULL, NULL, &size) != 0) {
        free(driver ? driver->log : NULL);
        free(driver);
        return NULL;
    }
    fcntl(driver->master, F_SETFD, FD_CLOEXEC);
    fcntl(driver->slave, F_SETFD, FD_CLOEXEC);
    start_emulator(driver, options);
    driver->blind = options->blind;
    driver->asked_us = now_us();
    driver->pid = fork();
    if (driver->pid == 0)
        child(argv, options, driver->slave);
    fcntl(driver->master, F_SETFL, O_NONBLOCK);
    return driver;
}

void driver_close(struct driver *driver)
{
    if (!driver)
        return;
    if (!reap(driver)) {
        kill(driver->pid, SIGHUP);
        if (!driver_ended(driver, 2000, NULL)) {
            kill(driver->pid, SIGKILL);
            waitpid(driver->pid, NULL, 0);
        }
    }
    vterm_free(driver->vterm);
    close(driver->master);
    close(driver->slave);
    free(driver->log);
    free(driver);
}

bool driver_ended(struct driver *driver, int most_ms, int *status)
{
    int64_t end = now_ms() + most_ms;

    while (!reap(driver) && now_ms() < end) {
        drain(driver);
        nap(driver->master, 2);
    }
    drain(driver);
    if (driver->ended && status)
        *status = driver->status;
    return driver->ended;
}

bool driver_bytes(struct driver *driver, const void *bytes, size_t n)
{
    const char *at = bytes;

    driver->due = bytes_read(driver->pid) + n;
    driver->asked_us = now_us();
    while (n > 0) {
        ssize_t written = write(driver->master, at, n);

        if (written > 0) {
            at += written;
            n -= (size_t)written;
        } else if (errno == EAGAIN) {
            drain(driver);
            nap(driver->master, 1);
        } else
            return false;
    }
    return driver_settle(driver, SETTLE_MS);
}

static const struct {
    const char *name, *bytes;
} named_keys[] = {
    {"Enter", "\r"},     {"Esc", "\033"},     {"Tab", "\t"},      {"S-Tab", "\033[Z"}, {"Up", "\033OA"},
    {"Down", "\033OB"},  {"Right", "\033OC"}, {"Left", "\033OD"}, {"Home", "\033OH"},  {"End", "\033OF"},
    {"PgUp", "\033[5~"}, {"PgDn", "\033[6~"}, {"Del", "\033[3~"}, {"Ins", "\033[2~"},  {"BS", "\177"},
    {"lt", "<"},         {"F1", "\033OP"},    {"F2", "\033OQ"},   {"F3", "\033OR"},    {"F4", "\033OS"},
    {"F5", "\033[15~"},  {"F10", "\033[21~"},
};

/* Bytes of one key name; false if there is none of that name. */
static bool key_bytes(const char *name, size_t length, char out[8])
{
    for (size_t i = 0; i < sizeof named_keys / sizeof *named_keys; i++)
        if (strlen(named_keys[i].name) == length && memcmp(named_keys[i].name, name, length) == 0) {
            strcpy(out, named_keys[i].bytes);
            return true;
        }
    if (length != 3 || name[1] != '-' || (name[0] != 'C' && name[0] != 'M'))
        return false;
    if (name[0] == 'C')
        snprintf(out, 8, "%c", name[2] & 0x1f);
    else
        snprintf(out, 8, "\033%c", name[2]);
    return true;
}

/* Esc goes out alone and is settled: with a letter behind it, it would be Alt. */
bool driver_keys(struct driver *driver, const char *keys)
{
    while (*keys) {
        char bytes[8] = {keys[0], '\0'};
        const char *close = *keys == '<' ? strchr(keys, '>') : NULL;
        size_t length = 1;

        if (close) {
            length = (size_t)(close - keys) + 1;
            if (!key_bytes(keys + 1, length - 2, bytes))
                return false;
        } else
            while ((keys[length] & 0xc0) == 0x80 && length < 7) {
                bytes[length] = keys[length];
                length++;
                bytes[length] = '\0';
            }
        keys += length;
        if (!driver_bytes(driver, bytes, strlen(bytes)))
            return false;
    }
    return true;
}

bool driver_click(struct driver *driver, int row, int col)
{
    char bytes[64];
    int n = snprintf(bytes, sizeof bytes, "\033[<0;%d;%dM\033[<0;%d;%dm", col + 1, row + 1, col + 1, row + 1);

    return driver_bytes(driver, bytes, (size_t)n);
}

struct driver_cell driver_cell(struct driver *driver, int row, int col)
{
    struct driver_cell out = {.width = 1};
    VTermScreenCell cell;
    size_t length = 0;

    if (!vterm_screen_get_cell(driver->screen, (VTermPos){.row = row, .col = col}, &cell))
        return out;
    if (cell.chars[0] == (uint32_t)-1) {
        out.width = 0;
        return out;
    }
    for (int i = 0; i < VTERM_MAX_CHARS_PER_CELL && cell.chars[i] && length + 5 < sizeof out.text; i++) {
        uint32_t c = cell.chars[i];

        if (c < 0x80)
            out.text[length++] = (char)c;
        else if (c < 0x800) {
            out.text[length++] = (char)(0xc0 | (c >> 6));
            out.text[length++] = (char)(0x80 | (c & 0x3f));
        } else if (c < 0x10000) {
            out.text[length++] = (char)(0xe0 | (c >> 12));
            out.text[length++] = (char)(0x80 | ((c >> 6) & 0x3f));
            out.text[length++] = (char)(0x80 | (c & 0x3f));
        } else {
            out.text[length++] = (char)(0xf0 | (c >> 18));
            out.text[length++] = (char)(0x80 | ((c >> 12) & 0x3f));
            out.text[length++] = (char)(0x80 | ((c >> 6) & 0x3f));
            out.text[length++] = (char)(0x80 | (c & 0x3f));
        }
    }
    if (length == 0)
        out.text[length++] = ' ';
    out.width = cell.width;
    out.bold = cell.attrs.bold;
    out.reverse = cell.attrs.reverse;
    out.underline = cell.attrs.underline != 0;
    out.coloured = !VTERM_COLOR_IS_DEFAULT_FG(&cell.fg);
    out.colour = out.coloured && VTERM_COLOR_IS_INDEXED(&cell.fg) ? cell.fg.indexed.idx : -1;
    return out;
}

void driver_row(struct driver *driver, int row, char *out, size_t size)
{
    int rows, cols;
    size_t length = 0;

    vterm_get_size(driver->vterm, &rows, &cols);
    for (int col = 0; col < cols; col++) {
        struct driver_cell cell = driver_cell(driver, row, col);
        size_t n = strlen(cell.text);

        if (length + n + 1 > size)
            break;
        memcpy(out + length, cell.text, n);
        length += n;
    }
    while (length > 0 && out[length - 1] == ' ')
        length--;
    out[length] = '\0';
}

static int columns_of(struct driver *driver, int row, size_t bytes)
{
    size_t length = 0;
    int col = 0;

    while (length < bytes) {
        struct driver_cell cell = driver_cell(driver, row, col);

        length += strlen(cell.text);
        col++;
    }
    return col;
}

bool driver_find(struct driver *driver, const char *text, int *row, int *col)
{
    char line[4096];
    int rows, cols;

    vterm_get_size(driver->vterm, &rows, &cols);
    for (int i = 0; i < rows; i++) {
        const char *hit;

        driver_row(driver, i, line, sizeof line);
        hit = strstr(line, text);
        if (!hit)
            continue;
        if (row)
            *row = i;
        if (col)
            *col = columns_of(driver, i, (size_t)(hit - line));
        return true;
    }
    return false;
}

bool driver_wait(struct driver *driver, const char *text, int most_ms)
{
    int64_t end = now_ms() + most_ms;

    do {
        drain(driver);
        if (driver_find(driver, text, NULL, NULL))
            return true;
        nap(driver->master, 5);
    } while (now_ms() < end);
    return false;
}

bool driver_wait_gone(struct driver *driver, const char *text, int most_ms)
{
    int64_t end = now_ms() + most_ms;

    do {
        drain(driver);
        if (!driver_find(driver, text, NULL, NULL))
            return true;
        nap(driver->master, 5);
    } while (now_ms() < end);
    return false;
}

void driver_print(struct driver *driver, FILE *out)
{
    char line[4096];
    int rows, cols;

    vterm_get_size(driver->vterm, &rows, &cols);
    for (int i = 0; i < rows; i++) {
        driver_row(driver, i, line, sizeof line);
        fprintf(out, "%s\n", line);
    }
}

void driver_resize(struct driver *driver, int rows, int cols)
{
    struct winsize size = {.ws_row = (unsigned short)rows, .ws_col = (unsigned short)cols};

    drain(driver);
    vterm_set_size(driver->vterm, rows, cols);
    ioctl(driver->master, TIOCSWINSZ, &size);
}

void driver_signal(struct driver *driver, int number)
{
    kill(driver->pid, number);
}

struct driver_state driver_state(struct driver *driver)
{
    struct termios termios;

    drain(driver);
    if (tcgetattr(driver->slave, &termios) == 0) {
        driver->state.canonical = (termios.c_lflag & ICANON) != 0;
        driver->state.echo = (termios.c_lflag & ECHO) != 0;
        driver->state.signals = (termios.c_lflag & ISIG) != 0;
    }
    return driver->state;
}

uint64_t driver_sent(struct driver *driver)
{
    drain(driver);
    return driver->sent;
}

bool driver_sent_raw(struct driver *driver, const char *sequence)
{
    return memmem(driver->log, driver->logged, sequence, strlen(sequence)) != NULL;
}

int driver_pid(struct driver *driver)
{
    return driver->pid;
}

double driver_latency_us(struct driver *driver)
{
    return driver->answered_us - driver->asked_us;
}
