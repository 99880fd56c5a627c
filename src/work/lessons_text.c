/* lessons_text.c - lessons as lines of a name and values parted by tabs, for the record of a batch.
 *
 * Reals stand as the 16 hexadecimal digits of their bits (IEEE 754 binary64), so that the plan that is found again is the very
 * one that the batch began with.
 */
#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "work/lessons.h"

/* ---- writing */

static void write_real(struct buffer *out, double value)
{
    uint64_t bits;

    memcpy(&bits, &value, sizeof bits);
    buffer_add(out, "\t%016" PRIx64, bits);
}

static void write_int(struct buffer *out, int value)
{
    buffer_add(out, "\t%d", value);
}

static void write_belief(struct buffer *out, const char *name, const struct belief *belief)
{
    buffer_add(out, "%s", name);
    for (int i = 0; i < BELIEF_TERMS; i++)
        write_real(out, belief->mean[i]);
    for (int i = 0; i < BELIEF_TERMS; i++)
        for (int k = 0; k < BELIEF_TERMS; k++)
            write_real(out, belief->covariance[i][k]);
    write_real(out, belief->shape);
    write_real(out, belief->scale);
    buffer_add(out, "\n");
}

static void write_value(struct buffer *out, const char *name, const struct learned_value *value)
{
    if (value->batches == 0)
        return;
    buffer_add(out, "%s", name);
    write_int(out, value->batches);
    write_real(out, value->mean);
    write_real(out, value->spread);
    buffer_add(out, "\n");
}

static void write_pieces(struct buffer *out, const struct lesson_pieces *lesson)
{
    const struct learned_pieces *learned = &lesson->learned;
    const int ints[] = {(int)lesson->class, lesson->first_time, learned->weighed, learned->within_degrees,
                        learned->counted,   learned->good,      learned->rejects};
    const double reals[] = {learned->mass_g, learned->between_g, learned->within_g, learned->reject_a,
                            learned->reject_b};

    buffer_add(out, "learned_pieces\t%s\t%s", lesson->kind, lesson->part);
    for (size_t i = 0; i < sizeof ints / sizeof *ints; i++)
        write_int(out, ints[i]);
    for (size_t i = 0; i < sizeof reals / sizeof *reals; i++)
        write_real(out, reals[i]);
    buffer_add(out, "\n");
}

/* A part of one of the recipe's kinds of piece. */
static bool used_by(const struct recipe *recipe, const struct lesson_pieces *lesson)
{
    for (int p = 0; p < recipe->portions; p++)
        if (recipe->portion[p].has_pieces && text_same(recipe->portion[p].pieces.kind, lesson->kind) &&
            text_same(recipe->portion[p].name, lesson->part))
            return true;
    return false;
}

void lessons_freeze(const struct lessons *lessons, const struct recipe *recipe, struct buffer *out)
{
    if (lessons->pace_batches > 0) {
        buffer_add(out, "learned_pace");
        write_int(out, lessons->pace_batches);
        write_real(out, lessons->pace.from_t);
        buffer_add(out, "\n");
        write_belief(out, "learned_from", &lessons->pace.from);
        write_belief(out, "learned_ratio", &lessons->pace.ratio);
    }
    for (int i = 0; i < lessons->pieces; i++)
        if (used_by(recipe, &lessons->piece[i]))
            write_pieces(out, &lessons->piece[i]);
    write_value(out, "learned_jug", &lessons->jug_residue_g);
    write_value(out, "learned_bag", &lessons->bag_residue_g);
    write_value(out, "learned_air", &lessons->air);
    write_value(out, "learned_loss", &lessons->cure_loss);
    write_value(out, "learned_rate", &lessons->cure_rate);
}

/* ---- reading */

/* What is left of a line; good until something is not as it was written. */
struct line_reader {
    const char *at;
    bool good;
};

/* The next value: after a tab, up to the next tab or the end of the line. */
static size_t next_value(struct line_reader *reader, const char **value)
{
    size_t n = 0;

    *value = reader->at;
    if (*reader->at == '\t') {
        *value = reader->at + 1;
        n = strcspn(*value, "\t\n");
        reader->at = *value + n;
    } else {
        reader->good = false;
    }
    return n;
}

static double read_real(struct line_reader *reader)
{
    const char *value;
    size_t n = next_value(reader, &value);
    uint64_t bits = 0;
    double real;

    for (size_t i = 0; i < n && reader->good; i++) {
        const char *digits = "0123456789abcdef", *digit = strchr(digits, value[i]);

        reader->good = digit != NULL && n == 16;
        bits = bits << 4 | (reader->good ? (uint64_t)(digit - digits) : 0);
    }
    reader->good = reader->good && n == 16;
    memcpy(&real, &bits, sizeof real);
    return real;
}

