/*
 * Results as JSON, in SI: what moves, what the mounts carry, what the tubes carry in every case
 * and at most, what was checked and what was not.
 */
#include "base/message.h"
#include "document/check_json.h"
#include "document/json.h"
#include "document/record.h"

#include <math.h>
#include <stddef.h>

static const char *const force_names[] = {"N", "Vy", "Vz", "T", "My", "Mz"};

/* Everything that the writing of results looks at. */
typedef struct results_writing {
    trivet__json json;
    const trivet_document *document;
    const trivet_frame *frame;
    const trivet_result *result;
    const trivet_checks *checks;
    const double *moves;     /* [case][joint][6] */
    const double *reactions; /* [case][mount][6] */
    const double *span_ends; /* [case][span][2][6] */
    int32_t case_count;
    int32_t joint_count;
    int32_t mount_count;
    int32_t span_count;
} results_writing;

/* What joints or mounts have six numbers of in a column: three and three, by their names. */
typedef struct sixes {
    const char *key;
    const char *first;
    const char *last;
    const double *values; /* [column][count][6] */
    int32_t kind;
    int32_t count;
} sixes;

static void put_sixes(results_writing *w, json_t *into, const sixes *of, int32_t column)
{
    json_t *const things = trivet__json_object(&w->json);
    for (int32_t i = 0; i < of->count; i++) {
        const double *const six = of->values + 6 * ((size_t)column * (size_t)of->count + (size_t)i);
        json_t *const thing = trivet__json_object(&w->json);
        trivet__json_put_row(&w->json, thing, of->first, six, 3);
        trivet__json_put_row(&w->json, thing, of->last, six + 3, 3);
        trivet__json_put(&w->json, things, trivet_frame_name(w->frame, of->kind, i), thing);
    }
    trivet__json_put(&w->json, into, of->key, things);
}

/* A span begins and ends at joints, or at the end of an insert: null. */
static json_t *make_span(results_writing *w, int32_t span)
{
    trivet_span about;
    json_t *const made = trivet__json_object(&w->json);
    if (trivet_span_defaults(&about, sizeof about) || trivet_result_span(w->result, span, &about)) {
        w->json.is_spoilt = 1;
        return made;
    }
    trivet__json_put_text(&w->json, made, "from",
                          trivet_frame_name(w->frame, TRIVET_KIND_JOINT, about.first_joint));
    trivet__json_put_text(&w->json, made, "to",
                          trivet_frame_name(w->frame, TRIVET_KIND_JOINT, about.last_joint));
    trivet__json_put_number(&w->json, made, "at", about.start);
    trivet__json_put_number(&w->json, made, "length", about.length);
    return made;
}

typedef void fill_span(results_writing *w, json_t *span, int32_t number, int32_t column);

/* The spans of all tubes, tube by tube. */
static json_t *make_tubes(results_writing *w, int32_t column, fill_span *fill)
{
    json_t *const tubes = trivet__json_object(&w->json);
    const int32_t tube_count = trivet_frame_count(w->frame, TRIVET_KIND_TUBE);
    for (int32_t tube = 0; tube < tube_count; tube++) {
        int32_t count = 0;
        const int32_t first = trivet_result_tube_spans(w->result, tube, &count);
        json_t *const spans = trivet__json_list(&w->json);
        for (int32_t number = first; number < first + count; number++) {
            json_t *const span = make_span(w, number);
            fill(w, span, number, column);
            trivet__json_push(&w->json, spans, span);
        }
        trivet__json_put(&w->json, tubes, trivet_frame_name(w->frame, TRIVET_KIND_TUBE, tube),
                         spans);
    }
    return tubes;
}

static void fill_ends(results_writing *w, json_t *span, int32_t number, int32_t column)
{
    const double *const ends =
        w->span_ends + 12 * ((size_t)column * (size_t)w->span_count + (size_t)number);
    trivet__json_put_named(&w->json, span, "start", force_names, ends, 6);
    trivet__json_put_named(&w->json, span, "end", force_names, ends + 6, 6);
}

