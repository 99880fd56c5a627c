#include "exchange/json.h"

#include <stdbool.h>
#include <string.h>

#include "base/error.h"
#include "base/number.h"
#include "exchange/gate.h"

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

static bool in_number(char c)
{
    return (c >= '0' && c <= '9') || c == '-' || c == '+' || c == '.' || c == 'e' || c == 'E';
}

/* The next number of text that has passed the gate: outside of texts only a number holds a digit or a minus. */
static double next_number(struct numbers *numbers)
{
    size_t start;
    double value = 0;

    while (numbers->at < numbers->n) {
        char c = numbers->text[numbers->at];
        if (c == '-' || (c >= '0' && c <= '9'))
            break;
        if (c == '"')
            skip_text(numbers);
        else
            numbers->at++;
    }
    start = numbers->at;
    while (numbers->at < numbers->n && in_number(numbers->text[numbers->at]))
        numbers->at++;
    (void)number_read(numbers->text + start, numbers->at - start, &value); /* the gate has read it before */
    return value;
}

/* The tree and the text hold the numbers in the same order. Recursion is bounded by GATE_DEPTH. */
static void read_again(cJSON *node, struct numbers *numbers)
{
    for (; node != NULL; node = node->next) {
        if (cJSON_IsNumber(node))
            node->valuedouble = next_number(numbers);
        if (node->child != NULL)
            read_again(node->child, numbers);
    }
}

enum lw_status json_read(const char *text, size_t n, const char *name, cJSON **root, struct lw_error *error)
{
    struct numbers numbers = {text, n, 0};
    const char *end = NULL;
    enum lw_status status = gate_check(text, n, name, error);

    *root = NULL;
    if (status != LW_OK)
        return status;
    *root = cJSON_ParseWithLengthOpts(text, n, &end, false);
    if (*root == NULL) /* the gate has passed the text, so that only memory can be at fault */
        return lw_fail(error, LW_FULL, "%s: there is not enough memory to read it.", name);
    read_again(*root, &numbers);
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
