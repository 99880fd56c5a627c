/* shell.c - the workbench on the desk. */
#include "ui/screens/shell.h"

#include "base/error.h"
#include "ui/kit/desk.h"
#include "ui/kit/loop.h"
#include "ui/kit/term.h"
#include "ui/screens/top.h"

enum { LEAST_ROWS = 24, LEAST_COLS = 80 };

static bool look_for_news(void *context)
{
    return store_changed_elsewhere(workshop_store(((struct top *)context)->workshop));
}

static void idle(void *context)
{
    struct top *top = context;
    struct lw_error error = {""};

    if (store_idle(workshop_store(top->workshop), &error) != LW_OK)
        desk_say(top->desk, STYLE_STOP, "%s", error.text);
}

enum lw_status shell_run(struct workshop *workshop, const struct shell_options *options, int *ended_by,
                         struct lw_error *error)
{
    struct top top = {.workshop = workshop, .demo = options->demo};
    struct desk_options desk_options = {.least_rows = LEAST_ROWS,
                                        .least_cols = LEAST_COLS,
                                        .idle = idle,
                                        .watched = look_for_news,
                                        .watch_fd = store_watch_fd(workshop_store(workshop)),
                                        .context = &top};
    enum lw_status status;

    top.desk = desk_new(&desk_options);
    if (!top.desk)
        return lw_fail(error, LW_FULL, "There is no memory left to open the workbench.");
    status = term_start(&(struct term_options){.colour = options->colour}, error);
    if (status == LW_OK) {
        today_open(&top);
        *ended_by = desk_run(top.desk);
        term_stop();
    }
    desk_free(top.desk);
    return status;
}
