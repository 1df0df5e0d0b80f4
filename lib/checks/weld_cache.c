/*
 * Lines of welds that are kept from one variant to the next. Most variants change neither stock nor
 * weld nor angle; then the line, with its sums along arcs, is the same bit for bit.
 */
#include "checks/check_weld.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

int trivet__stocks_note(trivet__making *making)
{
    trivet_checks *const checks = making->checks;
    const size_t count = (size_t)making->frame->stock_count;
    const size_t before = checks->stock_capacity;
    void *list = checks->stocks;
    const int has_room =
        trivet__reserve(&list, &checks->stock_capacity, count, sizeof *checks->stocks);
    checks->stocks = list;
    if (!has_room) {
        return 0;
    }
    if (checks->stock_capacity > before) {
        memset(checks->stocks + before, 0,
               (checks->stock_capacity - before) * sizeof *checks->stocks);
    }
    for (size_t i = 0; i < count; i++) {
        const trivet__stock *const now = &making->frame->stocks[i];
        trivet__stock_seen *const seen = &checks->stocks[i];
        if (seen->version == 0 ||
            !trivet__are_same(&seen->profile, &now->profile, sizeof now->profile) ||
            !trivet__are_same(&seen->section, &now->section, sizeof now->section)) {
            memcpy(&seen->profile, &now->profile, sizeof now->profile);
            memcpy(&seen->section, &now->section, sizeof now->section);
            seen->version = ++checks->stock_version;
        }
    }
    return 1;
}

int trivet__welds_make_room(trivet__making *making)
{
    trivet_checks *const checks = making->checks;
    const size_t before = checks->weld_capacity;
    void *list = checks->welds;
    const int has_room =
        trivet__reserve(&list, &checks->weld_capacity, 2 * (size_t)making->frame->tube_count,
                        sizeof *checks->welds);
    checks->welds = list;
    if (checks->weld_capacity > before) {
        memset(checks->welds + before, 0, (checks->weld_capacity - before) * sizeof *checks->welds);
    }
    return has_room;
}

/* How far the line goes from the tube's axis; where the cut leans, all round alike. */
static void find_reach(const trivet__weld_line *line, double reach[2])
{
    reach[0] = reach[1] = 0.0;
    for (int32_t i = 0; i < line->piece_count; i++) {
        const trivet__weld_piece *const piece = &line->pieces[i];
        for (int k = 0; k < 2; k++) {
            const double start = fabs(piece->start[k]);
            const double end = fabs(piece->start[k] + piece->step[k]);
            const double far = piece->radius > 0.0 ? start + piece->radius : fmax(start, end);
            reach[k] = fmax(reach[k], far);
        }
    }
    if (line->cosine != 0.0) {
        const double far = hypot(reach[0], reach[1]) / sqrt(1.0 - line->cosine * line->cosine);
        reach[0] = reach[1] = far;
    }
}

/* An end looked at before this one whose line is the same: racks have many rungs alike. Or NULL. */
static const trivet__weld_kept *find_alike(const trivet__making *making,
                                           const trivet__weld_key *key,
                                           const trivet__weld_kept *kept)
{
    enum { BACK = 16 };
    const trivet__weld_kept *const all = making->checks->welds;
    for (ptrdiff_t i = kept - all - 1, least = i - BACK; i >= 0 && i > least; i--) {
        if (trivet__are_same(key, &all[i].key, sizeof *key)) {
            return &all[i];
        }
    }
    return NULL;
}

int trivet__weld_line_find(const trivet__making *making, const trivet__weld_key *key,
                           trivet__weld_kept *kept)
{
    const trivet__stock *const stock =
        &making->frame->stocks[making->frame->tubes[kept->end.tube].stock];
    trivet__weld_line *const line = &kept->end.line;
    if (trivet__are_same(key, &kept->key, sizeof *key)) {
        return kept->has_outline;
    }
    const trivet__weld_kept *const alike = find_alike(making, key, kept);
    memcpy(&kept->key, key, sizeof *key); /* with what lies between the members */
    kept->has_ends = 0;
    kept->has_samples = 0;
    kept->alike = alike ? (int32_t)(kept - alike) : 0;
    if (alike) {
        *line = alike->end.line;
        memcpy(kept->reach, alike->reach, sizeof kept->reach);
        kept->has_outline = alike->has_outline;
        return kept->has_outline;
    }
    trivet__weld_line_start(line);
    kept->has_outline = trivet__weld_outline(&stock->profile, &stock->section, key->sides, line);
    line->cosine = key->cosine;
    memcpy(line->lean, key->lean, sizeof line->lean);
    line->run = key->run;
    line->spot_count = key->spot_count;
    line->thickness = key->thickness;
    if (kept->has_outline) {
        trivet__weld_line_solve(line);
        find_reach(line, kept->reach);
    }
    return kept->has_outline;
}
