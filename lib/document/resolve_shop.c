/*
 * The workshop: saw, bars on offer, bent pieces, wishes for single ends. Whether the ends can be
 * cut like that is asked of the library at the end, so that a wish that cannot be granted is a
 * mistake of the file.
 */
#include "document/reading.h"

#include <math.h>
#include <string.h>

static const char *const CUT_WORDS[] = {"through", "butt", "miter", "saddle"};
static const int32_t CUTS[] = {TRIVET_CUT_THROUGH, TRIVET_CUT_BUTT, TRIVET_CUT_MITER,
                               TRIVET_CUT_SADDLE};

trivet_status trivet__read_cut(const trivet__reading *reading, const trivet__node *value,
                               const trivet__thing *thing, int32_t tube, int32_t joint)
{
    trivet_document *const document = reading->document;
    const trivet__place place = {value->line, value->column};
    trivet_shop_end end;
    int32_t choice = 0;
    trivet_status status = trivet__read_choice(reading, value, thing, CUT_WORDS, 4, &choice);
    if (!status) {
        status = trivet_shop_end_defaults(&end, sizeof end);
    }
    if (status) {
        return status;
    }
    end.tube = tube;
    end.joint = joint;
    end.cut = CUTS[choice];
    return trivet__note(document, &document->shop_ends, &end, sizeof end) &&
                   trivet__note(document, &document->end_places, &place, sizeof place)
               ? TRIVET_OK
               : trivet__no_memory(reading->message);
}

/* "have": a whole number. */
static trivet_status read_have(const trivet__reading *reading, const trivet__node *map,
                               const trivet__thing *within, int32_t *have_out)
{
    const trivet__node *const node = trivet__member(reading, map, "have");
    trivet__thing thing;
    char shown[TRIVET__SHOWN_MAX];
    double have = 0.0;
    trivet__thing_key(&thing, within, "have");
    const trivet_status status =
        node ? trivet__read_value(reading, node, &thing, TRIVET_NUMBER, TRIVET__NOT_NEGATIVE, &have)
             : TRIVET_OK;
    if (status || !node) {
        return status;
    }
    if (have != floor(have) || have > 1e6) {
        trivet__complain(reading, node, &thing, TRIVET_BAD_VALUE);
        trivet__message_problem(reading->message, "\"%s\" is no number of bars",
                                trivet__shown(reading, node, shown));
        trivet__message_remedy(reading->message, "count the bars that are there");
        return TRIVET_BAD_VALUE;
    }
    *have_out = (int32_t)have;
    return TRIVET_OK;
}

/* 6 m, or {length: 6 m, price: 30, have: 2} */
static trivet_status read_bar(const trivet__reading *reading, const trivet__node *node,
                              const trivet__thing *thing, int32_t stock)
{
    trivet_shop_bar bar;
    trivet_status status = trivet_shop_bar_defaults(&bar, sizeof bar);
    bar.stock = stock;
    if (!status && node->kind == TRIVET__SCALAR) {
        status =
            trivet__read_value(reading, node, thing, TRIVET_LENGTH, TRIVET__POSITIVE, &bar.length);
    } else if (!status) {
        status = trivet__check_keys(reading, node, NULL, thing, TRIVET__KEYS_BAR);
        if (!status) {
            status = trivet__read_key(reading, node, thing, "length", TRIVET_LENGTH,
                                      TRIVET__POSITIVE, &bar.length);
        }
        if (!status) {
            status = trivet__read_key(reading, node, thing, "price", TRIVET_NUMBER,
                                      TRIVET__NOT_NEGATIVE, &bar.price);
        }
        if (!status) {
            status = read_have(reading, node, thing, &bar.have);
        }
    }
    if (!status &&
        !trivet__note(reading->document, &reading->document->shop_bars, &bar, sizeof bar)) {
        status = trivet__no_memory(reading->message);
    }
    return status;
}

static trivet_status read_bar_list(const trivet__reading *reading, const trivet__node *list,
                                   const trivet__thing *within, int32_t stock)
{
    trivet_status status = TRIVET_OK;
    const trivet__node *item = trivet__tree_first(reading->tree, list);
    for (int32_t i = 1; item && !status; i++) {
        trivet__thing thing;
        trivet__thing_item(&thing, within, "bar", i);
        status = read_bar(reading, item, &thing, stock);
        item = trivet__tree_next(reading->tree, item);
    }
    return status;
}

