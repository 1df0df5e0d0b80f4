/*
 * Reading what varies, making variants, writing one, picking and storing, with each request for
 * memory failing in turn. SQLite's own requests are not among them.
 *
 * usage: test_sweep_out_of_memory FILE STORE   (STORE is made and removed again and again)
 */
#include "every_request.h"
#include "failing_heap.h"

#include <trivet/sweep.h>

#include <stdio.h>
#include <string.h>

static const char *path;
static const char *store_path;
static trivet_sweep *ready; /* read before any request fails */

static uint64_t mix(uint64_t print, double value)
{
    uint64_t bits = 0;
    memcpy(&bits, &value, sizeof bits);
    return (print ^ bits) * 1099511628211U;
}

static int take(void *user, const trivet_variant *variant, const double *inputs)
{
    uint64_t *const print = user;
    *print = mix(mix(*print, variant->mass), inputs[0]);
    *print = mix(mix(*print, variant->droop), variant->outcome);
    return 0;
}

static uint64_t read_all(attempt *try)
{
    trivet_sweep *sweep = NULL;
    trivet_status status = TRIVET_OK;
    ATTEMPT(try, status, trivet_sweep_read_file(path, &sweep, &try->message));
    attempt_needs((status == TRIVET_OK) == (sweep != NULL), "half-made sweep");
    const uint64_t print = (uint64_t)trivet_sweep_count(sweep);
    trivet_sweep_free(sweep);
    return print;
}

/* The same from memory, with the catalogue that was read. */
static uint64_t read_text(attempt *try)
{
    trivet_catalogue shop = {.size = sizeof shop};
    trivet_sweep *sweep = NULL;
    const char *const text = trivet_document_text(trivet_sweep_document(ready));
    trivet_status status = trivet_sweep_catalogue(ready, 0, &shop);
    attempt_needs(status == TRIVET_OK && strcmp(shop.name, "shop.yaml") == 0,
                  "the catalogue cannot be had");
    ATTEMPT(try, status,
            trivet_sweep_read_text(text, strlen(text), &shop, 1, &sweep, &try->message));
    attempt_needs((status == TRIVET_OK) == (sweep != NULL), "half-made sweep");
    const uint64_t print = (uint64_t)trivet_sweep_count(sweep);
    trivet_sweep_free(sweep);
    return print;
}

static uint64_t run_some(attempt *try)
{
    uint64_t print = 0;
    trivet_status status = TRIVET_OK;
    do {
        print = 14695981039346656037U;
        status = trivet_sweep_run(ready, 5, 2, 1, take, &print, &try->message);
    } while (status != TRIVET_OK && attempt_again(try, status));
    return status == TRIVET_OK ? print : 0;
}

static uint64_t write_one(attempt *try)
{
    char *text = NULL;
    trivet_status status = TRIVET_OK;
    ATTEMPT(try, status, trivet_sweep_variant_text(ready, 7, &text, &try->message));
    attempt_needs((status == TRIVET_OK) == (text != NULL), "half-made text");
    const uint64_t print = text ? strlen(text) : 0;
    trivet_text_free(text);
    return print;
}

static uint64_t pick(attempt *try)
{
    trivet_pick *picked = NULL;
    char *text = NULL;
    trivet_pick_settings settings;
    trivet_status status = TRIVET_OK;
    attempt_needs(trivet_pick_settings_defaults(&settings, sizeof settings) == TRIVET_OK,
                  "settings cannot be made ready");
    settings.most = 3;
    ATTEMPT(try, status, trivet_pick_new(ready, &settings, NULL, NULL, &picked, &try->message));
    attempt_needs((status == TRIVET_OK) == (picked != NULL), "half-made pick");
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_pick_json(picked, &text, &try->message));
    }
    const uint64_t print = text ? strlen(text) : 0;
    trivet_text_free(text);
    trivet_pick_free(picked);
    return print;
}

static uint64_t store(attempt *try)
{
    trivet_sweep_settings settings;
    trivet_sweep_summary sum = {.size = sizeof sum};
    trivet_status status = TRIVET_OK;
    remove(store_path);
    attempt_needs(trivet_sweep_settings_defaults(&settings, sizeof settings) == TRIVET_OK,
                  "settings cannot be made ready");
    settings.parts = 8;
    settings.part = 3;
    settings.checks = 1;
    ATTEMPT(try, status,
            trivet_sweep_store(ready, &settings, store_path, NULL, NULL, &try->message));
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_sweep_summarise(store_path, &sum, &try->message));
    }
    return status == TRIVET_OK ? (uint64_t)sum.stored : 0;
}

int main(int count, char **words)
{
    trivet_message message;
    attempt_needs(count == 3, "name a file to read and a store to write");
    path = words[1];
    store_path = words[2];
    attempt_every_request("reading what varies", read_all, 100);
    attempt_needs(trivet_sweep_read_file(path, &ready, &message) == TRIVET_OK,
                  "the file cannot be read");
    attempt_every_request("reading it from memory", read_text, 100);
    attempt_every_request("making variants", run_some, 100);
    attempt_every_request("writing a variant", write_one, 100);
    attempt_every_request("picking", pick, 100);
    attempt_every_request("storing", store, 100);
    trivet_sweep_free(ready);
    remove(store_path);
    return 0;
}
