#include "tsv.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void say_at(const char *path, int line, const char *format, va_list values)
{
    fprintf(stderr, "%s:%d: ", path, line);
    vfprintf(stderr, format, values);
    fputc('\n', stderr);
}

__attribute__((format(printf, 3, 4))) _Noreturn static void stop(const char *path, int line, const char *format, ...)
{
    va_list values;

    va_start(values, format);
    say_at(path, line, format, values);
    va_end(values);
    exit(EXIT_FAILURE);
}

void tsv_stop(const struct tsv_row *row, const char *format, ...)
{
    va_list values;

    va_start(values, format);
    say_at(row->table->path, row->line, format, values);
    va_end(values);
    exit(EXIT_FAILURE);
}

static void *allocate(size_t n, size_t size)
{
    void *memory = calloc(n ? n : 1, size);

    if (!memory) {
        fputs("out of memory\n", stderr);
        exit(EXIT_FAILURE);
    }
    return memory;
}

static char *path_of(const char *folder, const char *name)
{
    size_t size = strlen(folder) + strlen(name) + 2;
    char *path = allocate(size, 1);

    snprintf(path, size, "%s/%s", folder, name);
    return path;
}

/* The whole file, closed by NUL. */
static char *read_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    long size;

    if (!file || fseek(file, 0, SEEK_END) || (size = ftell(file)) < 0 || fseek(file, 0, SEEK_SET))
        stop(path, 1, "cannot be read");
    char *text = allocate((size_t)size + 1, 1);
    if (fread(text, 1, (size_t)size, file) != (size_t)size)
        stop(path, 1, "cannot be read");
    fclose(file);
    if (strlen(text) != (size_t)size)
        stop(path, 1, "holds a NUL byte");
    return text;
}

/* Cuts the next line off; NULL at the end. Every line must be closed by a newline. */
static char *next_line(char **rest, const char *path, int line)
{
    char *start = *rest, *end;

    if (!*start)
        return NULL;
    end = strchr(start, '\n');
    if (!end)
        stop(path, line, "the last line is not closed");
    *end = '\0';
    *rest = end + 1;
    for (const char *c = start; *c; c++)
        if ((unsigned char)*c < ' ' && *c != '\t')
            stop(path, line, "a control character stands in column %td of the line", c - start + 1);
    return start;
}

static size_t split(char *line, const char **cell, size_t most)
{
    size_t n = 0;

    for (char *c = line; c; n++) {
        char *tab = strchr(c, '\t');
        if (tab)
            *tab++ = '\0';
        if (n < most)
            cell[n] = c;
        c = tab;
    }
    return n;
}

static void check_cell(const char *path, int line, const char *column, const char *cell)
{
    size_t n = strlen(cell);

    if (n && (cell[0] == ' ' || cell[n - 1] == ' '))
        stop(path, line, "%s begins or ends with a space", column);
}

static void read_row(struct tsv *table, char *text, int line, struct tsv_row *row)
{
    const char **cell = allocate(table->columns, sizeof *cell);
    size_t n = split(text, cell, table->columns);

    if (n != table->columns)
        stop(table->path, line, "the row has %zu cells, the table %zu columns", n, table->columns);
    for (size_t i = 0; i < n; i++)
        check_cell(table->path, line, table->column[i], cell[i]);
    *row = (struct tsv_row){table, line, cell};
}

static void check_head(const struct tsv *table, char *text, int line)
{
    const char **cell = allocate(table->columns, sizeof *cell);
    size_t n = split(text, cell, table->columns);

    for (size_t i = 0; i < n && i < table->columns; i++)
        if (strcmp(cell[i], table->column[i]) != 0)
            stop(table->path, line, "column %zu is '%s', expected '%s'", i + 1, cell[i], table->column[i]);
    if (n != table->columns)
        stop(table->path, line, "the head has %zu columns, expected %zu", n, table->columns);
    free(cell);
}

