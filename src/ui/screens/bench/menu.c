/* menu.c - the list of `.`: by number what has a letter or a sign, so that a number pad is enough. */
#include "ui/screens/bench/deeds.h"

static void taken(void *context, int index)
{
    struct bench_screen *screen = context;
    const struct deed *deed = index >= 0 ? screen->menu[index] : NULL;
    const char *reason = deed && deed->why_not ? deed->why_not(screen) : NULL;

    if (reason)
        desk_say(screen->top.desk, STYLE_PLAIN, "%s", reason);
    else if (deed)
        deed->run(screen, &(struct key){.code = KEY_NONE});
}

void bench_menu(void *state, const struct key *key)
{
    struct bench_screen *screen = state;
    struct numbered lines = {0};
    size_t n;
    const struct deed *deed = deeds(&n);
    unsigned place = deeds_place(screen);

    (void)key;
    for (size_t i = 0; i < n && lines.count < NUMBERED_LINES; i++)
        if (deed[i].menu && deed[i].steps >> place & 1) {
            screen->menu[lines.count] = &deed[i];
            numbered_add(&lines, "%s", deed[i].help);
        }
    numbered_open(screen->top.desk, "What else", "", &lines, taken, screen);
}
