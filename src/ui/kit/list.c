/* list.c - selection and scrolling. */
#include "ui/kit/list.h"

static void keep_inside(struct list *list)
{
    if (list->selected >= list->count)
        list->selected = list->count - 1;
    if (list->selected < 0)
        list->selected = 0;
}

void list_count(struct list *list, int count)
{
    list->count = count;
    keep_inside(list);
}

bool list_key(struct list *list, const struct key *key)
{
    int page = list->rows > 1 ? list->rows - 1 : 1;
    int step;

    if (key->code == KEY_ARROW_UP || key->code == KEY_WHEEL_UP)
        step = -1;
    else if (key->code == KEY_ARROW_DOWN || key->code == KEY_WHEEL_DOWN)
        step = 1;
    else if (key->code == KEY_PAGE_UP)
        step = -page;
    else if (key->code == KEY_PAGE_DOWN)
        step = page;
    else if (key->code == KEY_TO_START)
        step = -list->count;
    else if (key->code == KEY_TO_END)
        step = list->count;
    else
        return false;
    list->selected += step;
    keep_inside(list);
    return true;
}

static void scroll(struct list *list, int rows)
{
    list->rows = rows;
    if (list->selected < list->top)
        list->top = list->selected;
    if (list->selected >= list->top + rows)
        list->top = list->selected - rows + 1;
    if (list->top > list->count - rows)
        list->top = list->count - rows;
    if (list->top < 0)
        list->top = 0;
}

void list_paint(struct list *list, const struct canvas *canvas,
                void (*row)(void *context, int index, bool selected, const struct canvas *line), void *context)
{
    scroll(list, canvas->rows);
    for (int i = 0; i < canvas->rows && list->top + i < list->count; i++) {
        int index = list->top + i;
        struct canvas line = canvas_part(canvas, i, 1, 1, canvas->cols - 1);

        canvas_text(canvas, i, 0, STYLE_STRONG, index == list->selected ? ">" : " ");
        row(context, index, index == list->selected, &line);
    }
}

int list_at(const struct list *list, int row)
{
    int index = list->top + row;

    return row >= 0 && row < list->rows && index < list->count ? index : -1;
}
