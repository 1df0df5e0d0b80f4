/*
 * The checks, the worst of each kind with its working folded below it; torques, hand calculations,
 * how well the sums come out.
 */
#include "report/page.h"

#include "base/decimal.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

enum { LONG_TEXT = 2 * TRIVET__PAGE_TEXT };

/* Of 16 digits a condition of 1e10 leaves six; our own choice of where to speak up. */
#define POOR_CONDITION 1e10

/* Demand or limit of a check; a ratio as 1/200. */
static void write_amount(trivet__page *page, const trivet_check *check, double value)
{
    char text[64] = "0";
    if (!check->is_ratio) {
        trivet__cell_value(page, check->dimension, value);
        return;
    }
    if (value > 0.0) {
        char number[32];
        const double inverse = 1.0 / value;
        trivet__decimal_write(inverse > 100.0 ? round(inverse) : inverse, 3, number, sizeof number);
        trivet__text_print(text, sizeof text, "1/%s", number);
    }
    trivet__cell(page, text);
}

/* text is room for LONG_TEXT bytes, one for all of a check. */
static void write_steps(trivet__page *page, int32_t index, int32_t count, char *text)
{
    trivet__write(page->out, "<ol class='steps'>");
    for (int32_t i = 0; i < count; i++) {
        trivet_step step = {.size = sizeof step};
        if (trivet_checks_step(page->checks, index, i, &step) == TRIVET_OK) {
            trivet_checks_step_text(page->checks, index, i, &page->units, text, LONG_TEXT);
            trivet__write(page->out, "<li><code>%e</code> <small>%h; %h</small></li>", text,
                          step.meaning, step.source);
        }
    }
    trivet__write(page->out, "</ol>");
}

/* A row under the check's own, as wide as the table. */
static void write_working(trivet__page *page, int32_t index, const trivet_check *check, char *text)
{
    trivet_checks_sentence_of(page->checks, index, &page->units, text, LONG_TEXT);
    trivet__write(page->out,
                  "<tr class='fold'><td colspan='7'><details><summary>The working of %e</summary>"
                  "<p>%h</p>",
                  check->check, text);
    write_steps(page, index, check->step_count, text);
    trivet__write(page->out, "<p>Rule: %h</p></details></td></tr>", check->source);
}

static void write_check(trivet__page *page, const trivet_check_group *group)
{
    trivet_check check = {.size = sizeof check};
    char text[LONG_TEXT];
    if (trivet_checks_at(page->checks, group->worst, &check) != TRIVET_OK) {
        return;
    }
    trivet__cell(page, check.check);
    trivet_used_text(check.utilisation, text, sizeof text);
    trivet__cell(page, text);
    write_amount(page, &check, check.demand);
    write_amount(page, &check, check.limit);
    trivet__text_print(text, sizeof text, "%d of %d", (int)group->fail_count, (int)group->count);
    trivet__cell(page, text);
    trivet__cell(page, check.in_case);
    trivet_checks_place_text(page->checks, group->worst, &page->units, text, sizeof text);
    trivet__cell(page, text);
    write_working(page, group->worst, &check, text);
}

void trivet__page_checks(trivet__page *page)
{
    static const char *const HEADINGS[] = {"check", "used", "demand", "limit",
                                           "fail",  "case", "where"};
    trivet_check_group group = {.size = sizeof group};
    const int32_t count = trivet_checks_count(page->checks);
    trivet__section_open(page, "checks",
                         count > 0 ? "Checks: the worst of each kind"
                                   : "Checks: none could be made");
    if (count > 0) {
        trivet__write(
            page->out,
            "<p>Each working stands in units that belong together: put its numbers into a "
            "calculator as they are.</p>");
        trivet__table_open(page, "", "tnnnnos", HEADINGS);
        for (int32_t rank = 0; trivet_checks_group(page->checks, rank, &group) == TRIVET_OK;
             rank++) {
            write_check(page, &group);
        }
        trivet__table_close(page);
    }
    trivet__section_close(page);
}

void trivet__page_torques(trivet__page *page)
{
    static const char *const HEADINGS[] = {"screws of",   "screw",   "table",  "allowed",
                                           "in the file", "weakest", "preload"};
    const int32_t count = trivet_frame_bolts_count(page->frame);
    if (count == 0) {
        return;
    }
    trivet__section_open(page, "torques", "Torque card");
    trivet__write(page->out,
                  "<p>\"Table\" is for the screw's grade in thick steel, \"allowed\" what "
                  "the weakest part here stands.</p>");
    trivet__table_open(page, "", "ssnnnss", HEADINGS);
    for (int32_t i = 0; i < count; i++) {
        trivet_torque torque = {.size = sizeof torque};
        trivet_bolts bolts = {.size = sizeof bolts};
        char text[TRIVET__PAGE_TEXT];
        char least[64];
        char most[64];
        if (trivet_frame_torque(page->frame, i, &torque) != TRIVET_OK ||
            trivet_frame_bolts(page->frame, i, &bolts) != TRIVET_OK) {
            continue;
        }
        trivet_bolts_place_text(page->frame, i, text, sizeof text);
        trivet__cell(page, text);
        trivet__text_print(text, sizeof text, "%s %s", bolts.thread, bolts.grade);
        trivet__cell(page, text);
        trivet__cell_value(page, TRIVET_MOMENT, torque.table);
        trivet__cell_value(page, TRIVET_MOMENT, torque.allowed);
        trivet__cell_value(page, TRIVET_MOMENT, torque.said);
        trivet__cell(page, trivet_weakest_text(torque.weakest));
        trivet__value_text(page, TRIVET_FORCE, torque.least, least, sizeof least);
        trivet__value_text(page, TRIVET_FORCE, torque.most, most, sizeof most);
        trivet__text_print(text, sizeof text, "%s to %s", least, most);
        trivet__cell(page, text);
    }
    trivet__table_close(page);
    trivet__section_close(page);
}

