/* book_match.c - terms of a filter as strings of https://www.sqlite.org/fts5.html#full_text_query_syntax
 *
 * The index takes some characters for parts of words and passes over the rest; which is which its own tokenizer says, since an
 * expression with nothing in it to look for finds nothing. */
#include "store/book_match.h"

#include <string.h>

#include "base/text.h"
#include "store/query.h"

struct splitter {
    fts5_tokenizer of;
    Fts5Tokenizer *made;
};

/* By https://www.sqlite.org/fts5.html#extending_fts5; NULL where it fails. */
static enum lw_status find_tokenizers(struct store *store, fts5_api **api, struct lw_error *error)
{
    struct query query;

    *api = NULL;
    query_begin(&query, store, SQL_BOOK_TOKENIZERS);
    if (query.code == SQLITE_OK)
        query.code = sqlite3_bind_pointer(query.statement, 1, (void *)api, "fts5_api_ptr", NULL);
    query_row(&query);
    if (query.code == SQLITE_OK && !*api)
        query.code = SQLITE_NOMEM;

    enum lw_status status = query_end(&query, error);

    if (status != LW_OK)
        *api = NULL;
    return status;
}

/* That of the index. */
static enum lw_status splitter_make(struct store *store, struct splitter *splitter, struct lw_error *error)
{
    const char *options[] = {"remove_diacritics", "2"};
    fts5_api *api;
    void *context;
    enum lw_status status = find_tokenizers(store, &api, error);

    if (!api)
        return status;

    int code = api->xFindTokenizer(api, "unicode61", &context, &splitter->of);

    if (code == SQLITE_OK)
        code = splitter->of.xCreate(context, options, 2, &splitter->made);
    return store_failed(store->path, code, error);
}

static int see_word(void *context, int flags, const char *word, int n, int from, int to)
{
    (void)flags, (void)word, (void)n, (void)from, (void)to;
    *(bool *)context = true;
    return SQLITE_OK;
}

static int has_word(const struct splitter *splitter, const char *text, bool *has)
{
    *has = false;
    return splitter->of.xTokenize(splitter->made, has, FTS5_TOKENIZE_QUERY, text, (int)strlen(text), see_word);
}

static bool looks_like_day(const char *text)
{
    return strchr(text, '-') && text[strspn(text, "0123456789-")] == '\0';
}

static void add_quoted(char *match, const char *text, const char *without)
{
    char one[3] = "";

    text_add(match, BOOK_MATCH_BYTES, "\"");
    for (; *text; text++) {
        if (strchr(without, *text))
            continue;
        one[0] = *text;
        one[1] = *text == '"' ? '"' : '\0';
        text_add(match, BOOK_MATCH_BYTES, "%s", one);
    }
    text_add(match, BOOK_MATCH_BYTES, "\"");
}

static void add_term(char *match, const struct book_term *term)
{
    static const char *const columns[BOOK_INS] = {
        [BOOK_ANYWHERE] = "",
        [BOOK_IN_RECIPE] = "recipe : ",
        [BOOK_IN_COLOURANT] = "colourant : ",
        [BOOK_IN_FRAGRANCE] = "fragrance : ",
        [BOOK_IN_OUTCOME] = "outcome : ",
        [BOOK_IN_DAY] = "day : ",
    };
    const char *rest = term->whole ? "" : " *";

    text_add(match, BOOK_MATCH_BYTES, "%s(%s", match[0] ? " AND " : "", columns[term->in]);
    add_quoted(match, term->text, term->in == BOOK_IN_DAY ? "-" : "");
    text_add(match, BOOK_MATCH_BYTES, "%s", rest);
    if (term->in == BOOK_ANYWHERE && looks_like_day(term->text)) {
        text_add(match, BOOK_MATCH_BYTES, " OR %s", columns[BOOK_IN_DAY]);
        add_quoted(match, term->text, "-");
        text_add(match, BOOK_MATCH_BYTES, "%s", rest);
    }
    text_add(match, BOOK_MATCH_BYTES, ")");
}

enum lw_status book_match(struct store *store, const struct book_filter *filter, char match[BOOK_MATCH_BYTES],
                          struct lw_error *error)
{
    struct splitter splitter = {.made = NULL};
    enum lw_status status;
    int code = SQLITE_OK;

    match[0] = '\0';
    if (filter->terms == 0)
        return LW_OK;
    status = splitter_make(store, &splitter, error);
    if (!splitter.made)
        return status;
    for (int i = 0; i < filter->terms && code == SQLITE_OK; i++) {
        bool has;

        code = has_word(&splitter, filter->term[i].text, &has);
        if (code == SQLITE_OK && has)
            add_term(match, &filter->term[i]);
    }
    splitter.of.xDelete(splitter.made);
    return store_failed(store->path, code, error);
}