static void fill_envelope(results_writing *w, json_t *span, int32_t number, int32_t column)
{
    (void)column;
    trivet_extreme whole[6];
    int32_t least_case[6];
    int32_t most_case[6];
    if (trivet_result_envelope(w->result, number, whole, least_case, most_case)) {
        w->json.is_spoilt = 1;
        return;
    }
    for (int i = 0; i < 6; i++) {
        json_t *const force = trivet__json_object(&w->json);
        trivet__json_put_number(&w->json, force, "least", whole[i].least);
        trivet__json_put_number(&w->json, force, "least_at", whole[i].least_at);
        trivet__json_put_text(&w->json, force, "least_case",
                              trivet_frame_column_name(w->frame, least_case[i]));
        trivet__json_put_number(&w->json, force, "most", whole[i].most);
        trivet__json_put_number(&w->json, force, "most_at", whole[i].most_at);
        trivet__json_put_text(&w->json, force, "most_case",
                              trivet_frame_column_name(w->frame, most_case[i]));
        trivet__json_put(&w->json, span, force_names[i], force);
    }
}

static void put_quality(results_writing *w, json_t *into, const trivet_quality *quality)
{
    json_t *const balance = trivet__json_object(&w->json);
    trivet__json_put_number(&w->json, balance, "force", quality->balance_force);
    trivet__json_put_number(&w->json, balance, "moment", quality->balance_moment);
    trivet__json_put(&w->json, into, "balance", balance);
    trivet__json_put_number(&w->json, into, "residual", quality->residual);
}

static int read_quality(const results_writing *w, int32_t column, trivet_quality *quality)
{
    return trivet_quality_defaults(quality, sizeof *quality) == TRIVET_OK &&
           trivet_result_quality(w->result, column, quality) == TRIVET_OK;
}

static void put_cases(results_writing *w, json_t *root)
{
    const sixes joints = {"joints", "move", "turn", w->moves, TRIVET_KIND_JOINT, w->joint_count};
    const sixes mounts = {"mounts",     "force",           "moment",
                          w->reactions, TRIVET_KIND_MOUNT, w->mount_count};
    json_t *const cases = trivet__json_object(&w->json);
    for (int32_t column = 0; column < w->case_count; column++) {
        json_t *const one = trivet__json_object(&w->json);
        trivet_quality quality;
        put_sixes(w, one, &joints, column);
        put_sixes(w, one, &mounts, column);
        trivet__json_put(&w->json, one, "tubes", make_tubes(w, column, fill_ends));
        if (read_quality(w, column, &quality)) {
            put_quality(w, one, &quality);
        }
        trivet__json_put(&w->json, cases, trivet_frame_column_name(w->frame, column), one);
    }
    trivet__json_put(&w->json, root, "cases", cases);
}

/* The worst of all cases. */
static void put_worst_quality(results_writing *w, json_t *root)
{
    trivet_quality worst;
    json_t *const into = trivet__json_object(&w->json);
    if (trivet_quality_defaults(&worst, sizeof worst)) {
        w->json.is_spoilt = 1;
    }
    for (int32_t column = 0; column < w->case_count; column++) {
        trivet_quality quality;
        if (read_quality(w, column, &quality)) {
            worst.balance_force = fmax(worst.balance_force, quality.balance_force);
            worst.balance_moment = fmax(worst.balance_moment, quality.balance_moment);
            worst.residual = fmax(worst.residual, quality.residual);
            worst.condition = fmax(worst.condition, quality.condition);
        }
    }
    put_quality(w, into, &worst);
    trivet__json_put_number(&w->json, into, "condition", worst.condition);
    trivet__json_put(&w->json, root, "quality", into);
}

static void put_lines(results_writing *w, json_t *root)
{
    static const char *const names[TRIVET_LINE_COUNT] = {"overload", "cracking", "service"};
    json_t *const lines = trivet__json_object(&w->json);
    for (int32_t line = 0; line < TRIVET_LINE_COUNT; line++) {
        int32_t worst = -1;
        char sentence[512];
        const int32_t verdict = trivet_checks_verdict(w->checks, line, &worst);
        json_t *const one = trivet__json_object(&w->json);
        trivet_checks_sentence(w->checks, line, &w->document->units, sentence, sizeof sentence);
        trivet__json_put_text(&w->json, one, "verdict", trivet_verdict_text(verdict));
        trivet__json_put(&w->json, one, "worst", worst < 0 ? json_null() : json_integer(worst));
        trivet__json_put_text(&w->json, one, "sentence", sentence);
        trivet__json_put(&w->json, lines, names[line], one);
    }
    trivet__json_put(&w->json, root, "lines", lines);
}

