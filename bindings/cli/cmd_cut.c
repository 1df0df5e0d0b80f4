/*
 * trivet cut FILE: what to cut, drill and buy.
 */
#include "command.h"
#include "cut_page.h"
#include "pages.h"
#include "print.h"

#include <stdio.h>
#include <string.h>

static int print_answer(const options *given, const cut_page *page)
{
    if (given->is_json) {
        trivet_message message;
        char *json = NULL;
        trivet_message_clear(&message);
        const trivet_status status =
            trivet_document_cuts_json(page->document, page->cuts, &json, &message);
        return print_json(given, given->operand, status, json, &message);
    }
    const char *const name = trivet_document_name(page->document);
    print_text(name[0] ? name : given->operand);
    putchar('\n');
    return print_cut_page(page) == 0 ? EXIT_HOLDS
                                     : fail_status(given, given->operand, TRIVET_NO_MEMORY);
}

static int give_templates(const options *given, const cut_page *page)
{
    trivet_message message;
    int count = 0;
    if (write_templates(page->cuts, option_value(given, "--templates"), &count, &message) !=
        TRIVET_OK) {
        return fail(given, NULL, &message);
    }
    if (!given->is_json) {
        print_heading("Templates");
        print_line(2, "%d written into %s; the names stand with the saddles above.", count,
                   option_value(given, "--templates"));
    }
    return EXIT_HOLDS;
}

int cmd_cut(const options *given)
{
    cut_page page;
    trivet_document *document = NULL;
    trivet_cuts *cuts = NULL;
    trivet_message message;
    memset(&page, 0, sizeof page);
    trivet_message_clear(&message);
    trivet_status status = trivet_document_read_file(given->operand, &document, &message);
    if (status == TRIVET_OK) {
        page.document = document;
        page.frame = trivet_document_frame(document);
        page.shop.size = sizeof page.shop;
        page.units.size = sizeof page.units;
        status = trivet_document_shop(document, &page.shop);
    }
    if (status == TRIVET_OK) {
        status = trivet_document_units(document, &page.units);
    }
    if (status == TRIVET_OK) {
        status = trivet_cuts_new(page.frame, &page.shop, &cuts, &message);
    }
    int exit_status = EXIT_HOLDS;
    if (status != TRIVET_OK) {
        exit_status = fail(given, given->operand, &message);
    } else {
        page.cuts = cuts;
        exit_status = print_answer(given, &page);
        if (exit_status == EXIT_HOLDS && option_value(given, "--templates")) {
            exit_status = give_templates(given, &page);
        }
    }
    trivet_cuts_free(cuts);
    trivet_document_free(document);
    return exit_status;
}
