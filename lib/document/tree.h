/*
 * The file as a tree of nodes, each with its line and column: what stands between the parser of
 * YAML and everything that gives the text a meaning. One array of nodes, one run of bytes.
 */
#ifndef TRIVET_DOCUMENT_TREE_H
#define TRIVET_DOCUMENT_TREE_H

#include "trivet/base.h"

#include <stddef.h>
#include <stdint.h>

enum {
    TRIVET__TEXT_MAX = 16 * 1024 * 1024, /* bytes of a file */
    TRIVET__DEPTH_MAX = 32,              /* lists and maps inside each other */
    TRIVET__NODES_MAX = 2000000          /* values in a file */
};

typedef enum trivet__node_kind {
    TRIVET__SCALAR = 1,
    TRIVET__LIST = 2,
    TRIVET__MAP = 3
} trivet__node_kind;

/* Children are linked by next; those of a map are key, value, key, value ... -1 ends the chain. */
typedef struct trivet__node {
    int32_t kind;
    int32_t line;        /* from 1 */
    int32_t column;      /* from 1, in characters; of a quoted text the first inside the quotes */
    int32_t is_straight; /* the text stands in the file as it is: columns inside it can be told */
    int32_t is_plain;    /* no quotes, no block */
    int32_t is_key;
    int32_t count; /* items of a list, pairs of a map */
    int32_t first;
    int32_t last;
    int32_t next;
    size_t text; /* where its zero-ended text begins */
    size_t length;
} trivet__node;

typedef struct trivet__tree {
    trivet__node *nodes;
    size_t count;
    size_t capacity;
    char *text;
    size_t text_length;
    size_t text_capacity;
} trivet__tree;

void trivet__tree_clear(trivet__tree *tree);

/* Adds a node as the last child of parent (-1: the root). Returns its number, or -1: no memory. */
int32_t trivet__tree_add(trivet__tree *tree, int32_t parent, int32_t kind);

/* Gives a node its text. Returns 0 if there is no memory. */
int trivet__tree_set_text(trivet__tree *tree, int32_t node, const char *text, size_t length);

/* NULL for an empty tree. */
const trivet__node *trivet__tree_root(const trivet__tree *tree);
const trivet__node *trivet__tree_first(const trivet__tree *tree, const trivet__node *node);
const trivet__node *trivet__tree_next(const trivet__tree *tree, const trivet__node *node);

/* "name: value" of a map; both NULL behind the last. */
typedef struct trivet__pair {
    const trivet__node *name;
    const trivet__node *value;
} trivet__pair;

/* For the pairs of a map in turn; there are none in NULL. */
trivet__pair trivet__tree_first_pair(const trivet__tree *tree, const trivet__node *map);
trivet__pair trivet__tree_next_pair(const trivet__tree *tree, trivet__pair pair);

/* The text of a scalar, "" for anything else. */
const char *trivet__tree_text(const trivet__tree *tree, const trivet__node *node);

enum { TRIVET__SHOWN_MAX = 64 };

/* The text of a node fit for a message: one line, cut if long. Returns shown. */
const char *trivet__tree_show(const trivet__tree *tree, const trivet__node *node,
                              char shown[TRIVET__SHOWN_MAX]);

/* The value of a key in a map; NULL if it is not there or node is no map. */
const trivet__node *trivet__tree_value(const trivet__tree *tree, const trivet__node *node,
                                       const char *key);

/* Whether nothing is written there: an empty value, ~ or null. */
int trivet__tree_is_nothing(const trivet__tree *tree, const trivet__node *node);

/*
 * Refuses a map in which a key stands twice, naming both lines.
 */
trivet_status trivet__tree_check_twice(const trivet__tree *tree, int32_t map,
                                       trivet_message *message);

#endif