static void put_checks(results_writing *w, json_t *root)
{
    json_t *const list = trivet__json_list(&w->json);
    const int32_t count = trivet_checks_count(w->checks);
    for (int32_t i = 0; i < count; i++) {
        trivet__json_push(&w->json, list, trivet__json_check(&w->json, w->checks, i));
    }
    trivet__json_put(&w->json, root, "checks", list);
}

static void push_unchecked(results_writing *w, json_t *list, const char *what, const char *why)
{
    json_t *const one = trivet__json_object(&w->json);
    trivet__json_put_text(&w->json, one, "what", what);
    trivet__json_put_text(&w->json, one, "why", why);
    trivet__json_push(&w->json, list, one);
}

static void put_not_checked(results_writing *w, json_t *root)
{
    json_t *const list = trivet__json_list(&w->json);
    const int32_t count = trivet_checks_omission_count(w->checks);
    for (int32_t i = 0; i < count; i++) {
        const char *why = NULL;
        const char *const what = trivet_checks_omission(w->checks, i, NULL, &why);
        push_unchecked(w, list, what, why);
    }
    const char *unused = trivet_document_unused(w->document, 0);
    for (int32_t i = 1; unused; i++) {
        push_unchecked(w, list, unused, "this version reads past it");
        unused = trivet_document_unused(w->document, i);
    }
    trivet__json_put(&w->json, root, "not_checked", list);
}

static void put_expect(results_writing *w, json_t *root)
{
    json_t *const list = trivet__json_list(&w->json);
    const int32_t count = trivet_document_expectation_count(w->document);
    for (int32_t i = 0; i < count; i++) {
        trivet_expectation about;
        json_t *const one = trivet__json_object(&w->json);
        if (trivet_expectation_defaults(&about, sizeof about) ||
            trivet_document_expect(w->document, w->result, w->checks, i, &about, NULL)) {
            w->json.is_spoilt = 1;
        } else {
            trivet__json_put_text(&w->json, one, "what", about.what);
            trivet__json_put_text(&w->json, one, "where", about.where);
            trivet__json_put_text(&w->json, one, "case", about.in_case);
            trivet__json_put_number(&w->json, one, "by_hand", about.by_hand);
            trivet__json_put_number(&w->json, one, "computed", about.computed);
            trivet__json_put_number(&w->json, one, "difference", about.difference);
            trivet__json_put_number(&w->json, one, "within", about.within);
            trivet__json_put_truth(&w->json, one, "agrees", about.agrees);
            trivet__json_put_text(&w->json, one, "by", about.by);
            if (about.hint[0]) {
                trivet__json_put_text(&w->json, one, "hint", about.hint);
            }
        }
        trivet__json_push(&w->json, list, one);
    }
    trivet__json_put(&w->json, root, "expect", list);
}

/* The ready-made cases in sentences. */
static void put_stories(results_writing *w, json_t *root)
{
    json_t *const list = trivet__json_list(&w->json);
    for (int32_t c = 0; c < trivet_frame_count(w->frame, TRIVET_KIND_CASE); c++) {
        const char *source = "";
        const char *const story = trivet_frame_case_story(w->frame, c, &source);
        if (story[0]) {
            json_t *const one = trivet__json_object(&w->json);
            trivet__json_put_text(&w->json, one, "case",
                                  trivet_frame_name(w->frame, TRIVET_KIND_CASE, c));
            trivet__json_put_text(&w->json, one, "story", story);
            trivet__json_put_text(&w->json, one, "source", source);
            trivet__json_push(&w->json, list, one);
        }
    }
    trivet__json_put(&w->json, root, "stories", list);
}

/* What is taken off the front wheel; null without a vehicle. */
static void put_vehicle(results_writing *w, json_t *root)
{
    static const char *const NAMES[] = {"parked", "on the grade", "pulling away"};
    double relief[3];
    if (trivet_vehicle_relief(w->frame, relief) == TRIVET_OK) {
        trivet__json_put_named(&w->json, root, "off the front wheel", NAMES, relief, 3);
    } else {
        trivet__json_put(&w->json, root, "off the front wheel", json_null());
    }
}

/* The give that was fitted to readings; null if there are none. */
static void put_fitted(results_writing *w, json_t *root)
{
    trivet_fitted fitted = {.size = sizeof fitted};
    if (trivet_document_fitted(w->document, &fitted) != TRIVET_OK) {
        trivet__json_put(&w->json, root, "give", json_null());
        return;
    }
    json_t *const one = trivet__json_object(&w->json);
    trivet__json_put_row(&w->json, one, "spring", fitted.spring, 6);
    trivet__json_put_row(&w->json, one, "least", fitted.least, 6);
    trivet__json_put_row(&w->json, one, "most", fitted.most, 6);
    trivet__json_put_number(&w->json, one, "misfit", fitted.misfit);
    trivet__json_put(&w->json, root, "give", one);
}

