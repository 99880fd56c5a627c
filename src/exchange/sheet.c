/* sheet.c - the order of the bench sheet: what the hands need first, what the eyes need later, safety notes always. */
#include "exchange/sheet.h"

#include "exchange/sheet_parts.h"

void sheet(const struct plan_document *document, struct buffer *out)
{
    sheet_title(document, out);
    sheet_margin(document, out);
    sheet_findings(document, out);
    sheet_weigh(document, out);
    sheet_portions(document, out);
    sheet_scent(document, out);
    sheet_acids(document, out);
    sheet_safety(out);
}
