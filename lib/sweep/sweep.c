/*
 * A sweep: read once, then asked.
 */
#include "sweep/sweep.h"

#include "base/defaults.h"
#include "base/memory.h"
#include "base/text.h"
#include "document/input.h"

#include <string.h>

/* The folder of a path, "" for the working folder. NULL: no memory. */
static char *folder_of(const char *path)
{
    const char *const slash = strrchr(path, '/');
    const size_t length = slash ? (size_t)(slash - path) : 0;
    return slash == path ? trivet__text_keep("/", 1) : trivet__text_keep(path, length);
}

static trivet_status read_vary(trivet_sweep *sweep, const trivet__shelf *shelf,
                               trivet_message *message)
{
    trivet__reading reading;
    const trivet_status status =
        trivet__kept_reading(sweep->document, &sweep->tree, &reading, message);
    return status == TRIVET_OK ? trivet__vary_read(&reading, shelf, &sweep->vary) : status;
}

/* A file that cannot be planned as it stands may still have variants that can. */
static trivet_status make_plan(trivet_sweep *sweep, trivet_message *message)
{
    const trivet_status status =
        trivet_plan_new(trivet_document_frame(sweep->document), &sweep->plan, message);
    return status == TRIVET_NO_MEMORY ? status : TRIVET_OK;
}

/* The sweep of its text, which is there. */
static trivet_status resolve(trivet_sweep *sweep, const trivet__shelf *shelf,
                             trivet_message *message)
{
    trivet_status status = trivet__kept_parse(sweep->text, sweep->length, &sweep->tree, message);
    if (status == TRIVET_OK) {
        status = trivet__kept_compile(&sweep->tree, &sweep->compiled, &sweep->document, message);
    }
    if (status == TRIVET_OK) {
        sweep->document->text =
            trivet__pool_text(&sweep->document->pool, sweep->text, sweep->length);
        status =
            sweep->document->text ? read_vary(sweep, shelf, message) : trivet__no_memory(message);
    }
    return status == TRIVET_OK ? make_plan(sweep, message) : status;
}

static trivet_status from_file(trivet_sweep *sweep, const char *path, trivet_message *message)
{
    char *const folder = folder_of(path);
    trivet_status status = folder ? trivet__input_read(path, &sweep->text, &sweep->length, message)
                                  : trivet__no_memory(message);
    if (status == TRIVET_OK) {
        status = resolve(sweep, &(trivet__shelf){folder, NULL, 0}, message);
    }
    trivet__give_back(folder);
    return status;
}

static trivet_status check_catalogues(const trivet_catalogue *catalogues, int32_t count,
                                      trivet_message *message)
{
    trivet_status status = TRIVET_OK;
    if (count < 0 || (count > 0 && !catalogues)) {
        return trivet__missing(message, "catalogues");
    }
    for (int32_t i = 0; i < count && status == TRIVET_OK; i++) {
        status = trivet__size_check(catalogues[i].size, sizeof *catalogues, "catalogue",
                                    "fill it with trivet_catalogue_defaults first", message);
        if (status == TRIVET_OK && (!catalogues[i].name || !catalogues[i].text)) {
            status = trivet__missing(message, "catalogues");
        }
    }
    return status;
}

static trivet_status from_text(trivet_sweep *sweep, const char *text, size_t length,
                               const trivet__shelf *shelf, trivet_message *message)
{
    trivet_status status = trivet__input_check(text, length, message);
    if (status == TRIVET_OK) {
        sweep->text = trivet__text_keep(text, length);
        sweep->length = length;
        status = sweep->text ? resolve(sweep, shelf, message) : trivet__no_memory(message);
    }
    return status;
}

/* Hands out what was read, or frees it. */
static trivet_status finish(trivet_sweep *sweep, trivet_status status, const trivet_message *said,
                            trivet_sweep **sweep_out, trivet_message *message)
{
    if (status != TRIVET_OK) {
        trivet_sweep_free(sweep);
        sweep = NULL;
    }
    if (message) {
        trivet_message_clear(message);
        if (status != TRIVET_OK) {
            *message = *said;
        }
    }
    *sweep_out = sweep;
    return status;
}

trivet_status trivet_sweep_read_file(const char *path, trivet_sweep **sweep_out,
                                     trivet_message *message)
{
    trivet_message said;
    trivet_message_clear(&said);
    if (sweep_out) {
        *sweep_out = NULL;
    }
    if (!path || !sweep_out) {
        return trivet__missing(message, path ? "sweep_out" : "path");
    }
    trivet_sweep *const sweep = trivet__take(1, sizeof *sweep);
    const trivet_status status = sweep ? from_file(sweep, path, &said) : trivet__no_memory(&said);
    return finish(sweep, status, &said, sweep_out, message);
}

