/* probe_minidb.c - minidb FILE STORE: the floor of a program that has records. It opens the store and reads 20 rows. */
#include <stddef.h>

#include <sqlite3.h>

#include "bench/mini.h"

static int read_rows(const char *path)
{
    sqlite3 *db;
    sqlite3_stmt *statement;
    int rows = 0;

    if (sqlite3_open_v2(path, &db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL) != SQLITE_OK ||
        sqlite3_prepare_v2(db, "SELECT id, changed_s FROM recipe ORDER BY changed_s DESC, id DESC LIMIT 20", -1,
                           &statement, NULL) != SQLITE_OK)
        return -1;
    while (sqlite3_step(statement) == SQLITE_ROW)
        rows++;
    sqlite3_finalize(statement);
    return rows;
}

int main(int argc, char *argv[])
{
    if (argc != 3 || read_rows(argv[2]) != 20)
        return 2;
    return mini_run(argv[1]);
}
