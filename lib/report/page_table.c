/*
 * Tables and sections: markup that every part of the page shares.
 */
#include "report/page.h"

#include <math.h>
#include <string.h>

void trivet__value_text(const trivet__page *page, int32_t dimension, double value, char *text,
                        size_t size)
{
    trivet_units_text(&page->units, (trivet_dimension)dimension, value, TRIVET__PAGE_DIGITS, text,
                      size);
}

void trivet__table_open(trivet__page *page, const char *caption, const char *kinds,
                        const char *const *headings)
{
    trivet__write(page->out, "<table>");
    if (caption[0]) {
        trivet__write(page->out, "<caption>%e</caption>", caption);
    }
    trivet__write(page->out, "<thead><tr>");
    for (size_t i = 0; kinds[i]; i++) {
        trivet__write(page->out, "<th scope='col'%r>%e</th>", kinds[i] == 'n' ? " class='n'" : "",
                      headings[i]);
    }
    trivet__write(page->out, "</tr></thead><tbody>");
    page->kinds = kinds;
    page->column = 0;
}

static const char *class_of(char kind)
{
    switch (kind) {
    case 'n':
        return " class='n'";
    case 'o':
        return " class='o'";
    case 's':
        return " class='s'";
    default:
        return "";
    }
}

/* The tags round a cell; the first of a row names it. */
static void open_cell(trivet__page *page)
{
    const char *const kind = class_of(page->kinds[page->column]);
    if (page->column == 0) {
        trivet__write(page->out, "<tr><th scope='row'%r>", kind);
    } else {
        trivet__write(page->out, "<td%r>", kind);
    }
}

static void close_cell(trivet__page *page)
{
    trivet__write(page->out, page->column == 0 ? "</th>" : "</td>");
    page->column++;
    if (!page->kinds[page->column]) {
        trivet__write(page->out, "</tr>");
        page->column = 0;
    }
}

void trivet__cell(trivet__page *page, const char *text)
{
    const char kind = page->kinds[page->column];
    open_cell(page);
    if (kind == 'o' && text[0]) {
        trivet__write(page->out, "<bdi>%e</bdi>", text);
    } else if (kind == 'n') {
        trivet__write(page->out, "<span>%e</span>", text);
    } else {
        trivet__write(page->out, "%h", text);
    }
    close_cell(page);
}

void trivet__cell_value(trivet__page *page, int32_t dimension, double value)
{
    char text[64] = "-";
    if (!isnan(value)) {
        trivet__value_text(page, dimension, value, text, sizeof text);
    }
    trivet__cell(page, text);
}

void trivet__cell_in_case(trivet__page *page, int32_t dimension, double value, const char *in_case)
{
    char text[64];
    if (!(value > 0.0)) {
        trivet__cell(page, "-");
        return;
    }
    trivet__value_text(page, dimension, value, text, sizeof text);
    open_cell(page);
    trivet__write(page->out, "<span>%e</span> <small><bdi>%e</bdi></small>", text, in_case);
    close_cell(page);
}

void trivet__table_close(trivet__page *page)
{
    trivet__write(page->out, "</tbody></table>");
}

void trivet__section_open(trivet__page *page, const char *id, const char *heading)
{
    trivet__write(page->out, "<section id='%r'><h2>%h</h2>", id, heading);
}

void trivet__section_close(trivet__page *page)
{
    trivet__write(page->out, "</section>");
}
