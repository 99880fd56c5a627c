/* program.c - fork and exec, with files for both outputs so that neither can block the other. */
#include "app/program.h"

#include <fcntl.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

enum { PATH_BYTES = 512, FILES_MOST = 64, NO_EXEC = 127 };

static char folder[PATH_BYTES];
static char paths[FILES_MOST][PATH_BYTES];
static int files;
static struct run last;

static void remove_folder(void)
{
    for (int i = 0; i < files; i++)
        unlink(paths[i]);
    rmdir(folder);
}

const char *test_folder(void)
{
    if (!folder[0]) {
        snprintf(folder, sizeof folder, "/tmp/lyeway-test-XXXXXX");
        assert_non_null(mkdtemp(folder));
        atexit(remove_folder);
    }
    return folder;
}

static const char *new_path(const char *name)
{
    for (int i = 0; i < files; i++)
        if (strcmp(paths[i] + strlen(test_folder()) + 1, name) == 0)
            return paths[i];
    assert_true(files < FILES_MOST);
    snprintf(paths[files], PATH_BYTES, "%.200s/%.200s", test_folder(), name);
    return paths[files++];
}

const char *file_with(const char *name, const char *text)
{
    const char *path = new_path(name);
    FILE *file = fopen(path, "wb");

    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, strlen(text), file), strlen(text));
    assert_int_equal(fclose(file), 0);
    return path;
}

static char *whole_file(const char *path, size_t *bytes)
{
    FILE *file = fopen(path, "rb");
    long size = 0;

    assert_non_null(file);
    assert_int_equal(fseek(file, 0, SEEK_END), 0);
    size = ftell(file);
    rewind(file);

    char *text = calloc(1, (size_t)size + 1);

    assert_non_null(text);
    *bytes = fread(text, 1, (size_t)size, file);
    fclose(file);
    return text;
}

static const char *program_path(void)
{
    static char path[PATH_BYTES];
    const char *given = getenv("LYEWAY"), *objects = getenv("LYEWAY_OBJ");

    if (given)
        snprintf(path, sizeof path, "%s", given);
    else
        snprintf(path, sizeof path, "%s/lyeway", objects ? objects : "build");
    return path;
}

/* In the child: never returns. */
static void become_program(const char *in, int out, const char *err, const char *const words[RUN_WORDS])
{
    char *argv[RUN_WORDS + 2] = {(char *)program_path()};

    for (int i = 0; i < RUN_WORDS && words[i]; i++)
        argv[i + 1] = (char *)words[i];
    if (dup2(open(in, O_RDONLY), 0) == 0 && dup2(out, 1) == 1 &&
        dup2(open(err, O_WRONLY | O_CREAT | O_TRUNC, 0600), 2) == 2)
        execv(argv[0], argv);
    _exit(NO_EXEC);
}

static void run(const char *input, int out, const char *const words[RUN_WORDS])
{
    const char *in_path = file_with("standard-input", input), *err_path = new_path("standard-error");
    int status = 0;
    size_t bytes = 0;
    pid_t child = fork();

    assert_true(child >= 0);
    if (child == 0)
        become_program(in_path, out, err_path, words);
    assert_int_equal(waitpid(child, &status, 0), child);
    free(last.out);
    free(last.err);
    last = (struct run){.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1};
    last.err = whole_file(err_path, &bytes);
    if (last.status == NO_EXEC)
        fail_msg("cannot run %s: build it first", program_path());
}

const struct run *run_with(const char *input, const char *const words[RUN_WORDS])
{
    const char *out_path = new_path("standard-output");
    int out = open(out_path, O_WRONLY | O_CREAT | O_TRUNC, 0600);

    assert_true(out >= 0);
    run(input, out, words);
    close(out);
    last.out = whole_file(out_path, &last.out_bytes);
    return &last;
}

const struct run *run_into(const char *output, const char *const words[RUN_WORDS])
{
    int ends[2] = {-1, -1};

    if (output)
        ends[1] = open(output, O_WRONLY);
    else if (pipe(ends) == 0)
        close(ends[0]);
    assert_true(ends[1] >= 0);
    run("", ends[1], words);
    close(ends[1]);
    last.out = calloc(1, 1);
    return &last;
}
