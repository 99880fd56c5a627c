/* ready.c - runs while building: brings exchange files into a new store, by the program's own import, so that the demo need not do
 * it at every start.
 *
 *   ready STORE FILE...
 *
 * The same files give the same store: the clock stands at the demo's day, and what is random elsewhere is a count here. */
#include <stdio.h>
#include <string.h>

#include "app/demo.h"
#include "app/files.h"
#include "base/error.h"
#include "work/plan_file.h"
#include "work/records.h"

enum { FILES_MOST = 8 };

static void count_up(void *context, uint8_t *bytes, size_t n)
{
    uint64_t *count = context;

    ++*count;
    memset(bytes, 0, n);
    for (size_t i = 0; i < n && i < sizeof *count; i++)
        bytes[n - 1 - i] = (uint8_t)(*count >> (8 * i));
}

static void stand_still(void *context, struct lw_now *now)
{
    (void)context;
    *now = (struct lw_now){.utc_s = DEMO_DAY_S};
}

static enum lw_status bring_in(struct workshop *workshop, int files, char *const name[], struct lw_error *error)
{
    struct buffer text[FILES_MOST];
    struct records_source source[FILES_MOST];
    struct records_count count;
    enum lw_status status = LW_OK;

    for (int i = 0; i < files; i++) {
        buffer_init(&text[i], PLAN_FILE_MOST_BYTES);
        if (status == LW_OK)
            status = files_read(name[i], &text[i], error);
        source[i] = (struct records_source){name[i], buffer_text(&text[i]), text[i].length};
    }
    if (status == LW_OK)
        status = records_import(workshop, source, (size_t)files, &count, error);
    for (int i = 0; i < files; i++)
        buffer_done(&text[i]);
    return status;
}

int main(int argc, char *argv[])
{
    uint64_t count = 0;
    struct workshop_options options = {
        .store = {.how = STORE_IMAGE, .random = count_up, .context = &count}, .path = "", .now = stand_still};
    struct workshop *workshop = NULL;
    struct lw_error error = {""};

    if (argc < 3 || argc - 2 > FILES_MOST) {
        fprintf(stderr, "usage: ready STORE FILE...\n");
        return 2;
    }

    enum lw_status status = workshop_open(&options, &workshop, &error);

    if (status == LW_OK)
        status = bring_in(workshop, argc - 2, argv + 2, &error);
    if (status == LW_OK)
        status = workshop_backup(workshop, argv[1], NULL, NULL, &error);
    workshop_close(workshop, NULL);
    if (status != LW_OK)
        fprintf(stderr, "ready: %s\n", error.text);
    return status == LW_OK ? 0 : 1;
}