static int read_int(struct line_reader *reader)
{
    const char *value;
    size_t n = next_value(reader, &value);
    int number = 0;

    for (size_t i = 0; i < n && reader->good; i++) {
        reader->good = value[i] >= '0' && value[i] <= '9' && n < 9;
        number = number * 10 + (value[i] - '0');
    }
    reader->good = reader->good && n > 0;
    return number;
}

static void read_name(struct line_reader *reader, char *out, size_t size)
{
    const char *value;
    size_t n = next_value(reader, &value);

    out[0] = '\0';
    reader->good = reader->good && text_add(out, size, "%.*s", (int)n, value);
}

static void read_belief(struct line_reader *reader, struct belief *belief)
{
    for (int i = 0; i < BELIEF_TERMS; i++)
        belief->mean[i] = read_real(reader);
    for (int i = 0; i < BELIEF_TERMS; i++)
        for (int k = 0; k < BELIEF_TERMS; k++)
            belief->covariance[i][k] = read_real(reader);
    belief->shape = read_real(reader);
    belief->scale = read_real(reader);
}

static void read_pace(struct line_reader *reader, struct lessons *lessons)
{
    lessons->pace_batches = read_int(reader);
    lessons->pace.from_t = read_real(reader);
}

static void read_from(struct line_reader *reader, struct lessons *lessons)
{
    read_belief(reader, &lessons->pace.from);
}

static void read_ratio(struct line_reader *reader, struct lessons *lessons)
{
    read_belief(reader, &lessons->pace.ratio);
}

static void read_value(struct line_reader *reader, struct learned_value *value)
{
    value->batches = read_int(reader);
    value->mean = read_real(reader);
    value->spread = read_real(reader);
}

static void read_jug(struct line_reader *reader, struct lessons *lessons)
{
    read_value(reader, &lessons->jug_residue_g);
}

static void read_bag(struct line_reader *reader, struct lessons *lessons)
{
    read_value(reader, &lessons->bag_residue_g);
}

static void read_air(struct line_reader *reader, struct lessons *lessons)
{
    read_value(reader, &lessons->air);
}

static void read_loss(struct line_reader *reader, struct lessons *lessons)
{
    read_value(reader, &lessons->cure_loss);
}

static void read_rate(struct line_reader *reader, struct lessons *lessons)
{
    read_value(reader, &lessons->cure_rate);
}

static void read_pieces(struct line_reader *reader, struct lessons *lessons)
{
    struct lesson_pieces lesson = {.class = PIECE_SIMPLE};
    struct learned_pieces *learned = &lesson.learned;

    read_name(reader, lesson.kind, sizeof lesson.kind);
    read_name(reader, lesson.part, sizeof lesson.part);
    lesson.class = read_int(reader) == PIECE_FLOWER ? PIECE_FLOWER : PIECE_SIMPLE;
    lesson.first_time = read_int(reader) != 0;
    learned->weighed = read_int(reader);
    learned->within_degrees = read_int(reader);
    learned->counted = read_int(reader);
    learned->good = read_int(reader);
    learned->rejects = read_int(reader);
    learned->mass_g = read_real(reader);
    learned->between_g = read_real(reader);
    learned->within_g = read_real(reader);
    learned->reject_a = read_real(reader);
    learned->reject_b = read_real(reader);
    reader->good = reader->good && lessons->pieces < LESSON_PIECES;
    if (reader->good)
        lessons->piece[lessons->pieces++] = lesson;
}

static const struct lesson_word {
    const char *name;
    void (*read)(struct line_reader *reader, struct lessons *lessons);
} words[] = {
    {"learned_pace", read_pace},     {"learned_from", read_from}, {"learned_ratio", read_ratio},
    {"learned_pieces", read_pieces}, {"learned_jug", read_jug},   {"learned_bag", read_bag},
    {"learned_air", read_air},       {"learned_loss", read_loss}, {"learned_rate", read_rate},
};

/* Lines of other names are others' business. */
static bool read_line(const char *line, struct lessons *lessons)
{
    size_t name = strcspn(line, "\t\n");

    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (strlen(words[i].name) == name && strncmp(words[i].name, line, name) == 0) {
            struct line_reader reader = {line + name, true};

            words[i].read(&reader, lessons);
            return reader.good && (*reader.at == '\n' || *reader.at == '\0');
        }
    return true;
}

enum lw_status lessons_thaw(const char *text, struct lessons *lessons, struct lw_error *error)
{
    memset(lessons, 0, sizeof *lessons);
    for (; *text; text += strcspn(text, "\n"), text += *text == '\n')
        if (!read_line(text, lessons))
            return lw_fail(error, LW_CORRUPT, "What a batch was taught cannot be read; restore a backup.");
    return LW_OK;
}
