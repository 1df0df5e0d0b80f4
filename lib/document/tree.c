/*
 * The tree of nodes. Keys that stand twice are found with an open hash table (FNV-1a, linear
 * probing), so that a long map costs no more than its length.
 */
#include "document/tree.h"

#include "base/memory.h"
#include "base/message.h"
#include "base/text.h"

#include <assert.h>
#include <string.h>

void trivet__tree_clear(trivet__tree *tree)
{
    trivet__give_back(tree->nodes);
    trivet__give_back(tree->text);
    memset(tree, 0, sizeof *tree);
}

int32_t trivet__tree_add(trivet__tree *tree, int32_t parent, int32_t kind)
{
    assert(tree->count < INT32_MAX);
    void *nodes = tree->nodes;
    if (!trivet__make_room(&nodes, tree->count, &tree->capacity, sizeof *tree->nodes)) {
        return -1;
    }
    tree->nodes = nodes;
    const int32_t added = (int32_t)tree->count;
    trivet__node *const node = &tree->nodes[added];
    memset(node, 0, sizeof *node);
    node->kind = kind;
    node->first = -1;
    node->last = -1;
    node->next = -1;
    tree->count++;
    if (parent >= 0) {
        trivet__node *const above = &tree->nodes[parent];
        if (above->last >= 0) {
            tree->nodes[above->last].next = added;
        } else {
            above->first = added;
        }
        above->last = added;
    }
    return added;
}

int trivet__tree_set_text(trivet__tree *tree, int32_t node, const char *text, size_t length)
{
    const size_t needed = tree->text_length + length + 1;
    if (needed > tree->text_capacity) {
        const size_t wider = 2 * needed + 64;
        char *const moved = trivet__retake(tree->text, wider, 1);
        if (!moved) {
            return 0;
        }
        tree->text = moved;
        tree->text_capacity = wider;
    }
    if (length > 0) {
        memcpy(tree->text + tree->text_length, text, length);
    }
    tree->text[needed - 1] = '\0';
    tree->nodes[node].text = tree->text_length;
    tree->nodes[node].length = length;
    tree->text_length = needed;
    return 1;
}

const trivet__node *trivet__tree_root(const trivet__tree *tree)
{
    return tree->count > 0 ? &tree->nodes[0] : NULL;
}

const trivet__node *trivet__tree_first(const trivet__tree *tree, const trivet__node *node)
{
    return node && node->first >= 0 ? &tree->nodes[node->first] : NULL;
}

const trivet__node *trivet__tree_next(const trivet__tree *tree, const trivet__node *node)
{
    return node && node->next >= 0 ? &tree->nodes[node->next] : NULL;
}

static trivet__pair pair_at(const trivet__tree *tree, const trivet__node *name)
{
    return (trivet__pair){name, trivet__tree_next(tree, name)};
}

trivet__pair trivet__tree_first_pair(const trivet__tree *tree, const trivet__node *map)
{
    return pair_at(tree, trivet__tree_first(tree, map));
}

trivet__pair trivet__tree_next_pair(const trivet__tree *tree, trivet__pair pair)
{
    return pair_at(tree, trivet__tree_next(tree, pair.value));
}

const char *trivet__tree_text(const trivet__tree *tree, const trivet__node *node)
{
    return node && node->kind == TRIVET__SCALAR ? tree->text + node->text : "";
}

const trivet__node *trivet__tree_value(const trivet__tree *tree, const trivet__node *node,
                                       const char *key)
{
    if (!node || node->kind != TRIVET__MAP) {
        return NULL;
    }
    trivet__pair pair = trivet__tree_first_pair(tree, node);
    while (pair.name && strcmp(trivet__tree_text(tree, pair.name), key) != 0) {
        pair = trivet__tree_next_pair(tree, pair);
    }
    return pair.value;
}

int trivet__tree_is_nothing(const trivet__tree *tree, const trivet__node *node)
{
    if (!node || node->kind != TRIVET__SCALAR || !node->is_plain) {
        return 0;
    }
    const char *const text = trivet__tree_text(tree, node);
    return text[0] == '\0' || strcmp(text, "~") == 0 || strcmp(text, "null") == 0;
}

const char *trivet__tree_show(const trivet__tree *tree, const trivet__node *node,
                              char shown[TRIVET__SHOWN_MAX])
{
    enum { CUT = 40 };
    const char *const text = trivet__tree_text(tree, node);
    char start[CUT + 1];
    trivet__text_copy(start, sizeof start, text);
    for (char *at = start; *at; at++) {
        if ((unsigned char)*at < 0x20U || *at == 0x7F) {
            *at = ' ';
        }
    }
    trivet__text_print(shown, TRIVET__SHOWN_MAX, "%s%s", start,
                       strlen(text) > strlen(start) ? "..." : "");
    return shown;
}

/* FNV-1a, 64 bits (Fowler, Noll, Vo). */
static uint64_t hash_text(const char *text)
{
    uint64_t hash = UINT64_C(14695981039346656037);
    for (const char *at = text; *at; at++) {
        hash ^= (unsigned char)*at;
        hash *= UINT64_C(1099511628211);
    }
    return hash;
}

static trivet_status refuse_twice(const trivet__tree *tree, const trivet__node *first,
                                  const trivet__node *second, trivet_message *message)
{
    const trivet_status status = trivet__refuse(message, TRIVET_BAD_KEY, "", "", "");
    if (message) {
        message->line = second->line;
        message->column = second->column;
    }
    char shown[TRIVET__SHOWN_MAX];
    trivet__message_thing(message, "the file");
    trivet__message_problem(message, "the key \"%s\" stands twice here, first in line %d",
                            trivet__tree_show(tree, second, shown), (int)first->line);
    trivet__message_remedy(message, "rename one of them or take it out");
    return status;
}

trivet_status trivet__tree_check_twice(const trivet__tree *tree, int32_t map,
                                       trivet_message *message)
{
    const trivet__node *const node = &tree->nodes[map];
    size_t room = 16;
    while (room < 2 * (size_t)node->count) {
        room *= 2;
    }
    int32_t *const table = trivet__take(room, sizeof *table); /* 0 is empty, else node + 1 */
    if (!table) {
        return trivet__no_memory(message);
    }
    trivet_status status = TRIVET_OK;
    const trivet__node *key = trivet__tree_first(tree, node);
    while (key && !status) {
        const char *const text = trivet__tree_text(tree, key);
        size_t slot = (size_t)hash_text(text) & (room - 1);
        while (table[slot] && !status) {
            const trivet__node *const other = &tree->nodes[table[slot] - 1];
            if (strcmp(trivet__tree_text(tree, other), text) == 0) {
                status = refuse_twice(tree, other, key, message);
            }
            slot = (slot + 1) & (room - 1);
        }
        table[slot] = (int32_t)(key - tree->nodes) + 1;
        key = trivet__tree_next(tree, trivet__tree_next(tree, key));
    }
    trivet__give_back(table);
    return status;
}
