/*
 * What the frame must stand, how its mounts give, what the vehicle feels, what a lost bolt does.
 */
#include "stand_page.h"

#include "columns.h"
#include "print.h"

#include <math.h>
#include <stdio.h>

enum { TEXT_MAX = 1024, DIGITS = 3 };

void print_stories(const trivet_frame *frame)
{
    int count = 0;
    for (int32_t c = 0; c < trivet_frame_count(frame, TRIVET_KIND_CASE); c++) {
        const char *source = "";
        const char *const story = trivet_frame_case_story(frame, c, &source);
        if (!story[0]) {
            continue;
        }
        if (count++ == 0) {
            print_heading("What it must stand (every number can be changed in the file)");
        }
        print_line(2, "%s: %s (%s)", trivet_frame_name(frame, TRIVET_KIND_CASE, c), story, source);
    }
    for (int32_t i = 0; trivet_frame_gap(frame, i, NULL); i++) {
        const char *why = "";
        const char *const what = trivet_frame_gap(frame, i, &why);
        if (i == 0) {
            print_heading("Asked for, and not looked at");
        }
        print_line(2, "%s: %s", what, why);
    }
}

/* The 95 % bounds of a spring in words; open where the readings allow anything. */
static const char *between(const trivet_fitted *fitted, int d, const char *least, const char *most,
                           char *span, size_t size)
{
    const int is_held_up = fitted->least[d] > 0.0;
    const int gives = fitted->most[d] < HUGE_VAL;
    if (is_held_up && gives) {
        snprintf(span, size, "19 times in 20 between %s and %s", least, most);
    } else if (is_held_up) {
        snprintf(span, size, "19 times in 20 at least %s, and it may be rigid", least);
    } else if (gives) {
        snprintf(span, size, "19 times in 20 at most %s, and it may be loose", most);
    } else {
        snprintf(span, size, "anything from loose to rigid would do: hang more, or read better");
    }
    return span;
}

void print_fitted(const answer *of)
{
    static const char *const WORDS[] = {"along x",         "along y",         "along z",
                                        "turning about x", "turning about y", "turning about z"};
    trivet_fitted fitted = {.size = sizeof fitted};
    if (trivet_document_fitted(of->document, &fitted) != TRIVET_OK) {
        return;
    }
    print_heading("The give of the mounts, from what was measured");
    for (int d = 0; d < 6; d++) {
        const trivet_dimension dimension = d < 3 ? TRIVET_LINE_LOAD : TRIVET_TURN_SPRING;
        char best[64];
        char least[64];
        char most[64];
        char span[192];
        if (!(fitted.directions & (1U << d))) {
            continue;
        }
        trivet_units_text(&of->units, dimension, fitted.spring[d], DIGITS, best, sizeof best);
        trivet_units_text(&of->units, dimension, fitted.least[d], DIGITS, least, sizeof least);
        trivet_units_text(&of->units, dimension, fitted.most[d], DIGITS, most, sizeof most);
        print_line(2, "%s: %s at every mount; %s.", WORDS[d], best,
                   between(&fitted, d, least, most, span, sizeof span));
    }
    print_line(2, "All results are with that give.");
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
static void solve_other(const trivet_frame *frame, int32_t give, trivet_frame **frame_out,
                        trivet_result **result_out)
{
    *result_out = NULL;
    if (trivet_frame_with_give(frame, give, frame_out, NULL) != TRIVET_OK ||
        trivet_frame_solve(*frame_out, result_out, NULL) != TRIVET_OK) {
        trivet_frame_free(*frame_out);
        *frame_out = NULL;
    }
}

static void add_droop(columns *table, const answer *of, const trivet_frame *frame,
                      const trivet_result *result, int32_t in_case)
{
    double droop = 0.0;
    if (result && trivet_droop_worst(frame, result, in_case, NULL, NULL, &droop) == TRIVET_OK) {
        columns_add_value(table, &of->units, TRIVET_LENGTH, droop, DIGITS);
    } else {
        columns_add(table, "-");
    }
}

int print_droop(const answer *of)
{
    int sprung = 0;
    int rigid = 0;
    trivet_frame *other = NULL;
    trivet_result *result = NULL;
    columns table;
    count_springs(of->frame, &sprung, &rigid);
    const int32_t give = sprung > 0 ? TRIVET_GIVE_RIGID : TRIVET_GIVE_TUBE_LOOP;
    const char *const headings[] = {"case", sprung > 0 ? "most" : "mounts rigid",
                                    sprung > 0 ? "mounts rigid" : "mounts giving", "where"};
    solve_other(of->frame, give, &other, &result);
    columns_start(&table, 2, "tnnw", headings);
    for (int32_t c = 0; c < trivet_result_case_count(of->result); c++) {
        int32_t tube = -1;
        double at = 0.0;
        double droop = 0.0;
        char place[TEXT_MAX] = "";
        if (trivet_droop_worst(of->frame, of->result, c, &tube, &at, &droop) != TRIVET_OK) {
            continue;
        }
        trivet_tube_place_text(of->frame, of->result, tube, at, &of->units, place, sizeof place);
        columns_add(&table, trivet_frame_column_name(of->frame, c));
        add_droop(&table, of, of->frame, of->result, c);
        add_droop(&table, of, other, result, c);
        columns_add(&table, droop > 0.0 ? place : "nothing moves down");
    }
    print_heading("Droop, against the unloaded shape");
    if (sprung == 0) {
        print_line(2,
                   "The mounts are taken as rigid, which none is. Beside it what they would "
                   "give if each were a %s, an order of magnitude of our own: hang a known "
                   "mass on the frame, read the drop, and write it under \"measured\".",
                   trivet_give_text(give));
    } else {
        print_line(2, "%s give as their springs say; beside it the same with rigid mounts.",
                   rigid == 0 ? "The mounts" : "Some mounts");
    }
    const int status = columns_print(&table);
    trivet_result_free(result);
    trivet_frame_free(other);
    return status;
}

void print_vehicle(const answer *of)
{
    double relief[3];
    char texts[3][64];
    if (trivet_vehicle_relief(of->frame, relief) != TRIVET_OK) {
        return;
    }
    for (int i = 0; i < 3; i++) {
        trivet_units_text(&of->units, TRIVET_MASS, fabs(relief[i]), DIGITS, texts[i],
                          sizeof texts[i]);
    }
    print_heading("The front wheel");
    print_line(2,
               "Frame and cargo %s the front wheel %s parked, %s%s on the grade and %s%s when it "
               "pulls away.",
               relief[0] < 0.0 ? "press on" : "take off", texts[0], relief[1] < 0.0 ? "minus " : "",
               texts[1], relief[2] < 0.0 ? "minus " : "", texts[2]);
}

void print_losses(const answer *of)
{
    trivet_losses *losses = NULL;
    if (!trivet_frame_has_usage(of->frame, TRIVET_USAGE_LOST_BOLT)) {
        return;
    }
    print_heading("If a bolt or a mount is lost");
    if (trivet_losses_new(of->frame, &of->limits, &losses, NULL) != TRIVET_OK) {
        print_line(2, "could not be worked out");
        return;
    }
    for (int32_t i = 0; i < trivet_losses_count(losses); i++) {
        char text[TEXT_MAX];
        trivet_losses_text(losses, i, &of->units, text, sizeof text);
        print_line(2, "%s", text);
    }
    trivet_losses_free(losses);
}
