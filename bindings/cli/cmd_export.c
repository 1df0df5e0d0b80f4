/*
 * trivet export FILE -o X: the frame for other programs, in the format that the ending of X names.
 * Each file is written whole or not at all; of a folder of tables all or none.
 */
#include "command.h"
#include "output_file.h"
#include "print.h"
#include "solved.h"

#include <trivet/report_export.h>

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/stat.h>
#include <unistd.h>

typedef enum format { FORMAT_VTU, FORMAT_GLB, FORMAT_DXF, FORMAT_TABLE, FORMAT_FOLDER } format;

enum { FILES_MAX = 48 };

/* Name of a table: those of the result, then those of the cut list. NULL past the last. */
static const char *table_name(int32_t index)
{
    int32_t count = 0;
    while (index >= count && trivet_export_table(count)) {
        count++;
    }
    return index < count ? trivet_export_table(index) : trivet_export_cut_table(index - count);
}

/* Number of a table among those of the cut list; -1 if it is one of the result. */
static int32_t cut_table(int32_t index)
{
    int32_t count = 0;
    while (trivet_export_table(count)) {
        count++;
    }
    return index < count ? -1 : index - count;
}

/* A call of trivet export. */
typedef struct exporting {
    const options *given;
    solved all;
    trivet_cuts *cuts;      /* if a table of the cut list is wanted and there is one */
    trivet_message no_cuts; /* why there is none */
    format format;
    int32_t table;      /* of FORMAT_TABLE */
    int32_t file_count; /* so far */
    int is_new_folder;  /* it was made for the tables */
    output_file files[FILES_MAX];
} exporting;

static int refuse_output_name(const options *given, const char *problem, const char *remedy)
{
    trivet_message message;
    trivet_message_clear(&message);
    message.status = TRIVET_BAD_NAME;
    snprintf(message.thing, sizeof message.thing, "-o %.120s",
             option_value(given, "-o") ? option_value(given, "-o") : "");
    snprintf(message.problem, sizeof message.problem, "%s", problem);
    snprintf(message.remedy, sizeof message.remedy, "%s", remedy);
    return fail(given, NULL, &message);
}

static int refuse_missing_output(const options *given)
{
    trivet_message message;
    trivet_message_clear(&message);
    message.status = TRIVET_INCOMPLETE;
    snprintf(message.thing, sizeof message.thing, "trivet export");
    snprintf(message.problem, sizeof message.problem, "does not know where to write");
    snprintf(message.remedy, sizeof message.remedy,
             "add -o with a name that ends in .vtu, .glb, .dxf or .csv, or -o FOLDER/");
    return fail(given, NULL, &message);
}

static int refuse_table(const options *given)
{
    char known[250] = "";
    for (int32_t i = 0; table_name(i); i++) {
        add_to_list(known, sizeof known, "%s", table_name(i));
    }
    char remedy[320];
    snprintf(remedy, sizeof remedy, "take -o tables/ for all, or one of them with .csv: %s", known);
    return refuse_output_name(given, "is not the name of a table", remedy);
}

static int is_folder(const char *path)
{
    struct stat there;
    const size_t length = strlen(path);
    return (length > 0 && path[length - 1] == '/') ||
           (stat(path, &there) == 0 && S_ISDIR(there.st_mode));
}

/* The table whose name the file has, in any folder; -1 if there is none. */
static int32_t table_named(const char *path)
{
    const char *const slash = strrchr(path, '/');
    const char *const name = slash ? slash + 1 : path;
    const size_t length = strlen(name) - strlen(".csv");
    for (int32_t i = 0; table_name(i); i++) {
        const char *const table = table_name(i);
        if (strlen(table) == length && strncmp(table, name, length) == 0) {
            return i;
        }
    }
    return -1;
}

