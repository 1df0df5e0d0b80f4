/*
 * Plain structs of this part, and the words for verdicts and utilisations.
 */
#include "base/defaults.h"
#include "base/text.h"
#include "trivet/checks.h"

#include <math.h>

trivet_status trivet_limits_defaults(trivet_limits *limits, size_t size)
{
    const trivet_status status = trivet__defaults(limits, size, sizeof *limits);
    if (status == TRIVET_OK) {
        limits->yield = 1.5; /* common practice where the loads are known to a fair degree */
        limits->droop = (double)NAN;
        limits->droop_ratio = (double)NAN;
        limits->tight = 0.85;
        limits->loads = 1.5;
        limits->bolt_rule = TRIVET_BOLTS_EN;
        limits->weld_rule = TRIVET_WELDS_DIRECTIONAL;
        limits->crack = 1.35;
        limits->rack_rating = (double)NAN;
    }
    return status;
}

trivet_status trivet_check_defaults(trivet_check *check, size_t size)
{
    const trivet_status status = trivet__defaults(check, size, sizeof *check);
    if (status == TRIVET_OK) {
        check->case_index = check->joint = -1;
        check->subject = check->note = "";
    }
    return status;
}

trivet_status trivet_step_defaults(trivet_step *step, size_t size)
{
    return trivet__defaults(step, size, sizeof *step);
}

const char *trivet_check_name(int32_t index)
{
    static const char *const NAMES[] = {
        "yield",         "mount pull",    "mount push",    "mount shear",  "mount moment",
        "rack rating",   "bolt",          "bolt bearing",  "bolt head",    "bolt slip",
        "bolt gap",      "thread",        "thread turns",  "nut pull",     "nut shear",
        "insert fixing", "torque",        "wall crush",    "wall bearing", "countersink",
        "hole edge",     "spacer tilt",   "screw bending", "weld",         "chord wall",
        "cracking",      "droop",         "droop ratio",   "front wheel",  "front axle",
        "rear axle",     "vehicle total", "overhang",      "width"};
    const int32_t count = (int32_t)(sizeof NAMES / sizeof NAMES[0]);
    return index >= 0 && index < count ? NAMES[index] : NULL;
}

const char *trivet_verdict_text(int32_t verdict)
{
    static const char *const TEXTS[] = {"not checked", "holds", "tight", "may crack", "fails"};
    return verdict >= TRIVET_NOT_CHECKED && verdict <= TRIVET_FAILS ? TEXTS[verdict]
                                                                    : "not checked";
}

size_t trivet_used_text(double utilisation, char *text, size_t size)
{
    const double percent = 100.0 * utilisation;
    if (!(percent >= 0.0)) {
        return trivet__text_print(text, size, "not known");
    }
    if (!(percent < 1e6)) {
        return trivet__text_print(text, size, "without end");
    }
    if (percent > 100.0 && percent < 100.05) {
        return trivet__text_print(text, size, "just over 100 %%");
    }
    if (percent > 99.95 && percent < 100.0) {
        return trivet__text_print(text, size, "just under 100 %%");
    }
    if (percent > 95.0 && percent < 105.0 && percent != 100.0) {
        return trivet__text_print(text, size, "%.1f %%", percent);
    }
    if (percent > 0.0 && percent < 1.0) {
        return trivet__text_print(text, size, "%.1g %%", percent);
    }
    return trivet__text_print(text, size, "%.0f %%", percent);
}
