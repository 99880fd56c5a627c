/* sheet.h - the bench sheet: a plan for people, 80 columns of plain text with the safety notes. */
#ifndef EXCHANGE_SHEET_H
#define EXCHANGE_SHEET_H

#include "base/buffer.h"
#include "lyeway/document.h"

void sheet(const struct plan_document *document, struct buffer *out);

#endif
