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

static trivet_status read_vary(trivet_sweep *sweep, const char *path, trivet_message *message)
{
    trivet__reading reading;
    char *const folder = folder_of(path);
    trivet_status status =
        folder ? trivet__kept_reading(sweep->document, &sweep->tree, &reading, message)
               : trivet__no_memory(message);
    if (status == TRIVET_OK) {
        status = trivet__vary_read(&reading, folder, &sweep->vary);
    }
    trivet__give_back(folder);
    return status;
}

/* A file that cannot be planned as it stands may still have variants that can. */
static trivet_status make_plan(trivet_sweep *sweep, trivet_message *message)
{
    const trivet_status status =
        trivet_plan_new(trivet_document_frame(sweep->document), &sweep->plan, message);
    return status == TRIVET_NO_MEMORY ? status : TRIVET_OK;
}

static trivet_status read_sweep(trivet_sweep *sweep, const char *path, trivet_message *message)
{
    trivet_status status = trivet__input_read(path, &sweep->text, &sweep->length, message);
    if (status == TRIVET_OK) {
        status = trivet__kept_parse(sweep->text, sweep->length, &sweep->tree, message);
    }
    if (status == TRIVET_OK) {
        status = trivet__kept_compile(&sweep->tree, &sweep->compiled, &sweep->document, message);
    }
    if (status == TRIVET_OK) {
        status = read_vary(sweep, path, message);
    }
    return status == TRIVET_OK ? make_plan(sweep, message) : status;
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
    trivet_sweep *sweep = trivet__take(1, sizeof *sweep);
    const trivet_status status = sweep ? read_sweep(sweep, path, &said) : trivet__no_memory(&said);
    if (status != TRIVET_OK) {
        trivet_sweep_free(sweep);
        sweep = NULL;
    }
    if (message) {
        trivet_message_clear(message);
        if (status != TRIVET_OK) {
            *message = said;
        }
    }
    *sweep_out = sweep;
    return status;
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
