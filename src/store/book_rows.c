/* book_rows.c - members in the order of the columns in sql.c; words as the CHECKs of schema/003.sql have them. */
#include "store/book_rows.h"

#include "lyeway/book.h"

/* clang-format off */
#define COUNT(array) ((int)(sizeof(array) / sizeof(array)[0]))
#define WORDS(array) {COUNT(array), array}
#define MEMBERS(array) {array, COUNT(array)}
#define TEXT(type, name) {MEMBER_TEXT, offsetof(type, name), sizeof(((type *)0)->name), NULL}
#define REAL(type, name) {MEMBER_REAL, offsetof(type, name), 0, NULL}
#define INT(type, name) {MEMBER_INT, offsetof(type, name), 0, NULL}
#define INT64(type, name) {MEMBER_INT64, offsetof(type, name), 0, NULL}
#define BOOL(type, name) {MEMBER_BOOL, offsetof(type, name), 0, NULL}
#define WORD(type, name, words) {MEMBER_WORD, offsetof(type, name), 0, &(words)}

static const char *const outcome[BOOK_OUTCOMES] = {
    [BOOK_RUNNING] = "on the bench", [BOOK_MADE] = "made",         [BOOK_RELEASED] = "released",
    [BOOK_ON_HOLD] = "on hold", [BOOK_REJECTED] = "rejected", [BOOK_SET_ASIDE] = "set aside",
};
static const char *const technique[] = {"pour", "swirl", "layer", "pipe", "mould"};
static const char *const want[WANTS] = {"nothing", "weighing", "test", "outcome"};
static const char *const piece_class[] = {"simple", "flower"};

static const struct member_words outcomes = WORDS(outcome);
static const struct member_words techniques = WORDS(technique);
static const struct member_words wants = WORDS(want);
static const struct member_words piece_classes = WORDS(piece_class);

static const struct member row[] = {
    INT64(struct book_row, last_event),
    WORD(struct book_row, outcome, outcomes),
    BOOL(struct book_row, left_out),
    BOOL(struct book_row, until_least),
    WORD(struct book_row, technique, techniques),
    WORD(struct book_row, want, wants),
    INT64(struct book_row, want_s),
#define X(code, word, title, unit) REAL(struct book_row, figure[BOOK_##code]),
    BOOK_FIGURES(X)
#undef X
};

static const struct member pieces[] = {
    TEXT(struct book_pieces, kind),
    TEXT(struct book_pieces, part),
    WORD(struct book_pieces, class, piece_classes),
    BOOL(struct book_pieces, first_time),
    BOOL(struct book_pieces, counted),
    INT(struct book_pieces, good),
    INT(struct book_pieces, rejects),
    INT(struct book_pieces, made),
    REAL(struct book_pieces, each_g),
    REAL(struct book_pieces, within_squares),
    INT(struct book_pieces, within_degrees),
};

static const struct member line[] = {
    INT64(struct book_line, id),
    TEXT(struct book_line, number),
    TEXT(struct book_line, name),
    INT64(struct book_line, recipe_id),
    INT(struct book_line, revision),
    INT64(struct book_line, started_s),
    INT(struct book_line, offset_s),
    INT64(struct book_line, finished_s),
    WORD(struct book_line, outcome, outcomes),
    BOOL(struct book_line, left_out),
    BOOL(struct book_line, teaches),
    BOOL(struct book_line, until_least),
    WORD(struct book_line, technique, techniques),
    WORD(struct book_line, want, wants),
    INT64(struct book_line, want_s),
#define X(code, word, title, unit) REAL(struct book_line, figure[BOOK_##code]),
    BOOK_FIGURES(X)
#undef X
};

static const struct members row_members = MEMBERS(row);
static const struct members pieces_members = MEMBERS(pieces);
static const struct members line_members = MEMBERS(line);
/* clang-format on */

const struct members *book_row_members(void)
{
    return &row_members;
}

const struct members *book_pieces_members(void)
{
    return &pieces_members;
}

const struct members *book_line_members(void)
{
    return &line_members;
}
