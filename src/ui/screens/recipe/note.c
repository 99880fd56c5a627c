/* note.c - what a maker writes beside a recipe: a few lines of text, shown below the portions. */
#include <string.h>

#include "base/text.h"
#include "ui/kit/ask.h"
#include "ui/kit/surface.h"
#include "ui/screens/recipe/state.h"

enum { NOTE_COLS = 62, NOTE_ROWS = 3, LABEL_WIDTH = 6 };

/* Blank ends are not worth a change. */
static void trim(char *text)
{
    for (size_t n = strlen(text); n > 0 && (text[n - 1] == '\n' || text[n - 1] == ' '); n--)
        text[n - 1] = '\0';
}

static void taken(void *context, const char *text)
{
    struct recipe_screen *screen = context;
    struct change change;

    change_begin(editor_recipe(screen->editor), CHANGE_NOTE, 0, &change);
    text_copy(change.after.note, sizeof change.after.note, text);
    trim(change.after.note);
    if (strcmp(change.before.note, change.after.note) != 0)
        state_apply(screen, &change, 1);
}

void note_open(struct recipe_screen *screen)
{
    ask_text(screen->top.desk, "Note", editor_recipe(screen->editor)->note, LW_NOTE_BYTES - 1, taken, screen);
}

/* The first rows of it; what is not shown is said. */
void page_note(struct page *page)
{
    const char *note = page->document->input->recipe->note;
    struct line *line;
    int rows = page->tall ? NOTE_ROWS : 1;

    if (note[0] == '\0' && !page->tall)
        return; /* the key for it does */
    line = page_line(page, REGION_PORTIONS);
    if (note[0] == '\0') {
        page_piece(line, 0, 6, "+ note")->act = ACT_NOTE;
        return;
    }
    page_piece(line, 0, LABEL_WIDTH - 1, "note")->act = ACT_NOTE;
    for (int row = 0; row < rows && *note; row++) {
        char shown[PIECE_BYTES];
        size_t skip, length = canvas_break(note, NOTE_COLS, &skip);

        text_copy(shown, length + 1 < sizeof shown ? length + 1 : sizeof shown, note);
        page_piece(line, LABEL_WIDTH, NOTE_COLS, "%s", shown);
        note += length + skip;
        if (*note && row < rows - 1)
            line = page_line(page, REGION_PORTIONS);
    }
    if (*note)
        page_piece(line, LABEL_WIDTH + NOTE_COLS + 1, 8, "and more");
}