static size_t count_lines(const char *text)
{
    size_t n = 0;

    for (const char *c = text; (c = strchr(c, '\n')); c++)
        n++;
    return n;
}

const struct tsv *tsv_read(const char *folder, const char *name, const char *const column[], size_t columns)
{
    struct tsv *table = allocate(1, sizeof *table);

    *table = (struct tsv){.path = path_of(folder, name), .column = column, .columns = columns};
    char *rest = read_file(table->path), *text;
    struct tsv_row *row = allocate(count_lines(rest), sizeof *row);
    int line = 1;
    while ((text = next_line(&rest, table->path, line)) && *text == '#')
        line++;
    if (!text)
        stop(table->path, line, "the head line is missing");
    check_head(table, text, line);
    while ((text = next_line(&rest, table->path, ++line)))
        read_row(table, text, line, &row[table->rows++]);
    table->row = row;
    return table;
}

const char *tsv_cell(const struct tsv_row *row, const char *column)
{
    for (size_t i = 0; i < row->table->columns; i++)
        if (strcmp(row->table->column[i], column) == 0)
            return row->cell[i];
    tsv_stop(row, "the table has no column '%s'", column);
}

const char *tsv_filled(const struct tsv_row *row, const char *column)
{
    const char *cell = tsv_cell(row, column);

    if (!*cell)
        tsv_stop(row, "%s is empty", column);
    return cell;
}

bool tsv_empty(const struct tsv_row *row, const char *column)
{
    return !*tsv_cell(row, column);
}

/* Length of the digits at the start of s. */
static size_t digits(const char *s)
{
    return strspn(s, "0123456789");
}

static bool is_decimal(const char *s)
{
    if (*s == '-')
        s++;
    size_t n = digits(s);
    if (n == 0 || (n > 1 && *s == '0'))
        return false;
    s += n;
    if (*s != '.')
        return !*s;
    n = digits(++s);
    return n > 0 && !s[n];
}

double tsv_decimal(const struct tsv_row *row, const char *text, double lo, double hi)
{
    if (!is_decimal(text))
        tsv_stop(row, "'%s' is not a number", text);
    double value = strtod(text, NULL);
    if (value < lo || value > hi)
        tsv_stop(row, "%s is not within %g to %g", text, lo, hi);
    return value;
}

double tsv_number(const struct tsv_row *row, const char *column, double lo, double hi)
{
    return tsv_decimal(row, tsv_filled(row, column), lo, hi);
}

size_t tsv_choice(const struct tsv_row *row, const char *column, const char *const word[], size_t n)
{
    const char *cell = tsv_filled(row, column);

    for (size_t i = 0; i < n; i++)
        if (strcmp(cell, word[i]) == 0)
            return i;
    tsv_stop(row, "%s cannot be '%s'", column, cell);
}

bool tsv_yes(const struct tsv_row *row, const char *column)
{
    static const char *const word[] = {"no", "yes"};

    return tsv_choice(row, column, word, 2) == 1;
}

const struct tsv_row *tsv_find(const struct tsv *table, const char *column, const char *text)
{
    for (size_t i = 0; i < table->rows; i++)
        if (strcmp(tsv_cell(&table->row[i], column), text) == 0)
            return &table->row[i];
    return NULL;
}

size_t tsv_refer(const struct tsv_row *row, const struct tsv *table, const char *key)
{
    const struct tsv_row *found = tsv_find(table, "key", key);

    if (!found)
        tsv_stop(row, "'%s' is no key of %s", key, table->path);
    return (size_t)(found - table->row);
}

void tsv_unique(const struct tsv *table, const char *column)
{
    for (size_t i = 0; i < table->rows; i++) {
        const struct tsv_row *first = tsv_find(table, column, tsv_filled(&table->row[i], column));
        if (first != &table->row[i])
            tsv_stop(&table->row[i], "%s '%s' is also in line %d", column, tsv_cell(first, column), first->line);
    }
}
