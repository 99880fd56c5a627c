/* key.h - what a person did: a key, a click, a paste. */
#ifndef KIT_KEY_H
#define KIT_KEY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum key_code {
    KEY_NONE,
    KEY_CHARACTER, /* `point` is what was typed */
    KEY_RETURN,
    KEY_ESCAPE,
    KEY_TAB,
    KEY_BACKTAB,
    KEY_ERASE,
    KEY_DEL,
    KEY_INS,
    KEY_ARROW_UP,
    KEY_ARROW_DOWN,
    KEY_ARROW_LEFT,
    KEY_ARROW_RIGHT,
    KEY_TO_START,
    KEY_TO_END,
    KEY_PAGE_UP,
    KEY_PAGE_DOWN,
    KEY_FUNCTION, /* `point` is its number, 1 to 12 */
    KEY_CONTROL,  /* `point` is the letter, 'a' to 'z' */
    KEY_CLICK,    /* at row, col */
    KEY_WHEEL_UP,
    KEY_WHEEL_DOWN,
    KEY_PASTE /* `paste` is text, as it came */
};

struct key {
    enum key_code code;
    bool alt;
    uint32_t point;
    int row, col;
    const char *paste; /* valid until the next key is read */
};

/* The character c was typed, without Alt. */
bool key_is(const struct key *key, uint32_t c);

/* `name` is how help writes a key: "a", "Enter", "Esc", "F1", "Ctrl-L", "Up", "Space". False if it names another key. */
bool key_named(const struct key *key, const char *name);

#endif
