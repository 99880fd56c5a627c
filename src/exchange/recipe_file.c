/* recipe_file.c - a whole file: gate, tree, tables, and what its parts say of one another. */
#include "exchange/recipe_file.h"

#include <string.h>

#include "base/error.h"
#include "exchange/read.h"

static bool read_version(struct reader *reader, const cJSON *value, void *unused)
{
    (void)unused;
    if (cJSON_IsNumber(value) && value->valuedouble == 1)
        return true;
    return read_refuse(reader, value, "1, the version of the format that this program reads");
}

static bool refuse_unread(struct reader *reader, const cJSON *value, void *unused)
{
    (void)unused;
    return read_fail(reader, LW_INVALID,
                     "found %s, which this version does not read yet, expected \"recipes\" or \"shelf\"",
                     value->string);
}

static bool finish_file(struct reader *reader, const cJSON *object, void *unused)
{
    (void)unused;
    if (json_member(object, "recipes") == NULL && json_member(object, "shelf") == NULL)
        return read_fail(reader, LW_INVALID, "found neither \"recipes\" nor \"shelf\", expected one of them at least");
    return true;
}

static const struct shape *file_shape(void)
{
    static const struct member member[] = {
        {"lyeway", MEMBER_OTHER, NEED_ALWAYS, 0, .read = read_version},
        {"recipes", MEMBER_OTHER, NEED_NOT, 0, .read = read_recipes},
        {"shelf", MEMBER_OTHER, NEED_NOT, 0, .read = read_shelf},
        {"batches", MEMBER_OTHER, NEED_NOT, 0, .read = refuse_unread},
        {"soaps", MEMBER_OTHER, NEED_NOT, 0, .read = refuse_unread},
        {"settings", MEMBER_OTHER, NEED_NOT, 0, .read = refuse_unread},
    };
    static const struct shape shape = {member, sizeof member / sizeof member[0], ONE_OF_NONE, 0, NULL, finish_file};

    return &shape;
}

static bool same_uuid(const struct recipe *a, const struct recipe *b, bool *none)
{
    static const uint8_t nothing[LW_UUID_BYTES];

    *none = memcmp(a->uuid, nothing, sizeof nothing) == 0 || memcmp(b->uuid, nothing, sizeof nothing) == 0;
    return memcmp(a->uuid, b->uuid, sizeof a->uuid) == 0;
}

/* Import matches by uuid, else by name, so that a name may stand twice only where uuid or revision tells the two
 * apart. */
static bool told_apart(const struct recipe *a, const struct recipe *b)
{
    bool none, same = same_uuid(a, b, &none);

    if (!none && same)
        return a->revision != b->revision;
    return strcmp(a->name, b->name) != 0 || !none;
}

static bool check_told_apart(struct reader *reader)
{
    const struct recipe_file *file = reader->into;

    for (size_t i = 0; i < file->recipes; i++) {
        for (size_t k = 0; k < i; k++) {
            if (told_apart(&file->recipe[i], &file->recipe[k]))
                continue;
            read_enter(reader, "recipes", 0);
            read_enter(reader, NULL, i);
            return read_fail(reader, LW_INVALID,
                             "found the same recipe as at /recipes/%zu, expected another name, uuid or revision", k);
        }
    }
    return true;
}

static enum lw_status read_tree(const cJSON *root, struct reader *reader)
{
    if (!read_shape(reader, root, file_shape(), reader->into) || !check_told_apart(reader))
        return reader->status;
    read_shelf_limits(json_member(root, "shelf"), reader->into);
    return LW_OK;
}

enum lw_status recipe_file_read(const char *text, size_t n, const char *name, const struct recipe_file_names *names,
                                struct recipe_file **file, struct lw_error *error)
{
    struct reader reader = {.file = name, .reference = names->reference, .error = error};
    cJSON *root = NULL;
    enum lw_status status;

    *file = NULL;
    if (n > RECIPE_FILE_MOST_BYTES)
        return lw_fail(error, LW_FULL, "%s: found %zu bytes, expected at most %d.", name, n, RECIPE_FILE_MOST_BYTES);
    status = json_read(text, n, name, &root, error);
    if (status != LW_OK)
        return status;

    reader.into = cJSON_malloc(sizeof *reader.into);
    if (reader.into == NULL) {
        status = lw_fail(error, LW_FULL, "%s: there is not enough memory to read it.", name);
        goto done;
    }
    *reader.into = (struct recipe_file){0};
    status = read_tree(root, &reader);
    if (status == LW_OK)
        *file = reader.into;
    else
        recipe_file_free(reader.into);
done:
    cJSON_Delete(root);
    return status;
}

void recipe_file_free(struct recipe_file *file)
{
    if (file == NULL)
        return;
    cJSON_free(file->recipe);
    cJSON_free(file->oil);
    cJSON_free(file->additive);
    cJSON_free(file->liquid);
    cJSON_free(file->colourant);
    cJSON_free(file->fragrance);
    read_free_kept(file->own);
    cJSON_free(file);
}