/* Fills format and table from the name behind -o. Returns the exit status. */
static int choose_format(exporting *e)
{
    static const char *const ENDINGS[] = {".vtu", ".glb", ".dxf", ".csv"};
    const char *const path = option_value(e->given, "-o");
    if (!path) {
        return refuse_missing_output(e->given);
    }
    if (is_folder(path)) {
        e->format = FORMAT_FOLDER;
        return EXIT_HOLDS;
    }
    const char *const ending = strrchr(path, '.');
    for (int i = 0; ending && i < 4; i++) {
        if (strcasecmp(ending, ENDINGS[i]) == 0) {
            e->format = (format)i;
            e->table = e->format == FORMAT_TABLE ? table_named(path) : -1;
            return e->format == FORMAT_TABLE && e->table < 0 ? refuse_table(e->given) : EXIT_HOLDS;
        }
    }
    return refuse_output_name(e->given, "has an ending that names no format",
                              "end it in .vtu, .glb, .dxf or .csv, or give a folder: tables/");
}

static int fail_to_write(const options *given, const char *path, int error)
{
    trivet_message message;
    trivet_message_clear(&message);
    message.status = TRIVET_UNWRITABLE;
    snprintf(message.problem, sizeof message.problem, "could not be written: %s", strerror(error));
    snprintf(message.remedy, sizeof message.remedy,
             "choose a place where you may write and there is room");
    return fail(given, path, &message);
}

static trivet_status make_bytes(const exporting *e, char **bytes, size_t *length,
                                trivet_message *message)
{
    const solved *const all = &e->all;
    switch (e->format) {
    case FORMAT_VTU:
        return trivet_export_vtu(all->frame, all->result, all->checks, bytes, length, message);
    case FORMAT_GLB:
        return trivet_export_glb(all->frame, all->result, all->checks, bytes, length, message);
    case FORMAT_DXF:
        return trivet_export_dxf(all->frame, bytes, length, message);
    case FORMAT_TABLE:
    case FORMAT_FOLDER:
        break;
    }
    if (cut_table(e->table) >= 0) {
        return trivet_export_cuts_csv(all->frame, e->cuts, cut_table(e->table), bytes, length,
                                      message);
    }
    return trivet_export_csv(all->frame, all->result, all->checks, e->table, bytes, length,
                             message);
}

/* Makes one file and writes it beside its place. Returns the exit status. */
static int prepare(exporting *e, const char *path)
{
    trivet_message message;
    char *bytes = NULL;
    size_t length = 0;
    trivet_message_clear(&message);
    const trivet_status status = make_bytes(e, &bytes, &length, &message);
    if (status != TRIVET_OK) {
        return solved_fail(e->given, status, &message);
    }
    const int error = output_prepare(path, bytes, length, &e->files[e->file_count]);
    trivet_text_free(bytes);
    if (error != 0) {
        return fail_to_write(e->given, path, error);
    }
    e->file_count++;
    return EXIT_HOLDS;
}

/* All tables, once the folder is there. */
static int prepare_folder(exporting *e)
{
    const char *const folder = option_value(e->given, "-o");
    if (mkdir(folder, 0777) == 0) {
        e->is_new_folder = 1;
    } else if (errno != EEXIST) {
        return fail_to_write(e->given, folder, errno);
    }
    int status = EXIT_HOLDS;
    for (int32_t i = 0; table_name(i) && status == EXIT_HOLDS; i++) {
        char path[4096];
        const int needed = snprintf(path, sizeof path, "%s/%s.csv", folder, table_name(i));
        if (cut_table(i) >= 0 && !e->cuts) {
            continue;
        }
        e->table = i;
        if (e->file_count == FILES_MAX || needed < 0 || (size_t)needed >= sizeof path) {
            return fail_to_write(e->given, folder, ENAMETOOLONG);
        }
        status = prepare(e, path);
    }
    return status;
}

/* Gives all files their names. */
static int finish(exporting *e)
{
    int status = EXIT_HOLDS;
    for (int32_t i = 0; i < e->file_count && status == EXIT_HOLDS; i++) {
        const int error = output_finish(&e->files[i]);
        if (error != 0) {
            status = fail_to_write(e->given, e->files[i].path, error);
        } else {
            free(e->files[i].temporary);
            e->files[i].temporary = NULL;
        }
    }
    return status;
}

