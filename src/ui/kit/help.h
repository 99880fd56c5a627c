/* help.h - the keys of a view, made from its action table. */
#ifndef KIT_HELP_H
#define KIT_HELP_H

#include <stddef.h>

#include "ui/kit/desk.h"

/* Puts the list of these actions on top of the desk. Actions must live as long as the view they belong to. */
void help_open(struct desk *desk, const char *title, const struct action *actions, size_t count);

#endif
