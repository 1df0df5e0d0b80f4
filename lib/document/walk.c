/*
 * Walks over what stands under a key: sections of the file, maps and lists inside them.
 */
#include "document/reading.h"

#include <assert.h>

trivet_status trivet__each_pair(const trivet__reading *reading, const trivet__node *map,
                                trivet__pair_reader *read)
{
    trivet_status status = TRIVET_OK;
    trivet__pair pair = trivet__tree_first_pair(reading->tree, map);
    for (; pair.name && !status; pair = trivet__tree_next_pair(reading->tree, pair)) {
        status = read(reading, pair.name, pair.value);
    }
    return status;
}

/* What stands under a key, and its place in words; NULL where nothing stands. */
static const trivet__node *find_something(const trivet__reading *reading, const trivet__node *map,
                                          const trivet__thing *within, const char *key,
                                          trivet__thing *thing_out)
{
    const trivet__node *const node = trivet__member(reading, map, key);
    trivet__thing_key(thing_out, within, key);
    return node && !trivet__tree_is_nothing(reading->tree, node) ? node : NULL;
}

trivet_status trivet__read_map_key(const trivet__reading *reading, const trivet__node *map,
                                   const trivet__thing *within, const char *key,
                                   trivet__thing *thing_out, const trivet__node **map_out)
{
    *map_out = find_something(reading, map, within, key, thing_out);
    return *map_out ? trivet__need_map(reading, *map_out, thing_out) : TRIVET_OK;
}

trivet_status trivet__read_list_key(const trivet__reading *reading, const trivet__node *map,
                                    const trivet__thing *within, const char *key,
                                    const char *sample, trivet__thing *thing_out,
                                    const trivet__node **list_out)
{
    *list_out = find_something(reading, map, within, key, thing_out);
    return *list_out ? trivet__need_list(reading, *list_out, thing_out, sample) : TRIVET_OK;
}

trivet_status trivet__each_owned_pair(const trivet__reading *reading, const trivet__node *map,
                                      const trivet__thing *within, const char *key, int32_t owner,
                                      trivet__owned_pair_reader *read)
{
    trivet__thing thing;
    const trivet__node *node = NULL;
    trivet_status status = trivet__read_map_key(reading, map, within, key, &thing, &node);
    trivet__pair pair = trivet__tree_first_pair(reading->tree, node);
    for (; pair.name && !status; pair = trivet__tree_next_pair(reading->tree, pair)) {
        status = read(reading, pair.name, pair.value, &thing, owner);
    }
    return status;
}

trivet_status trivet__read_section(const trivet__reading *reading, const char *key,
                                   const trivet__node **section_out)
{
    int32_t count = 0;
    const trivet__thing nowhere = {.word = ""};
    const trivet__key *const keys = trivet__keys_of(TRIVET__KEYS_TOP, &count);
    const trivet__key *const about = trivet__key_find(keys, count, key);
    const trivet__node *const node = trivet__member(reading, reading->root, key);
    trivet__thing thing;
    assert(about && (node || about->use != TRIVET__NEEDED));
    const trivet_status status =
        trivet__read_map_key(reading, reading->root, &nowhere, key, &thing, section_out);
    const trivet__node *const section = *section_out;
    const int is_empty = !section || (section->kind != TRIVET__SCALAR && section->first < 0);
    if (about->use != TRIVET__NEEDED || !is_empty) {
        return status;
    }
    trivet__complain(reading, node, &thing, TRIVET_INCOMPLETE);
    trivet__message_problem(reading->message, "there is nothing in it");
    trivet__message_remedy(reading->message, "add at least one, such as %s: %s", key,
                           about->sample);
    return TRIVET_INCOMPLETE;
}

trivet_status trivet__each_in_section(const trivet__reading *reading, const char *key,
                                      trivet__pair_reader *read)
{
    const trivet__node *section = NULL;
    const trivet_status status = trivet__read_section(reading, key, &section);
    return status ? status : trivet__each_pair(reading, section, read);
}