static trivet_status read_bars_of(const trivet__reading *reading, const trivet__node *name,
                                  const trivet__node *value, const trivet__thing *within,
                                  int32_t owner)
{
    trivet__thing thing;
    int32_t stock = -1;
    (void)owner;
    trivet__thing_pair(&thing, within, name);
    trivet_status status = trivet__read_thing(reading, name, within, TRIVET_KIND_STOCK, &stock);
    if (!status) {
        status = trivet__need_list(reading, value, &thing, "[6 m]");
    }
    return status ? status : read_bar_list(reading, value, &thing, stock);
}

/* The tubes of a bent piece; *tubes_out lasts as long as the document. */
static trivet_status read_bent_tubes(const trivet__reading *reading, const trivet__node *map,
                                     const trivet__thing *within, int32_t **tubes_out,
                                     int32_t *count_out)
{
    const trivet__node *const list = trivet__member(reading, map, "tubes");
    trivet__thing thing;
    trivet__thing_key(&thing, within, "tubes");
    trivet_status status = trivet__need_list(reading, list, &thing, "[left, top, right]");
    if (status) {
        return status;
    }
    int32_t *const tubes = trivet__room(reading->document, (size_t)list->count, sizeof *tubes);
    *tubes_out = tubes;
    *count_out = list->count;
    if (!tubes) {
        return trivet__no_memory(reading->message);
    }
    const trivet__node *item = trivet__tree_first(reading->tree, list);
    for (int32_t i = 0; item && !status; i++) {
        status = trivet__read_thing(reading, item, &thing, TRIVET_KIND_TUBE, &tubes[i]);
        item = trivet__tree_next(reading->tree, item);
    }
    return status;
}

/* Keeps a bent piece. */
static trivet_status keep_bend(const trivet__reading *reading, const trivet__bend_note *note,
                               trivet_shop_bend *bend)
{
    trivet_document *const document = reading->document;
    bend->name = note->name;
    bend->tubes = note->tubes;
    return trivet__note(document, &document->shop_bends, bend, sizeof *bend)
               ? TRIVET_OK
               : trivet__no_memory(reading->message);
}

static trivet_status read_bent(const trivet__reading *reading, const trivet__node *name,
                               const trivet__node *map, const trivet__thing *within, int32_t owner)
{
    trivet__thing thing;
    trivet_shop_bend bend;
    trivet__bend_note note = {NULL, NULL, {name->line, name->column}};
    const char *text = NULL;
    (void)owner;
    (void)within;
    trivet__thing_named(&thing, "bent piece", name);
    trivet_status status = trivet__read_name(reading, name, &thing, &text);
    if (!status) {
        status = trivet_shop_bend_defaults(&bend, sizeof bend);
    }
    if (!status) {
        status = trivet__check_keys(reading, map, name, &thing, TRIVET__KEYS_BENT);
    }
    if (!status) {
        status = trivet__read_key(reading, map, &thing, "radius", TRIVET_LENGTH, TRIVET__POSITIVE,
                                  &bend.radius);
    }
    if (!status) {
        status = trivet__read_key(reading, map, &thing, "neutral", TRIVET_NUMBER,
                                  TRIVET__NOT_NEGATIVE, &bend.neutral);
    }
    if (!status) {
        status = read_bent_tubes(reading, map, &thing, &note.tubes, &bend.tube_count);
    }
    if (!status) {
        note.name = trivet__keep(reading->document, text);
        status = note.name ? TRIVET_OK : trivet__no_memory(reading->message);
    }
    if (status ||
        !trivet__note(reading->document, &reading->document->bend_notes, &note, sizeof note)) {
        return status ? status : trivet__no_memory(reading->message);
    }
    return keep_bend(reading, &note, &bend);
}

