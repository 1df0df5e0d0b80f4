/*
 * To the workshop: the tables of the cut list, a picture of each bar, saddles to wrap round tubes.
 */
#include "report/page.h"

#include "base/memory.h"
#include "base/text.h"
#include "report/lettering.h"
#include "report/sheet.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum {
    SUBJECTS = TRIVET_CUT_NOTES + 1,
    TEMPLATES_MOST = 24, /* of some 10 kB each */
    BARS_MOST = 40,
    WIDEST = 186, /* mm, of what A4 and Letter print at full size between their margins */
    HIGHEST = 250
};

/* Where links to a subject lead, and what it is called there. */
static const char *const PLACES[SUBJECTS][2] = {{"buy", "Bars to buy"},
                                                {"bars", "Which piece from which bar"},
                                                {"cut", "Pieces to cut"},
                                                {"saw", "Saw settings"},
                                                {"saddles", "Saddles and their templates"},
                                                {"bends", "Bends"},
                                                {"holes", "Holes to drill"},
                                                {"parts", "Screws, nuts and other small parts"},
                                                {"sums", "Weight, cost, paint and weld"},
                                                {"cut-rules", "How the ends are cut"},
                                                {"by-hand", "To look at by hand"}};

trivet_status trivet__page_shop_open(trivet__page *page)
{
    trivet_shop shop = {.size = sizeof shop};
    trivet_message_clear(&page->uncut);
    trivet_status status = trivet_document_shop(page->document, &shop);
    page->kerf = shop.kerf;
    if (status == TRIVET_OK) {
        status = trivet_cuts_new(page->frame, &shop, &page->cuts, &page->uncut);
    }
    if (status == TRIVET_OK) {
        status = trivet_cut_tables_new(page->cuts, &page->units, &page->tables, NULL);
    }
    return status == TRIVET_NO_MEMORY ? status : TRIVET_OK;
}

void trivet__page_shop_close(trivet__page *page)
{
    trivet_cut_tables_free(page->tables);
    trivet_cuts_free(page->cuts);
    page->tables = NULL;
    page->cuts = NULL;
}

/* The table, and whether it is the first and the last of its subject. */
static int find_table(const trivet__page *page, int32_t index, trivet_cut_table *table,
                      int *is_first, int *is_last)
{
    trivet_cut_table other = {.size = sizeof other};
    if (trivet_cut_tables_at(page->tables, index, table) != TRIVET_OK || table->subject < 0 ||
        table->subject >= SUBJECTS) {
        return 0;
    }
    *is_first = trivet_cut_tables_at(page->tables, index - 1, &other) != TRIVET_OK ||
                other.subject != table->subject;
    *is_last = trivet_cut_tables_at(page->tables, index + 1, &other) != TRIVET_OK ||
               other.subject != table->subject;
    return 1;
}

void trivet__page_shop_contents(trivet__page *page)
{
    if (!page->tables) {
        trivet__write(page->out, "<li><a href='#cut'>%r</a></li>", PLACES[TRIVET_CUT_PIECES][1]);
    }
    for (int32_t i = 0; i < trivet_cut_tables_count(page->tables); i++) {
        trivet_cut_table table = {.size = sizeof table};
        int is_first = 0;
        int is_last = 0;
        if (find_table(page, i, &table, &is_first, &is_last) && is_first) {
            trivet__write(page->out, "<li><a href='#%r'>%r</a></li>", PLACES[table.subject][0],
                          PLACES[table.subject][1]);
        }
    }
    if (trivet_frame_count(page->frame, TRIVET_KIND_DECK) > 0) {
        trivet__write(page->out, "<li><a href='#plates'>Plates to cut</a></li>");
    }
}

static void write_rows(trivet__page *page, int32_t index, const trivet_cut_table *table,
                       const char *caption)
{
    enum { COLUMNS_MAX = 16 };
    const char *headings[COLUMNS_MAX] = {NULL};
    if (table->column_count > COLUMNS_MAX) {
        return;
    }
    for (int32_t k = 0; k < table->column_count; k++) {
        headings[k] = trivet_cut_tables_cell(page->tables, index, -1, k);
    }
    trivet__table_open(page, caption, table->kinds, headings);
    for (int32_t row = 0; row < table->row_count; row++) {
        for (int32_t k = 0; k < table->column_count; k++) {
            trivet__cell(page, trivet_cut_tables_cell(page->tables, index, row, k));
        }
    }
    trivet__table_close(page);
}