trivet_status trivet_sweep_read_text(const char *text, size_t length,
                                     const trivet_catalogue *catalogues, int32_t catalogue_count,
                                     trivet_sweep **sweep_out, trivet_message *message)
{
    trivet_message said;
    trivet_message_clear(&said);
    if (sweep_out) {
        *sweep_out = NULL;
    }
    if (!text || !sweep_out) {
        return trivet__missing(message, text ? "sweep_out" : "text");
    }
    const trivet__shelf shelf = {NULL, catalogues, catalogue_count};
    trivet_sweep *sweep = NULL;
    trivet_status status = check_catalogues(catalogues, catalogue_count, &said);
    if (status == TRIVET_OK) {
        sweep = trivet__take(1, sizeof *sweep);
        status = sweep ? from_text(sweep, text, length, &shelf, &said) : trivet__no_memory(&said);
    }
    return finish(sweep, status, &said, sweep_out, message);
}

trivet_status trivet_catalogue_defaults(trivet_catalogue *catalogue, size_t size)
{
    return trivet__defaults(catalogue, size, sizeof *catalogue);
}

trivet_status trivet_sweep_catalogue(const trivet_sweep *sweep, int32_t index,
                                     trivet_catalogue *catalogue_out)
{
    const trivet_status status = trivet__out_check(sweep, catalogue_out, sizeof *catalogue_out);
    if (status != TRIVET_OK) {
        return status;
    }
    for (int32_t c = 0, left = index; left >= 0 && c < sweep->vary.column_count; c++) {
        const trivet__column *const column = &sweep->vary.columns[c];
        if (column->catalogue && left-- == 0) {
            catalogue_out->name = column->catalogue_name;
            catalogue_out->text = column->catalogue;
            return TRIVET_OK;
        }
    }
    return TRIVET_BAD_INDEX;
}

void trivet_sweep_free(trivet_sweep *sweep)
{
    if (sweep) {
        trivet_plan_free(sweep->plan);
        trivet__vary_clear(&sweep->vary);
        trivet__compiled_clear(&sweep->compiled);
        trivet_document_free(sweep->document);
        trivet__tree_clear(&sweep->tree);
        trivet__give_back(sweep->text);
        trivet__give_back(sweep);
    }
}

const trivet_document *trivet_sweep_document(const trivet_sweep *sweep)
{
    return sweep ? sweep->document : NULL;
}

int64_t trivet_sweep_count(const trivet_sweep *sweep)
{
    return sweep ? sweep->vary.count : 0;
}

int32_t trivet_sweep_input_count(const trivet_sweep *sweep)
{
    return sweep ? sweep->vary.column_count : 0;
}

static const trivet__column *column_at(const trivet_sweep *sweep, int32_t input)
{
    const int is_there = sweep && input >= 0 && input < sweep->vary.column_count;
    return is_there ? &sweep->vary.columns[input] : NULL;
}

static int32_t dimension_of(const trivet__column *column)
{
    if (column->kind != TRIVET__COLUMN_LET) {
        return column->kind == TRIVET__COLUMN_STOCK ? -2 : TRIVET_NUMBER;
    }
    for (int32_t d = TRIVET_NUMBER; d <= TRIVET_PER_VOLUME; d++) {
        if (trivet_quantity_fits(&column->unit, (trivet_dimension)d)) {
            return d;
        }
    }
    return -1;
}

const char *trivet_sweep_input(const trivet_sweep *sweep, int32_t input, int32_t *dimension_out)
{
    const trivet__column *const column = column_at(sweep, input);
    if (dimension_out) {
        *dimension_out = column ? dimension_of(column) : -1;
    }
    return column ? column->name : NULL;
}

const char *trivet_sweep_choice(const trivet_sweep *sweep, int32_t input, int32_t choice)
{
    const trivet__column *const column = column_at(sweep, input);
    const int is_there = column && choice >= 0 && choice < column->choice_count;
    return is_there ? column->choices[choice].name : NULL;
}

trivet_status trivet_sweep_inputs(const trivet_sweep *sweep, int64_t number, double *values_out)
{
    if (!sweep || !values_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    if (number < 0 || number >= sweep->vary.count) {
        return TRIVET_BAD_INDEX;
    }
    trivet__vary_values(&sweep->vary, number, values_out);
    return TRIVET_OK;
}

trivet_status trivet_variant_defaults(trivet_variant *variant, size_t size)
{
    return trivet__defaults(variant, size, sizeof *variant);
}
