/*
 * Sweeps made-up variants into a store, or goes on with it, says where it begins, and
 * prints the hash of its content.
 *
 * usage: feed_store feed PATH VARIANTS FIRST END BATCH CHECKS      CHECKS: 0 or 1
 *        feed_store merge PATH PART...
 *        feed_store csv PATH
 * Exit status: that of the status; the message on standard error.
 */
#include "sweep_rows.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static trivet_status print_text(void *user, const char *text, size_t length,
                                trivet_message *message)
{
    (void)user;
    (void)message;
    return fwrite(text, 1, length, stdout) == length ? TRIVET_OK : TRIVET_UNWRITABLE;
}

static trivet_status print_hash(trivet__store *store, trivet_message *message)
{
    uint64_t hash = 0;
    const trivet_status status = trivet__store_hash(store, &hash, message);
    if (!status) {
        printf("%016llx\n", (unsigned long long)hash);
    }
    return status;
}

static trivet_status feed(char **words, trivet_message *message)
{
    const int64_t end = strtoll(words[3], NULL, 10);
    const trivet__run_head head =
        made_head(strtoll(words[1], NULL, 10), strtoll(words[2], NULL, 10), end);
    trivet__store *store = NULL;
    trivet_status status = trivet__store_open(words[0], &head, &store, message);
    if (!status && !trivet__store_is_finished(store)) {
        printf("going on at %lld\n", (long long)trivet__store_next(store));
        fflush(stdout);
        status =
            feed_rows(store, end, (int32_t)strtol(words[4], NULL, 10), words[5][0] == '1', message);
        if (!status) {
            status = trivet__store_finish(store, message);
        }
    }
    if (!status) {
        status = print_hash(store, message);
    }
    trivet__store_free(store);
    return status;
}

static trivet_status merge(const char *path, const char *const *parts, int count,
                           trivet_message *message)
{
    trivet__store *store = NULL;
    trivet_status status = trivet__store_merge(path, parts, count, message);
    if (!status) {
        status = trivet__store_read(path, &store, message);
    }
    if (!status) {
        status = print_hash(store, message);
    }
    trivet__store_free(store);
    return status;
}

static trivet_status write_csv(const char *path, trivet_message *message)
{
    trivet__store *store = NULL;
    trivet_status status = trivet__store_read(path, &store, message);
    if (!status) {
        status = trivet__store_csv(store, NULL, print_text, NULL, message);
    }
    trivet__store_free(store);
    return status;
}

int main(int count, char **words)
{
    trivet_message message = {0};
    trivet_status status = TRIVET_MISSING_ARGUMENT;
    if (count == 8 && strcmp(words[1], "feed") == 0) {
        status = feed(words + 2, &message);
    } else if (count >= 4 && strcmp(words[1], "merge") == 0) {
        status = merge(words[2], (const char *const *)words + 3, count - 3, &message);
    } else if (count == 3 && strcmp(words[1], "csv") == 0) {
        status = write_csv(words[2], &message);
    }
    if (status) {
        char line[1024];
        trivet_message_text(&message, line, sizeof line);
        fprintf(stderr, "%s\n", line);
    }
    return (int)status;
}