/* Lines as paragraphs below a table, as a list where there is none. */
static void write_lines(trivet__page *page, int32_t index, const trivet_cut_table *table)
{
    const int is_list = table->column_count == 0;
    const char *line = trivet_cut_tables_line(page->tables, index, 0);
    trivet__write(page->out, is_list ? "<ul>" : "");
    for (int32_t i = 1; line; i++) {
        trivet__write(page->out, is_list ? "<li>%h</li>" : "<p>%h</p>", line);
        line = trivet_cut_tables_line(page->tables, index, i);
    }
    trivet__write(page->out, is_list ? "</ul>" : "");
}

/* One bar to scale, its pieces numbered, what is left over hatched. */
static void draw_bar(trivet__page *page, int32_t index, double scale)
{
    trivet_cut_bar bar = {.size = sizeof bar};
    int32_t count = 0;
    const int32_t *const pieces = trivet_cuts_bar_pieces(page->cuts, index, &count);
    double at = 0.5;
    if (trivet_cuts_bar(page->cuts, index, &bar) != TRIVET_OK) {
        return;
    }
    const double end = at + scale * bar.length;
    trivet__write(
        page->out,
        "<figure><svg xmlns='http://www.w3.org/2000/svg' role='img' class='bar' "
        "viewBox='0 0 %n 10' aria-label='Bar %i of %b'><text x='0.5' y='3'>bar %i: %b</text>"
        "<rect x='%n' y='4' width='%n' height='5' class='rest'/>",
        TRIVET__SHEET_WIDTH, (int)index + 1,
        trivet_frame_name(page->frame, TRIVET_KIND_STOCK, bar.stock), (int)index + 1,
        trivet_frame_name(page->frame, TRIVET_KIND_STOCK, bar.stock), at, end - at);
    for (double x = end - scale * bar.rest; x + 1.5 < end; x += 3.0) {
        trivet__write(page->out, "<path d='M%n 9L%n 4'/>", x, x + 1.5);
    }
    for (int32_t i = 0; i < count; i++) {
        trivet_cut_piece piece = {.size = sizeof piece};
        if (trivet_cuts_piece(page->cuts, pieces[i], &piece) != TRIVET_OK) {
            continue;
        }
        const double wide = scale * piece.longest;
        trivet__write(page->out, "<rect x='%n' y='4' width='%n' height='5' class='piece'/>", at,
                      wide);
        if (wide > 6.0) {
            trivet__write(page->out, "<text x='%n' y='7.6' text-anchor='middle'>%i</text>",
                          at + 0.5 * wide, (int)pieces[i] + 1);
        }
        at += wide + scale * page->kerf;
    }
    trivet__write(page->out, "</svg></figure>");
}

static void draw_bars(trivet__page *page)
{
    const int32_t count = trivet_cuts_bar_count(page->cuts);
    double longest = 0.0;
    for (int32_t i = 0; i < count; i++) {
        trivet_cut_bar bar = {.size = sizeof bar};
        if (trivet_cuts_bar(page->cuts, i, &bar) == TRIVET_OK) {
            longest = fmax(longest, bar.length);
        }
    }
    for (int32_t i = 0; i < count && i < BARS_MOST && longest > 0.0; i++) {
        draw_bar(page, i, (TRIVET__SHEET_WIDTH - 1.0) / longest);
    }
    trivet__write(page->out,
                  "<p>Each bar to scale, all to the same, its pieces with their numbers "
                  "in the order of cutting; hatched: what is left over.%r</p>",
                  count > BARS_MOST ? " The other bars are not drawn." : "");
}

/* The whole mm in an attribute of the template, such as width="184mm"; 0 if there is none. */
static int find_size(const char *svg, const char *name, char *size_out, size_t room)
{
    const char *const at = strstr(svg, name);
    const char *const from = at ? at + strlen(name) : "";
    const size_t length = strcspn(from, "\"");
    trivet__text_print(size_out, room, "%.*s", (int)(length < room ? length : 0), from);
    return (int)strtol(size_out, NULL, 10);
}