/* What is left out of a drawing of plates, and why: as lines, or as a list in JSON. */
static void print_left_out(const trivet_frame *frame, int is_json)
{
    int count = 0;
    for (int32_t i = 0; i < trivet_frame_count(frame, TRIVET_KIND_DECK); i++) {
        trivet_cutting *cutting = NULL;
        trivet_message message;
        char text[1024];
        trivet_message_clear(&message);
        const trivet_status status = trivet_cutting_new(frame, i, &cutting, &message);
        trivet_cutting_free(cutting);
        if (status == TRIVET_OK) {
            continue;
        }
        trivet_message_text(&message, text, sizeof text);
        if (is_json) {
            fputs(count++ > 0 ? ", " : "", stdout);
            print_json_string(text);
        } else {
            print_line(0, "No plate is drawn: %s.", text);
        }
    }
}

static void say_written_json(const exporting *e)
{
    fputs("{\"written\": ", stdout);
    print_json_string(option_value(e->given, "-o"));
    if (e->format == FORMAT_DXF) {
        fputs(", \"left out\": [", stdout);
        print_left_out(e->all.frame, 1);
        fputs("]", stdout);
    }
    fputs("}\n", stdout);
}

static void say_written(const exporting *e)
{
    if (e->given->is_json) {
        say_written_json(e);
        return;
    }
    print_text(option_value(e->given, "-o"));
    if (e->format == FORMAT_FOLDER) {
        printf(" has %d tables now.\n", (int)e->file_count);
        if (!e->cuts) {
            char text[1024];
            trivet_message_text(&e->no_cuts, text, sizeof text);
            print_line(0, "None are of a cut list: %s.", text);
        }
    } else {
        puts(" is written.");
    }
    if (e->format == FORMAT_DXF) {
        print_left_out(e->all.frame, 0);
    }
}

static trivet_status make_cuts(exporting *e)
{
    trivet_shop shop = {.size = sizeof shop};
    const trivet_status status = trivet_document_shop(e->all.document, &shop);
    return status == TRIVET_OK ? trivet_cuts_new(e->all.frame, &shop, &e->cuts, &e->no_cuts)
                               : status;
}

/*
 * A drawing and a cut list need no result: a frame that swings can be drawn and cut all the same.
 * A folder gets the tables that there are.
 */
static trivet_status read_input(exporting *e, trivet_message *message)
{
    const int is_cut = e->format == FORMAT_TABLE && cut_table(e->table) >= 0;
    trivet_status status = e->format == FORMAT_DXF || is_cut
                               ? solved_read(e->given->operand, &e->all, message)
                               : solved_make(e->given->operand, &e->all, message);
    if (status == TRIVET_OK && (is_cut || e->format == FORMAT_FOLDER)) {
        status = make_cuts(e);
        if (status != TRIVET_NO_MEMORY && e->format == FORMAT_FOLDER) {
            status = TRIVET_OK;
        } else if (status != TRIVET_OK) {
            *message = e->no_cuts;
        }
    }
    return status;
}

int cmd_export(const options *given)
{
    exporting e;
    trivet_message message;
    memset(&e, 0, sizeof e);
    trivet_message_clear(&e.no_cuts);
    e.given = given;
    trivet_message_clear(&message);
    int exit_status = choose_format(&e);
    if (exit_status != EXIT_HOLDS) {
        return exit_status;
    }
    const trivet_status status = read_input(&e, &message);
    if (status != TRIVET_OK) {
        exit_status = solved_fail(given, status, &message);
    } else if (e.format == FORMAT_FOLDER) {
        exit_status = prepare_folder(&e);
    } else {
        exit_status = prepare(&e, option_value(given, "-o"));
    }
    if (exit_status == EXIT_HOLDS) {
        exit_status = finish(&e);
    }
    for (int32_t i = 0; i < e.file_count; i++) {
        output_drop(&e.files[i]);
    }
    if (exit_status == EXIT_HOLDS) {
        say_written(&e);
    } else if (e.is_new_folder) {
        rmdir(option_value(given, "-o"));
    }
    trivet_cuts_free(e.cuts);
    solved_free(&e.all);
    return exit_status;
}
