#define _POSIX_C_SOURCE 200809L

#include "store_place.h"
#include "sweep_rows.h"

#include <check.h>
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { PATH_BYTES = 512, PATHS = 64 };

static char folder[64];

void place_make(void)
{
    strcpy(folder, "/tmp/trivet-store-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(folder));
}

void place_remove(void)
{
    DIR *const all = opendir(folder);
    ck_assert_ptr_nonnull(all);
    for (const struct dirent *one = readdir(all); one; one = readdir(all)) {
        if (one->d_name[0] != '.' || strlen(one->d_name) > 2) {
            ck_assert_int_eq(remove(place_path(one->d_name)), 0);
        }
    }
    closedir(all);
    ck_assert_int_eq(rmdir(folder), 0);
}

const char *place_path(const char *name)
{
    static char paths[PATHS][PATH_BYTES];
    static int at;
    at = (at + 1) % PATHS;
    snprintf(paths[at], sizeof paths[at], "%s/%s", folder, name);
    return paths[at];
}

int place_has(const char *name)
{
    struct stat info;
    return stat(place_path(name), &info) == 0;
}

void fine(trivet_status status, const trivet_message *message)
{
    char line[1024];
    trivet_message_text(message, line, sizeof line);
    ck_assert_msg(status == TRIVET_OK, "status %d: %s", (int)status, line);
}

trivet__store *place_open(int64_t count)
{
    const trivet__run_head head = made_head(count, 0, count);
    trivet_message message = {0};
    trivet__store *store = NULL;
    fine(trivet__store_open(place_path("runs.sqlite"), &head, &store, &message), &message);
    return store;
}

void place_feed(trivet__store *store, int64_t end, int32_t batch)
{
    trivet_message message = {0};
    fine(feed_rows(store, end, batch, 1, &message), &message);
}

uint64_t place_finish(trivet__store *store)
{
    trivet_message message = {0};
    uint64_t hash = 0;
    fine(trivet__store_finish(store, &message), &message);
    fine(trivet__store_hash(store, &hash, &message), &message);
    trivet__store_free(store);
    return hash;
}

uint64_t place_hash(const char *name)
{
    trivet_message message = {0};
    trivet__store *store = NULL;
    uint64_t hash = 0;
    fine(trivet__store_read(place_path(name), &store, &message), &message);
    fine(trivet__store_hash(store, &hash, &message), &message);
    trivet__store_free(store);
    return hash;
}

const char *place_part(const char *name, int64_t count, int64_t first, int64_t end)
{
    enum { BATCH = 100 };
    const trivet__run_head head = made_head(count, first, end);
    trivet_message message = {0};
    trivet__store *store = NULL;
    fine(trivet__store_open(place_path(name), &head, &store, &message), &message);
    place_feed(store, end, BATCH);
    place_finish(store);
    return place_path(name);
}
