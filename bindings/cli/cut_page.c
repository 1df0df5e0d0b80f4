/*
 * The page of trivet cut: the tables of the cut list in the order of work - buy, cut, mark, drill -
 * then the small print.
 */
#include "cut_page.h"

#include "columns.h"
#include "print.h"

/* Every name and word as text; the sentence at the end of a row is wrapped. */
static void start_columns(columns *table, const trivet_cut_table *of)
{
    char kinds[COLUMNS_MAX + 1];
    int32_t i = 0;
    for (; i < of->column_count && i < COLUMNS_MAX; i++) {
        kinds[i] = of->kinds[i] == 'n' ? 'n' : of->kinds[i] == 's' ? 'w' : 't';
    }
    kinds[i] = '\0';
    columns_start(table, of->subject == TRIVET_CUT_DEPTHS ? 4 : 2, kinds, NULL);
}

static int print_rows(const trivet_cut_tables *tables, int32_t index, const trivet_cut_table *of)
{
    columns table;
    start_columns(&table, of);
    for (int32_t row = -1; row < of->row_count; row++) {
        for (int32_t k = 0; k < of->column_count; k++) {
            columns_add(&table, trivet_cut_tables_cell(tables, index, row, k));
        }
    }
    return columns_print(&table);
}

static int print_table(const trivet_cut_tables *tables, int32_t index, int32_t subject_before)
{
    trivet_cut_table table = {.size = sizeof table};
    if (trivet_cut_tables_at(tables, index, &table) != TRIVET_OK) {
        return -1;
    }
    if (table.subject != subject_before) {
        print_heading(table.heading);
    }
    if (table.title[0]) {
        print_line(2, "%s", table.title);
    }
    const int status = table.column_count > 0 ? print_rows(tables, index, &table) : 0;
    const char *line = trivet_cut_tables_line(tables, index, 0);
    for (int32_t i = 1; line; i++) {
        print_line(2, "%s", line);
        line = trivet_cut_tables_line(tables, index, i);
    }
    return status;
}

static int32_t subject_of(const trivet_cut_tables *tables, int32_t index)
{
    trivet_cut_table table = {.size = sizeof table};
    return trivet_cut_tables_at(tables, index, &table) == TRIVET_OK ? table.subject : -1;
}

int print_cut_page(const cut_page *page)
{
    trivet_cut_tables *tables = NULL;
    int status =
        trivet_cut_tables_new(page->cuts, &page->units, &tables, NULL) == TRIVET_OK ? 0 : -1;
    for (int32_t i = 0; i < trivet_cut_tables_count(tables) && status == 0; i++) {
        status = print_table(tables, i, subject_of(tables, i - 1));
    }
    trivet_cut_tables_free(tables);
    return status;
}
