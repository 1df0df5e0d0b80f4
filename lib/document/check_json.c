/*
 * Checks, their working and ratings as JSON, in SI.
 */
#include "document/check_json.h"

#include "base/message.h"
#include "document/record.h"

json_t *trivet__json_check(trivet__json *json, const trivet_checks *checks, int32_t index)
{
    trivet_check check;
    json_t *const one = trivet__json_object(json);
    if (trivet_check_defaults(&check, sizeof check) || trivet_checks_at(checks, index, &check)) {
        json->is_spoilt = 1;
        return one;
    }
    trivet__json_put_text(json, one, "check", check.check);
    trivet__json_put_text(json, one, "where", check.where);
    trivet__json_put_text(json, one, "case", check.in_case);
    trivet__json_put_number(json, one, "at", check.at);
    trivet__json_put_number(json, one, "demand", check.demand);
    trivet__json_put_number(json, one, "limit", check.limit);
    trivet__json_put_number(json, one, "utilisation", check.utilisation);
    trivet__json_put_text(json, one, "verdict", trivet_verdict_text(check.verdict));
    trivet__json_put_text(json, one, "source", check.source);
    if (check.note[0]) {
        trivet__json_put_text(json, one, "note", check.note);
    }
    return one;
}

static json_t *make_step(trivet__json *json, const trivet_document *document,
                         const trivet_checks *checks, int32_t index, int32_t number)
{
    char text[1024];
    trivet_step step;
    json_t *const one = trivet__json_object(json);
    if (trivet_step_defaults(&step, sizeof step) ||
        trivet_checks_step(checks, index, number, &step)) {
        json->is_spoilt = 1;
        return one;
    }
    trivet_checks_step_text(checks, index, number, &document->units, text, sizeof text);
    trivet__json_put_text(json, one, "symbol", step.symbol);
    trivet__json_put_text(json, one, "meaning", step.meaning);
    trivet__json_put_text(json, one, "formula", step.formula);
    trivet__json_put_number(json, one, "value", step.value);
    trivet__json_put_text(json, one, "written", text);
    trivet__json_put_text(json, one, "source", step.source);
    return one;
}

static void put_sentence(trivet__json *json, json_t *into, const trivet_document *document,
                         const trivet_checks *checks, int32_t index)
{
    char text[1024];
    trivet_checks_sentence_of(checks, index, &document->units, text, sizeof text);
    trivet__json_put_text(json, into, "sentence", text);
}

static json_t *make_working(trivet__json *json, const trivet_document *document,
                            const trivet_checks *checks, int32_t index)
{
    json_t *const one = trivet__json_check(json, checks, index);
    json_t *const steps = trivet__json_list(json);
    trivet_check check = {.size = sizeof check};
    const int32_t count =
        trivet_checks_at(checks, index, &check) == TRIVET_OK ? check.step_count : 0;
    put_sentence(json, one, document, checks, index);
    for (int32_t i = 0; i < count; i++) {
        trivet__json_push(json, steps, make_step(json, document, checks, index, i));
    }
    trivet__json_put(json, one, "working", steps);
    return one;
}

trivet_status trivet_document_working_json(const trivet_document *document,
                                           const trivet_checks *checks, const char *where,
                                           char **text_out, trivet_message *message)
{
    enum { MOST = 256 };
    int32_t indices[MOST];
    if (text_out) {
        *text_out = NULL;
    }
    if (!document || !checks || !text_out) {
        return trivet__missing(message, !document ? "document" : !checks ? "checks" : "text_out");
    }
    trivet__json json = {0};
    json_t *const root = trivet__json_object(&json);
    json_t *const list = trivet__json_list(&json);
    const int32_t count = trivet_checks_select(checks, where, indices, MOST);
    for (int32_t i = 0; i < count && i < MOST; i++) {
        trivet__json_push(&json, list, make_working(&json, document, checks, indices[i]));
    }
    trivet__json_put_text(&json, root, "trivet", trivet_version());
    trivet__json_put_text(&json, root, "name", document->name);
    trivet__json_put(&json, root, "checks", list);
    return trivet__json_text(&json, root, text_out, message);
}

static json_t *make_stops(trivet__json *json, const trivet_document *document,
                          const trivet_rates *rates, int32_t index)
{
    const trivet_checks *const checks = trivet_rates_checks(rates, index);
    json_t *const list = trivet__json_list(json);
    for (int32_t number = 0; trivet_rates_stop(rates, index, number) >= 0; number++) {
        const int32_t stop = trivet_rates_stop(rates, index, number);
        json_t *const one = trivet__json_check(json, checks, stop);
        put_sentence(json, one, document, checks, stop);
        trivet__json_push(json, list, one);
    }
    return list;
}

static json_t *make_rate(trivet__json *json, const trivet_document *document,
                         const trivet_rates *rates, int32_t index)
{
    trivet_rate rate;
    json_t *const one = trivet__json_object(json);
    if (trivet_rate_defaults(&rate, sizeof rate) || trivet_rates_at(rates, index, &rate)) {
        json->is_spoilt = 1;
        return one;
    }
    trivet__json_put(json, one, "cargo",
                     rate.cargo < 0 ? json_null()
                                    : json_string(trivet_frame_name(
                                          document->frame, TRIVET_KIND_CARGO, rate.cargo)));
    trivet__json_put_truth(json, one, "holds", rate.holds);
    trivet__json_put_truth(json, one, "open", rate.is_open);
    trivet__json_put_number(json, one, "given", rate.given);
    trivet__json_put_number(json, one, "mass", rate.mass);
    trivet__json_put_number(json, one, "factor", rate.factor);
    trivet__json_put(json, one, "stops", make_stops(json, document, rates, index));
    return one;
}

trivet_status trivet_document_rates_json(const trivet_document *document, const trivet_rates *rates,
                                         char **text_out, trivet_message *message)
{
    if (text_out) {
        *text_out = NULL;
    }
    if (!document || !rates || !text_out) {
        return trivet__missing(message, !document ? "document" : !rates ? "rates" : "text_out");
    }
    trivet__json json = {0};
    json_t *const root = trivet__json_object(&json);
    json_t *const list = trivet__json_list(&json);
    for (int32_t i = 0; i < trivet_rates_count(rates); i++) {
        trivet__json_push(&json, list, make_rate(&json, document, rates, i));
    }
    trivet__json_put_text(&json, root, "trivet", trivet_version());
    trivet__json_put_text(&json, root, "name", document->name);
    trivet__json_put(&json, root, "rates", list);
    return trivet__json_text(&json, root, text_out, message);
}
