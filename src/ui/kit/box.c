/* box.c - overlays are framed so that they read as lying on top. */
#include "ui/kit/box.h"

static void edge(const struct canvas *box, int row, const char *left, const char *right)
{
    canvas_text(box, row, 0, STYLE_PLAIN, left);
    canvas_fill(box, row, 1, box->cols - 2, STYLE_PLAIN, "\u2500");
    canvas_text(box, row, box->cols - 1, STYLE_PLAIN, right);
}

struct canvas box_paint(const struct canvas *body, int rows, int cols, const char *title)
{
    int height = rows < body->rows ? rows : body->rows, width = cols < body->cols ? cols : body->cols;
    struct canvas box = canvas_part(body, (body->rows - height) / 2, (body->cols - width) / 2, height, width);
    struct canvas head;

    canvas_clear(&box);
    edge(&box, 0, "\u250c", "\u2510");
    for (int row = 1; row < box.rows - 1; row++) {
        canvas_text(&box, row, 0, STYLE_PLAIN, "\u2502");
        canvas_text(&box, row, box.cols - 1, STYLE_PLAIN, "\u2502");
    }
    edge(&box, box.rows - 1, "\u2514", "\u2518");
    head = canvas_part(&box, 0, 2, 1, box.cols - 4);
    canvas_print(&head, 0, 0, STYLE_TITLE, " %s ", title);
    return canvas_part(&box, 1, 2, box.rows - 2, box.cols - 4);
}