/* Each bolt and mount lost, if the file asks for it. */
static trivet_status put_losses(results_writing *w, json_t *root)
{
    static const char *const OUTCOMES[] = {"held", "overloaded", "swings"};
    json_t *const list = trivet__json_list(&w->json);
    trivet_losses *losses = NULL;
    trivet_status status = TRIVET_OK;
    if (trivet_frame_has_usage(w->frame, TRIVET_USAGE_LOST_BOLT)) {
        status = trivet_losses_new(w->frame, &w->document->limits, &losses, NULL);
    }
    for (int32_t i = 0; i < trivet_losses_count(losses); i++) {
        trivet_loss loss = {.size = sizeof loss};
        char text[1024];
        json_t *const one = trivet__json_object(&w->json);
        trivet_losses_at(losses, i, &loss);
        trivet_losses_text(losses, i, &w->document->units, text, sizeof text);
        trivet__json_put_text(&w->json, one, "mount",
                              trivet_frame_name(w->frame, TRIVET_KIND_MOUNT, loss.mount));
        trivet__json_put_whole(&w->json, one, "bolt", loss.bolt);
        trivet__json_put_text(&w->json, one, "outcome", OUTCOMES[loss.outcome]);
        trivet__json_put_number(&w->json, one, "utilisation", loss.used);
        trivet__json_put_text(&w->json, one, "text", text);
        trivet__json_push(&w->json, list, one);
    }
    trivet_losses_free(losses);
    trivet__json_put(&w->json, root, "losses", list);
    return status;
}

static void put_cautions(results_writing *w, json_t *root)
{
    json_t *const list = trivet__json_list(&w->json);
    const char *caution = trivet_caution(0);
    for (int32_t i = 1; caution; i++) {
        trivet__json_push(&w->json, list, json_string(caution));
        caution = trivet_caution(i);
    }
    trivet__json_put(&w->json, root, "cautions", list);
}

trivet_status trivet_document_results_json(const trivet_document *document,
                                           const trivet_result *result, const trivet_checks *checks,
                                           char **text_out, trivet_message *message)
{
    if (text_out) {
        *text_out = NULL;
    }
    if (!document || !result || !checks || !text_out) {
        return trivet__missing(message, !document ? "document"
                                        : !result ? "result"
                                        : !checks ? "checks"
                                                  : "text_out");
    }
    results_writing w = {
        .document = document, .frame = document->frame, .result = result, .checks = checks};
    w.moves = trivet_result_moves(result, &w.case_count, &w.joint_count);
    w.reactions = trivet_result_reactions(result, NULL, &w.mount_count);
    w.span_ends = trivet_result_span_ends(result, NULL, &w.span_count);
    if (!w.moves || !w.span_ends || (w.mount_count > 0 && !w.reactions)) {
        return trivet__refuse(message, TRIVET_BAD_ORDER, "result", "is not solved yet",
                              "solve the frame first");
    }
    json_t *const root = trivet__json_object(&w.json);
    json_t *const envelope = trivet__json_object(&w.json);
    trivet__json_put_text(&w.json, root, "trivet", trivet_version());
    trivet__json_put_text(&w.json, root, "name", document->name);
    trivet__json_put_text(&w.json, root, "verdict",
                          trivet_verdict_text(trivet_checks_overall(checks)));
    put_lines(&w, root);
    trivet__json_put_number(&w.json, root, "mass", trivet_frame_mass(document->frame));
    put_worst_quality(&w, root);
    put_cases(&w, root);
    trivet__json_put(&w.json, envelope, "tubes", make_tubes(&w, 0, fill_envelope));
    trivet__json_put(&w.json, root, "envelope", envelope);
    put_checks(&w, root);
    put_expect(&w, root);
    put_stories(&w, root);
    put_vehicle(&w, root);
    put_fitted(&w, root);
    if (put_losses(&w, root) == TRIVET_NO_MEMORY) {
        w.json.is_spoilt = 1;
    }
    put_not_checked(&w, root);
    put_cautions(&w, root);
    return trivet__json_text(&w.json, root, text_out, message);
}
