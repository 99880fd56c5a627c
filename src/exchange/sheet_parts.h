/* sheet_parts.h - the sections of the bench sheet, in the order in which they stand on it. */
#ifndef EXCHANGE_SHEET_PARTS_H
#define EXCHANGE_SHEET_PARTS_H

#include "base/buffer.h"
#include "lyeway/document.h"

void sheet_title(const struct plan_document *document, struct buffer *out);
void sheet_margin(const struct plan_document *document, struct buffer *out);

/* The lye vessel and the jug: what to weigh, in order of use. */
void sheet_weigh(const struct plan_document *document, struct buffer *out);

/* One line to tick: "[ ] name   amount g  scale  total g", the total with the decimals of its division; below 0: none. */
void sheet_weighing(const struct plan_document *document, struct buffer *out, const char *indent, const char *name,
                    const struct weighing *weighing, int64_t total_ug, int64_t total_division_ug);

void sheet_portions(const struct plan_document *document, struct buffer *out);
void sheet_scent(const struct plan_document *document, struct buffer *out);
void sheet_acids(const struct plan_document *document, struct buffer *out);
void sheet_findings(const struct plan_document *document, struct buffer *out);
void sheet_safety(struct buffer *out);

#endif
