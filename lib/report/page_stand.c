/*
 * How the frame stands on its vehicle: droop with and without give, mounts, what a lost bolt does,
 * the front wheel.
 */
#include "report/page.h"

#include "base/text.h"

#include <math.h>
#include <string.h>

static const char *const TURNS[] = {"along x",         "along y",         "along z",
                                    "turning about x", "turning about y", "turning about z"};

/* The 95 % bounds of a spring in words. */
static void write_bounds(trivet__page *page, const trivet_fitted *fitted, int d)
{
    const int32_t dimension = d < 3 ? TRIVET_LINE_LOAD : TRIVET_TURN_SPRING;
    char least[64];
    char most[64];
    trivet__value_text(page, dimension, fitted->least[d], least, sizeof least);
    trivet__value_text(page, dimension, fitted->most[d], most, sizeof most);
    const int is_held_up = fitted->least[d] > 0.0;
    const int gives = fitted->most[d] < HUGE_VAL;
    if (is_held_up && gives) {
        trivet__write(page->out, "19 times in 20 between %e and %e", least, most);
    } else if (is_held_up) {
        trivet__write(page->out, "19 times in 20 at least %e, and it may be rigid", least);
    } else if (gives) {
        trivet__write(page->out, "19 times in 20 at most %e, and it may be loose", most);
    } else {
        trivet__write(page->out,
                      "anything from loose to rigid would do: hang more, or read better");
    }
}

static void write_fitted(trivet__page *page)
{
    trivet_fitted fitted = {.size = sizeof fitted};
    if (trivet_document_fitted(page->document, &fitted) != TRIVET_OK) {
        return;
    }
    trivet__write(page->out, "<h3>The give of the mounts, from what was measured</h3><ul>");
    for (int d = 0; d < 6; d++) {
        char best[64];
        if (fitted.directions & (1U << d)) {
            trivet__value_text(page, d < 3 ? TRIVET_LINE_LOAD : TRIVET_TURN_SPRING,
                               fitted.spring[d], best, sizeof best);
            trivet__write(page->out, "<li>%r: %e at every mount; ", TURNS[d], best);
            write_bounds(page, &fitted, d);
            trivet__write(page->out, ".</li>");
        }
    }
    trivet__write(page->out, "</ul><p>All results are with that give.</p>");
}

/* How many mounts have springs, and how many have none. */
static void count_springs(const trivet_frame *frame, int *sprung_out, int *rigid_out)
{
    *sprung_out = *rigid_out = 0;
    for (int32_t m = 0; m < trivet_frame_count(frame, TRIVET_KIND_MOUNT); m++) {
        trivet_mount mount = {.size = sizeof mount};
        int has_spring = 0;
        if (trivet_frame_mount(frame, m, &mount) != TRIVET_OK) {
            continue;
        }
        for (int d = 0; d < 6; d++) {
            has_spring = has_spring || mount.spring[d] > 0.0;
        }
        *sprung_out += has_spring;
        *rigid_out += !has_spring;
    }
}

/* The same frame with the other kind of mounts, solved; both NULL if that cannot be done. */
static trivet_status solve_other(const trivet_frame *frame, int32_t give, trivet_frame **frame_out,
                                 trivet_result **result_out)
{
    *result_out = NULL;
    trivet_status status = trivet_frame_with_give(frame, give, frame_out, NULL);
    if (status == TRIVET_OK) {
        status = trivet_frame_solve(*frame_out, result_out, NULL);
    }
    if (status != TRIVET_OK) {
        trivet_frame_free(*frame_out);
        *frame_out = NULL;
    }
    return status == TRIVET_NO_MEMORY ? status : TRIVET_OK;
}

static void write_droop_row(trivet__page *page, int32_t in_case, const trivet_frame *other,
                            const trivet_result *result)
{
    int32_t tube = -1;
    double at = 0.0;
    double droop = 0.0;
    double beside = (double)NAN;
    char place[TRIVET__PAGE_TEXT] = "";
    if (trivet_droop_worst(page->frame, page->result, in_case, &tube, &at, &droop) != TRIVET_OK) {
        return;
    }
    if (other && trivet_droop_worst(other, result, in_case, NULL, NULL, &beside) != TRIVET_OK) {
        beside = (double)NAN;
    }
    trivet_tube_place_text(page->frame, page->result, tube, at, &page->units, place, sizeof place);
    trivet__cell(page, trivet_frame_column_name(page->frame, in_case));
    trivet__cell_value(page, TRIVET_LENGTH, droop);
    trivet__cell_value(page, TRIVET_LENGTH, beside);
    trivet__cell(page, droop > 0.0 ? place : "nothing moves down");
}

