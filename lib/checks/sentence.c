/*
 * A line of the verdict as one sentence: what, where, in which case, by how much; and if it is
 * tight or fails, what would help. Advice is given only where the stress or movement itself tells
 * it.
 */
#include "base/text.h"
#include "checks/check_record.h"

#include <math.h>

enum { TEXT_MAX = 512, ADVICE_MAX = 384 };

/* Above this share of the stress, one kind of it is called the reason. */
#define MOST 0.6

/* "122 of 157 N/mm^2", "3 of 2 turns" */
static void write_amount(const trivet__record *record, const trivet_units *units, char *text,
                         size_t size)
{
    const trivet_check *const check = &record->check;
    const char *const counted = record->kind->counted;
    const trivet_dimension dimension = (trivet_dimension)check->dimension;
    double factor = 1.0;
    char demand[64];
    char limit[64];
    trivet_units_for(units, dimension, &factor);
    trivet_units_text(units, TRIVET_NUMBER, check->demand / factor, 3, demand, sizeof demand);
    trivet_units_text(units, dimension, check->limit, 3, limit, sizeof limit);
    trivet__text_print(text, size, "%s of %s%s%s", demand, limit, counted ? " " : "",
                       counted ? counted : "");
}

/* "1/150" */
static void write_share(double share, char *text, size_t size)
{
    const double part = 1.0 / share;
    if (part >= 100.0) {
        trivet__text_print(text, size, "1/%.0f", part);
    } else {
        trivet__text_print(text, size, "1/%.3g", part);
    }
}

/* "1/150 of its reach, 1/200 allowed" */
static void write_ratio(const trivet__record *record, char *text, size_t size)
{
    const trivet_check *const check = &record->check;
    char demand[64] = "next to nothing";
    char limit[64];
    if (check->demand > 1e-6) {
        write_share(check->demand, demand, sizeof demand);
    }
    write_share(check->limit, limit, sizeof limit);
    trivet__text_print(text, size, "%s of its %s, %s allowed", demand,
                       record->is_reach ? "reach" : "span", limit);
}

static void yield_advice(const trivet__record *record, char *text, size_t size)
{
    const trivet__shares *const shares = &record->shares;
    const char *const weld =
        record->is_welded ? "; the place lies beside a weld, where the material is softer" : "";
    if (shares->bending >= MOST) {
        const char *const section = record->is_round         ? "a larger diameter"
                                    : shares->sideways > 0.5 ? "a wider section"
                                                             : "a taller section";
        trivet__text_print(text, size,
                           "; %s or a shorter reach helps most: the stress is %.0f %% bending%s",
                           section, 100.0 * shares->bending, weld);
    } else if (shares->shear >= MOST) {
        trivet__text_print(text, size,
                           "; a larger closed section helps most: the stress is %.0f %% twist and "
                           "shear%s",
                           100.0 * shares->shear, weld);
    } else {
        trivet__text_print(text, size, "; a larger section or a thicker wall helps%s", weld);
    }
}

static void write_advice(const trivet__record *record, char *text, size_t size)
{
    text[0] = '\0';
    if (record->check.verdict == TRIVET_HOLDS) {
        return;
    }
    if (record->kind->advice) {
        trivet__text_print(text, size, "; %s", record->kind->advice);
    } else {
        yield_advice(record, text, size);
    }
}

static size_t write_sentence(const trivet_checks *checks, int32_t index, const trivet_units *units,
                             char *text, size_t size)
{
    const trivet__record *const record = trivet__checks_record(checks, index);
    const trivet_check *const check = &record->check;
    char place[TEXT_MAX];
    char amount[192];
    char used[64];
    char advice[ADVICE_MAX];
    trivet_checks_place_text(checks, index, units, place, sizeof place);
    if (check->is_ratio) {
        write_ratio(record, amount, sizeof amount);
    } else {
        write_amount(record, units, amount, sizeof amount);
    }
    trivet_used_text(check->utilisation, used, sizeof used);
    write_advice(record, advice, sizeof advice);
    return trivet__text_print(text, size, "%s %s %s in %s (used %s)%s%s%s", place,
                              record->kind->verb, amount, check->in_case, used, advice,
                              check->note[0] ? "; " : "", check->note);
}

size_t trivet_checks_sentence_of(const trivet_checks *checks, int32_t index,
                                 const trivet_units *units, char *text, size_t size)
{
    if (!checks || index < 0 || index >= checks->count) {
        return trivet__text_print(text, size, "%s", "");
    }
    return write_sentence(checks, index, units, text, size);
}

size_t trivet_checks_sentence(const trivet_checks *checks, int32_t line, const trivet_units *units,
                              char *text, size_t size)
{
    static const char *const NOTHING[TRIVET_LINE_COUNT] = {
        "no tube's strength and no mount's limit is known",
        ("nothing could be looked at that comes and goes; a frame can crack long before it is "
         "overloaded"),
        "no limit is set for droop",
    };
    int32_t worst = -1;
    if (line < 0 || line >= TRIVET_LINE_COUNT) {
        return trivet__text_print(text, size, "%s", "");
    }
    if (trivet_checks_verdict(checks, line, &worst) == TRIVET_NOT_CHECKED || worst < 0) {
        return trivet__text_print(text, size, "%s", NOTHING[line]);
    }
    return write_sentence(checks, worst, units, text, size);
}

const char *trivet_caution(int32_t index)
{
    static const char *const CAUTIONS[] = {
        ("The list of what was not checked is part of the answer: a frame that holds here can "
         "still "
         "crack, shake loose or fail at a weld or bolt."),
        ("What the vehicle's maker allows and the local rules come first, and welds need a look "
         "from somebody who knows welding."),
        ("A frame that carries people or runs on public roads belongs before a qualified engineer "
         "or inspector."),
    };
    const int32_t count = (int32_t)(sizeof CAUTIONS / sizeof CAUTIONS[0]);
    return index >= 0 && index < count ? CAUTIONS[index] : NULL;
}
