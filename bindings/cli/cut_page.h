/*
 * The page of trivet cut.
 */
#ifndef TRIVET_CLI_CUT_PAGE_H
#define TRIVET_CLI_CUT_PAGE_H

#include <trivet/document.h>
#include <trivet/shop_tables.h>

/* Everything that the page looks at. */
typedef struct cut_page {
    const trivet_document *document;
    const trivet_frame *frame;
    const trivet_cuts *cuts;
    trivet_shop shop;
    trivet_units units;
} cut_page;

/* Prints it all. Returns 0, or -1 without memory. */
int print_cut_page(const cut_page *page);

/*
 * Writes a template for each saddle into a folder, which is made if it is not there. Each file
 * comes whole or not at all. Returns TRIVET_OK, or a status with a message. *count_out: how many.
 */
trivet_status write_templates(const trivet_cuts *cuts, const char *folder, int *count_out,
                              trivet_message *message);

#endif