static trivet_status read_numbers(const trivet__reading *reading, const trivet__node *map,
                                  const trivet__thing *thing, trivet_shop *shop)
{
    static const char *const AIMS[] = {"bars", "cost"}; /* as trivet_aim counts */
    trivet_status status = trivet__read_key(reading, map, thing, "kerf", TRIVET_LENGTH,
                                            TRIVET__NOT_NEGATIVE, &shop->kerf);
    if (!status) {
        status = trivet__read_key(reading, map, thing, "gap", TRIVET_LENGTH, TRIVET__NOT_NEGATIVE,
                                  &shop->gap);
    }
    if (!status) {
        status = trivet__read_choice_key(reading, map, thing, "aim", AIMS, 2, &shop->aim);
    }
    if (!status) {
        status = trivet__read_key(reading, map, thing, "wire factor", TRIVET_NUMBER,
                                  TRIVET__POSITIVE, &shop->wire_factor);
    }
    return status ? status
                  : trivet__read_key(reading, map, thing, "electrode factor", TRIVET_NUMBER,
                                     TRIVET__POSITIVE, &shop->stick_factor);
}

static trivet_status read_map(const trivet__reading *reading, const trivet__node *map)
{
    const trivet__thing thing = {.word = "shop"};
    const trivet__node *list = NULL;
    trivet__thing key;
    trivet_status status = trivet__check_keys(reading, map, NULL, &thing, TRIVET__KEYS_SHOP);
    if (!status) {
        status = read_numbers(reading, map, &thing, &reading->document->shop);
    }
    if (!status) {
        status = trivet__read_list_key(reading, map, &thing, "bars", "[6 m]", &key, &list);
    }
    if (!status && list) {
        status = read_bar_list(reading, list, &key, -1);
    }
    if (!status) {
        status = trivet__each_owned_pair(reading, map, &thing, "bars of", 0, read_bars_of);
    }
    return status ? status : trivet__each_owned_pair(reading, map, &thing, "bent", 0, read_bent);
}

/* The place of what a complaint of the library names: a wish, a bent piece, or the section. */
static void locate(const trivet__reading *reading, const trivet__node *map)
{
    const trivet_document *const document = reading->document;
    trivet_message *const message = reading->message;
    char thing[TRIVET_THING_MAX];
    const trivet__place *place = NULL;
    for (size_t i = 0; i < document->shop_ends.count; i++) {
        const trivet_shop_end *const end = TRIVET__AT(document->shop_ends, trivet_shop_end, i);
        trivet__text_print(thing, sizeof thing, "tube %s, cut at %s",
                           trivet_frame_name(reading->frame, TRIVET_KIND_TUBE, end->tube),
                           trivet_frame_name(reading->frame, TRIVET_KIND_JOINT, end->joint));
        place = strcmp(thing, message->thing) == 0
                    ? TRIVET__AT(document->end_places, trivet__place, i)
                    : place;
    }
    for (size_t i = 0; i < document->bend_notes.count; i++) {
        const trivet__bend_note *const note =
            TRIVET__AT(document->bend_notes, trivet__bend_note, i);
        trivet__text_print(thing, sizeof thing, "bent piece %s", note->name);
        place = strcmp(thing, message->thing) == 0 ? &note->place : place;
    }
    if (place) {
        message->line = place->line;
        message->column = place->column;
    } else if (map) {
        message->line = map->line;
        message->column = map->column;
    }
}

trivet_status trivet__read_shop(trivet__reading *reading)
{
    trivet_document *const document = reading->document;
    const trivet__node *map = NULL;
    trivet_status status = trivet_shop_defaults(&document->shop, sizeof document->shop);
    if (!status) {
        status = trivet__read_section(reading, "shop", &map);
    }
    if (!status && map) {
        status = read_map(reading, map);
    }
    if (status || (!map && document->shop_ends.count == 0)) {
        return status;
    }
    trivet_shop *const shop = &document->shop;
    shop->bars = document->shop_bars.list;
    shop->bends = document->shop_bends.list;
    shop->ends = document->shop_ends.list;
    shop->bar_count = (int32_t)document->shop_bars.count;
    shop->bend_count = (int32_t)document->shop_bends.count;
    shop->end_count = (int32_t)document->shop_ends.count;
    trivet_message_clear(reading->message);
    status = trivet_shop_check(reading->frame, shop, reading->message);
    if (status && status != TRIVET_NO_MEMORY) {
        locate(reading, map);
    }
    return status;
}
