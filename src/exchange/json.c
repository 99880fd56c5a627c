#include "exchange/json.h"

#include <stdbool.h>
#include <string.h>

#include "base/error.h"
#include "base/number.h"
#include "exchange/gate.h"

/* Goes from number to number through text that has passed the gate: outside of texts only a number holds a digit or a
 * minus.
 */
struct numbers {
    const char *text;
    size_t n, at;
};

/* Past the text whose opening quote is at numbers->at. */
static void skip_text(struct numbers *numbers)
{
    for (numbers->at++; numbers->text[numbers->at] != '"'; numbers->at++) {
        if (numbers->text[numbers->at] == '\\')
            numbers->at++;
    }
    numbers->at++;
}

static bool begins_number(char c)
{
    return c == '-' || (c >= '0' && c <= '9');
}

/* Where the next number begins, and its length; 0 at the end of the text. */
static size_t next_number(struct numbers *numbers, size_t *start)
{
    while (numbers->at < numbers->n && !begins_number(numbers->text[numbers->at])) {
        if (numbers->text[numbers->at] == '"')
            skip_text(numbers);
        else
            numbers->at++;
    }
    *start = numbers->at;
    while (numbers->at < numbers->n &&
           (begins_number(numbers->text[numbers->at]) || numbers->text[numbers->at] == '+' ||
            numbers->text[numbers->at] == '.' || (numbers->text[numbers->at] | 32) == 'e'))
        numbers->at++;
    return numbers->at - *start;
}

/* The text with 0 for every number: the library reads numbers by the locale, and not at all where the decimal point is
 * more than one byte, so it is given none to read. NULL if memory runs out.
 */
static char *without_numbers(const char *text, size_t n)
{
    struct numbers numbers = {text, n, 0};
    char *copy = cJSON_malloc(n);
    size_t start, length;

    if (copy == NULL)
        return NULL;
    memcpy(copy, text, n);
    while ((length = next_number(&numbers, &start)) > 0) {
        memset(copy + start, ' ', length);
        copy[start] = '0';
    }
    return copy;
}

/* The tree and the text hold the numbers in the same order. Recursion is bounded by GATE_DEPTH. */
static void put_numbers(cJSON *node, struct numbers *numbers)
{
    for (; node != NULL; node = node->next) {
        if (cJSON_IsNumber(node)) {
            size_t start, length = next_number(numbers, &start);
            (void)number_read(numbers->text + start, length, &node->valuedouble); /* the gate has read it before */
        }
        if (node->child != NULL)
            put_numbers(node->child, numbers);
    }
}

enum lw_status json_read(const char *text, size_t n, const char *name, cJSON **root, struct lw_error *error)
{
    struct numbers numbers = {text, n, 0};
    const char *end = NULL;
    char *copy;
    enum lw_status status = gate_check(text, n, name, error);

    *root = NULL;
    if (status != LW_OK)
        return status;
    copy = without_numbers(text, n);
    if (copy != NULL)
        *root = cJSON_ParseWithLengthOpts(copy, n, &end, false);
    cJSON_free(copy);
    if (*root == NULL) /* the gate has passed the text, so that only memory can be at fault */
        return lw_fail(error, LW_FULL, "%s: there is not enough memory to read it.", name);
    put_numbers(*root, &numbers);
    return LW_OK;
}

const cJSON *json_member(const cJSON *object, const char *name)
{
    for (const cJSON *child = object->child; child != NULL; child = child->next) {
        if (child->string != NULL && strcmp(child->string, name) == 0)
            return child;
    }
    return NULL;
}