/* A template at full size, if that fits on paper. */
static trivet_status draw_template(trivet__page *page, int32_t piece, int32_t end)
{
    const size_t length = trivet_cuts_template_svg(page->cuts, piece, end, NULL, 0);
    char *const svg = trivet__take(length + 1, 1);
    char wide[32];
    char high[32];
    if (!svg) {
        return TRIVET_NO_MEMORY;
    }
    trivet_cuts_template_svg(page->cuts, piece, end, svg, length + 1);
    const char *const behind = strstr(svg, "\" width=\"") ? strstr(svg, "\" width=\"") : svg;
    if (find_size(behind, "width=\"", wide, sizeof wide) < WIDEST &&
        find_size(behind, "height=\"", high, sizeof high) < HIGHEST) {
        trivet__write(page->out, "<figure class='true' style='--wide:%r'>%r</figure>", wide, svg);
    } else {
        trivet__write(page->out, "<p>Its template is larger than A4 and Letter print at full size: "
                                 "\"trivet cut FILE --templates FOLDER\" writes it as a file for "
                                 "larger paper.</p>");
    }
    trivet__give_back(svg);
    return TRIVET_OK;
}

static trivet_status write_saddle(trivet__page *page, int32_t index, const trivet_cut_table *table,
                                  int number)
{
    trivet_status status = TRIVET_OK;
    trivet__write(page->out, "<details><summary>%h</summary>", table->title);
    write_rows(page, index, table, "");
    if (number < TEMPLATES_MOST) {
        status = draw_template(page, table->piece, table->end);
    } else {
        trivet__write(page->out,
                      "<p>This page draws the first %i templates: \"trivet cut FILE "
                      "--templates FOLDER\" writes all.</p>",
                      (int)TEMPLATES_MOST);
    }
    trivet__write(page->out, "</details>");
    return status;
}

static void write_saddles_head(trivet__page *page, const trivet_cut_table *table)
{
    trivet__write(page->out,
                  "<p>%h. Each fold holds the depths and a template to wrap round the tube: open "
                  "it, print this page at full size (100 %%, not fitted to the paper) and hold a "
                  "rule against the line of 100 mm on the template.</p>",
                  table->heading);
}

static trivet_status write_subject(trivet__page *page, int32_t index, int *saddles)
{
    trivet_cut_table table = {.size = sizeof table};
    trivet_status status = TRIVET_OK;
    int is_first = 0;
    int is_last = 0;
    if (!find_table(page, index, &table, &is_first, &is_last)) {
        return TRIVET_OK;
    }
    if (is_first) {
        trivet__section_open(page, PLACES[table.subject][0], PLACES[table.subject][1]);
    }
    if (table.subject == TRIVET_CUT_DEPTHS) {
        if (is_first) {
            write_saddles_head(page, &table);
        }
        status = write_saddle(page, index, &table, (*saddles)++);
    } else if (table.column_count > 0) {
        const int says_more = table.subject == TRIVET_CUT_PIECES ||
                              table.subject == TRIVET_CUT_BENDS ||
                              table.subject == TRIVET_CUT_HOLES;
        write_rows(page, index, &table, says_more ? table.heading : "");
    }
    if (table.subject == TRIVET_CUT_BARS) {
        draw_bars(page);
    }
    write_lines(page, index, &table);
    if (is_last) {
        trivet__section_close(page);
    }
    return status;
}

trivet_status trivet__page_shop(trivet__page *page)
{
    trivet_status status = TRIVET_OK;
    int saddles = 0;
    if (!page->tables) {
        char text[TRIVET__PAGE_TEXT];
        trivet_message_text(&page->uncut, text, sizeof text);
        trivet__section_open(page, PLACES[TRIVET_CUT_PIECES][0], PLACES[TRIVET_CUT_PIECES][1]);
        trivet__write(page->out, "<p>There is no cut list: %h</p>", text);
        trivet__section_close(page);
    }
    for (int32_t i = 0; i < trivet_cut_tables_count(page->tables) && status == TRIVET_OK; i++) {
        status = write_subject(page, i, &saddles);
    }
    return status;
}