/* "+0.5 %", or the bare difference where the hand calculation gives 0. */
static void write_difference(trivet__page *page, const trivet_expectation *held)
{
    char number[32];
    char text[64];
    if (isnan(held->difference) || held->by_hand == 0.0) {
        trivet__cell_value(page, held->dimension, held->difference);
        return;
    }
    const double percent = 0.01 * round(100.0 * 100.0 * held->difference);
    trivet__decimal_write(fabs(percent), 6, number, sizeof number);
    trivet__text_print(text, sizeof text, "%s%s %%",
                       percent < 0.0   ? "-"
                       : percent > 0.0 ? "+"
                                       : "",
                       number);
    trivet__cell(page, text);
}

static void write_expectation(trivet__page *page, const trivet_expectation *held)
{
    char text[TRIVET__PAGE_TEXT];
    trivet__text_print(text, sizeof text, "%s%s%s", held->what, held->where[0] ? " at " : "",
                       held->where);
    trivet__cell(page, text);
    trivet__cell(page, held->in_case);
    trivet__cell_value(page, held->dimension, held->by_hand);
    trivet__cell_value(page, held->dimension, held->computed);
    write_difference(page, held);
    trivet__cell(page, held->agrees ? "yes" : "NO");
    trivet__text_print(text, sizeof text, "%s%s%s", held->by, held->hint[0] ? ". It " : "",
                       held->hint);
    trivet__cell(page, text);
}

trivet_status trivet__page_expectations(trivet__page *page)
{
    static const char *const HEADINGS[] = {"what",       "case",   "by hand",      "computed",
                                           "difference", "agrees", "worked out as"};
    const int32_t count = trivet_document_expectation_count(page->document);
    trivet_status status = TRIVET_OK;
    if (count == 0) {
        return TRIVET_OK;
    }
    trivet__section_open(page, "expect", "Hand calculations in the file");
    trivet__table_open(page, "", "sonnnto", HEADINGS);
    for (int32_t i = 0; i < count && status != TRIVET_NO_MEMORY; i++) {
        trivet_expectation held = {.size = sizeof held};
        status = trivet_document_expect(page->document, page->result, page->checks, i, &held, NULL);
        if (status == TRIVET_OK) {
            write_expectation(page, &held);
        }
    }
    trivet__table_close(page);
    trivet__section_close(page);
    return status == TRIVET_NO_MEMORY ? status : TRIVET_OK;
}

/* One significant digit and the power of ten. */
static void power_text(double value, char *text, size_t size)
{
    if (!(value > 0.0)) {
        trivet__text_print(text, size, "0");
        return;
    }
    int power = (int)floor(log10(value));
    int digit = (int)ceil(value / pow(10.0, power) - 1e-9);
    if (digit == 10) {
        digit = 1;
        power++;
    }
    trivet__text_print(text, size, "%de%d", digit, power);
}

void trivet__page_quality(trivet__page *page)
{
    double worst[3] = {0.0, 0.0, 0.0};
    char texts[3][32];
    for (int32_t c = 0; c < trivet_result_case_count(page->result); c++) {
        trivet_quality quality = {.size = sizeof quality};
        if (trivet_result_quality(page->result, c, &quality) == TRIVET_OK) {
            worst[0] = fmax(worst[0], fmax(quality.balance_force, quality.balance_moment));
            worst[1] = fmax(worst[1], quality.residual);
            worst[2] = fmax(worst[2], quality.condition);
        }
    }
    power_text(worst[0], texts[0], sizeof texts[0]);
    power_text(worst[1], texts[1], sizeof texts[1]);
    trivet__decimal_write(worst[2], 2, texts[2], sizeof texts[2]);
    trivet__section_open(page, "quality", "How well the sums come out");
    trivet__write(page->out,
                  "<p>Loads and reactions balance to %e, each joint to %e (0 would be exact); "
                  "condition of the equations %e.</p>",
                  texts[0], texts[1], texts[2]);
    if (worst[2] > POOR_CONDITION) {
        trivet__write(
            page->out,
            "<p>That condition is poor: the frame is nearly free to move somewhere, or "
            "has parts so unlike in stiffness that the sums lose most of their digits. "
            "Look for a missing hold, and do not lean on more than the first digits.</p>");
    }
    trivet__section_close(page);
}
