/*
 * The checks by their kinds: how many there are, how many fail, which is the worst.
 */
#include "base/defaults.h"
#include "trivet/checks.h"

#include <string.h>

enum { GROUPS_MAX = 64 }; /* more kinds than there are */

trivet_status trivet_check_group_defaults(trivet_check_group *group, size_t size)
{
    return trivet__defaults(group, size, sizeof *group);
}

/* The group with checks of this name, or count. */
static int32_t find_group(const trivet_checks *checks, const trivet_check_group *groups,
                          int32_t count, const char *name)
{
    int32_t k = 0;
    trivet_check other = {.size = sizeof other};
    while (k < count && trivet_checks_at(checks, groups[k].worst, &other) == TRIVET_OK &&
           strcmp(other.check, name) != 0) {
        k++;
    }
    return k;
}

/* Checks stand by line, then worst first: the first of a kind is its worst. */
static int32_t find_groups(const trivet_checks *checks, trivet_check_group groups[GROUPS_MAX])
{
    int32_t count = 0;
    for (int32_t i = 0; i < trivet_checks_count(checks); i++) {
        trivet_check check = {.size = sizeof check};
        if (trivet_checks_at(checks, i, &check) != TRIVET_OK) {
            continue;
        }
        const int32_t k = find_group(checks, groups, count, check.check);
        if (k == count && count < GROUPS_MAX) {
            groups[count++] = (trivet_check_group){
                .size = sizeof *groups, .worst = i, .utilisation = check.utilisation};
        }
        if (k < count) {
            groups[k].count++;
            groups[k].fail_count += check.verdict > TRIVET_TIGHT;
        }
    }
    return count;
}

/* The group that is used most of those that still count; -1 if there is none. */
static int32_t most_used(const trivet_check_group *groups, int32_t count)
{
    int32_t most = -1;
    for (int32_t k = 0; k < count; k++) {
        if (groups[k].count > 0 &&
            (most < 0 || !(groups[k].utilisation <= groups[most].utilisation))) {
            most = k;
        }
    }
    return most;
}

trivet_status trivet_checks_group(const trivet_checks *checks, int32_t rank,
                                  trivet_check_group *group_out)
{
    trivet_check_group groups[GROUPS_MAX];
    const trivet_status status = trivet__out_check(checks, group_out, sizeof *group_out);
    if (status != TRIVET_OK) {
        return status;
    }
    const int32_t count = find_groups(checks, groups);
    if (rank < 0 || rank >= count) {
        return TRIVET_BAD_INDEX;
    }
    int32_t k = most_used(groups, count);
    for (int32_t before = 0; before < rank; before++) {
        groups[k].count = 0;
        k = most_used(groups, count);
    }
    *group_out = groups[k];
    return TRIVET_OK;
}
