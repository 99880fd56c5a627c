/* victim.c - see the header. */
#include "fault/victim.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <signal.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include <cmocka.h>

int victim_rounds(void)
{
    const char *torture = getenv("LYEWAY_TORTURE");
    long n = torture ? strtol(torture, NULL, 10) : VICTIM_ROUNDS;

    return n > 0 ? (int)n : VICTIM_ROUNDS;
}

bool victim_goes_on(int round, int done)
{
    return round < victim_rounds() || (done <= victim_rounds() && round < VICTIM_ROUNDS_MOST * victim_rounds());
}

void victim_wait(struct chance *chance, int least_ms, int most_ms)
{
    int ms = least_ms + chance_below(chance, most_ms - least_ms);

    nanosleep(&(struct timespec){.tv_sec = ms / 1000, .tv_nsec = (long)(ms % 1000) * 1000000}, NULL);
}

int victim_kill(struct chance *chance, void (*work)(void *context, int acknowledge), void *context, int last)
{
    int pipes[2], told, exit_status;
    pid_t child;

    assert_int_equal(pipe(pipes), 0);
    child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        close(pipes[0]);
        work(context, pipes[1]);
        _exit(99);
    }
    close(pipes[1]);
    victim_wait(chance, VICTIM_LEAST_MS, VICTIM_LEAST_MS + VICTIM_MORE_MS);
    assert_int_equal(kill(child, SIGKILL), 0);
    while (read(pipes[0], &told, sizeof told) == (ssize_t)sizeof told)
        last = told;
    close(pipes[0]);
    assert_int_equal(waitpid(child, &exit_status, 0), child);
    assert_true(WIFSIGNALED(exit_status)); /* it did not stop by itself */
    return last;
}

bool victim_tell(int acknowledge, int number)
{
    return write(acknowledge, &number, sizeof number) == (ssize_t)sizeof number;
}