trivet_status trivet__page_droop(trivet__page *page)
{
    int sprung = 0;
    int rigid = 0;
    trivet_frame *other = NULL;
    trivet_result *result = NULL;
    count_springs(page->frame, &sprung, &rigid);
    const int32_t give = sprung > 0 ? TRIVET_GIVE_RIGID : TRIVET_GIVE_TUBE_LOOP;
    const char *const headings[] = {"case", sprung > 0 ? "most" : "mounts rigid",
                                    sprung > 0 ? "mounts rigid" : "mounts giving", "where"};
    const trivet_status status = solve_other(page->frame, give, &other, &result);
    trivet__section_open(page, "droop", "Droop, against the unloaded shape");
    write_fitted(page);
    if (sprung == 0) {
        trivet__write(page->out,
                      "<p>The mounts are taken as rigid, which none is. Beside it what they would "
                      "give if each were a %r, an order of magnitude of our own: hang a known mass "
                      "on the frame, read the drop, and write it under \"measured\".</p>",
                      trivet_give_text(give));
    } else {
        trivet__write(page->out,
                      "<p>%r give as their springs say; beside it the same with rigid mounts.</p>",
                      rigid == 0 ? "The mounts" : "Some mounts");
    }
    trivet__table_open(page, "", "onns", headings);
    for (int32_t c = 0; c < trivet_result_case_count(page->result); c++) {
        write_droop_row(page, c, other, result);
    }
    trivet__table_close(page);
    trivet__section_close(page);
    trivet_result_free(result);
    trivet_frame_free(other);
    return status;
}

/* "x, y, z" of what a mount holds; what gives with its spring. */
static void write_holds(const trivet__page *page, const trivet_mount *mount, char *text,
                        size_t size)
{
    static const char *const NAMES[] = {"x", "y", "z", "rx", "ry", "rz"};
    text[0] = '\0';
    for (int d = 0; d < 6; d++) {
        char amount[64] = "";
        const size_t used = strlen(text);
        const int is_held = ((mount->held >> d) & 1U) != 0;
        if (!is_held && !(mount->spring[d] > 0.0)) {
            continue;
        }
        if (!is_held) {
            trivet__value_text(page, d < 3 ? TRIVET_LINE_LOAD : TRIVET_TURN_SPRING,
                               mount->spring[d], amount, sizeof amount);
        }
        trivet__text_print(text + used, size - used, "%s%s%s%s", used ? ", " : "", NAMES[d],
                           is_held ? "" : " gives ", amount);
    }
}

void trivet__page_mounts(trivet__page *page)
{
    static const char *const HEADINGS[] = {"mount", "holds", "pull", "push", "shear", "moment"};
    trivet__section_open(page, "mounts", "Mounts: the most that each has to carry");
    trivet__write(page->out,
                  "<p>Below each number the case in which it comes. You can change the "
                  "rack, not the vehicle: hold these against what its maker allows.</p>");
    trivet__table_open(page, "", "osnnnn", HEADINGS);
    for (int32_t m = 0; m < trivet_frame_count(page->frame, TRIVET_KIND_MOUNT); m++) {
        trivet_mount mount = {.size = sizeof mount};
        double carried[TRIVET_CARRY_COUNT];
        int32_t cases[TRIVET_CARRY_COUNT];
        char text[TRIVET__PAGE_TEXT];
        if (trivet_frame_mount(page->frame, m, &mount) != TRIVET_OK ||
            trivet_mount_carries_most(page->frame, page->result, m, carried, cases) != TRIVET_OK) {
            continue;
        }
        write_holds(page, &mount, text, sizeof text);
        trivet__cell(page, trivet_frame_name(page->frame, TRIVET_KIND_MOUNT, m));
        trivet__cell(page, text);
        for (int i = 0; i < TRIVET_CARRY_COUNT; i++) {
            trivet__cell_in_case(page, i == TRIVET_CARRY_MOMENT ? TRIVET_MOMENT : TRIVET_FORCE,
                                 carried[i], trivet_frame_column_name(page->frame, cases[i]));
        }
    }
    trivet__table_close(page);
    trivet__section_close(page);
}

trivet_status trivet__page_losses(trivet__page *page)
{
    trivet_losses *losses = NULL;
    if (!trivet_frame_has_usage(page->frame, TRIVET_USAGE_LOST_BOLT)) {
        return TRIVET_OK;
    }
    const trivet_status status = trivet_losses_new(page->frame, &page->limits, &losses, NULL);
    trivet__section_open(page, "losses", "If a bolt or a mount is lost");
    if (status != TRIVET_OK) {
        trivet__write(page->out, "<p>could not be worked out</p>");
    } else {
        trivet__write(page->out, "<ul>");
    }
    for (int32_t i = 0; i < trivet_losses_count(losses); i++) {
        char text[TRIVET__PAGE_TEXT];
        trivet_losses_text(losses, i, &page->units, text, sizeof text);
        trivet__write(page->out, "<li>%h</li>", text);
    }
    if (status == TRIVET_OK) {
        trivet__write(page->out, "</ul>");
    }
    trivet__section_close(page);
    trivet_losses_free(losses);
    return status == TRIVET_NO_MEMORY ? status : TRIVET_OK;
}

void trivet__page_vehicle(trivet__page *page)
{
    double relief[3];
    char texts[3][64];
    if (trivet_vehicle_relief(page->frame, relief) != TRIVET_OK) {
        return;
    }
    for (int i = 0; i < 3; i++) {
        trivet__value_text(page, TRIVET_MASS, fabs(relief[i]), texts[i], sizeof texts[i]);
    }
    trivet__section_open(page, "vehicle", "The front wheel");
    trivet__write(page->out,
                  "<p>Frame and cargo %r the front wheel %e parked, %r%e on the grade and %r%e "
                  "when it pulls away.</p>",
                  relief[0] < 0.0 ? "press on" : "take off", texts[0],
                  relief[1] < 0.0 ? "minus " : "", texts[1], relief[2] < 0.0 ? "minus " : "",
                  texts[2]);
    trivet__section_close(page);
}
