/*
 * A reading in progress: the tree, what bare numbers mean, the document that is being made, and
 * the questions that all sections ask of a node. Every call that can refuse fills the message with
 * line, column and `thing`, the place in the words of the file: "tube left rail, roll".
 */
#ifndef TRIVET_DOCUMENT_READING_H
#define TRIVET_DOCUMENT_READING_H

#include "base/message.h"
#include "base/text.h"
#include "document/compiled.h"
#include "document/keys.h"
#include "document/overrides.h"
#include "document/record.h"
#include "document/tree.h"

typedef struct trivet__reading {
    trivet_document *document;
    trivet_frame *frame; /* the document's, still being filled */
    const trivet__tree *tree;
    const trivet__node *root;
    trivet_message *message;            /* never NULL */
    double length;                      /* m in a bare number where a length is needed */
    double mass;                        /* kg */
    double force;                       /* N */
    const trivet__overrides *overrides; /* values of a variant, or NULL */
    const trivet__compiled *compiled;   /* of an earlier reading of the tree, or NULL */
    trivet__compiled *compiling;        /* to be filled, or NULL */
    unsigned char *met;                 /* [joint count] whether a tube passes through the joint */
} trivet__reading;

/*
 * A place in words: "tube left rail", and with a key "tube left rail, roll". It is put into words
 * only for a complaint; until then what it points to must stay.
 */
typedef struct trivet__thing {
    const char *word;                   /* "tube", or a key; NULL: none */
    const struct trivet__thing *within; /* stands before it with a comma; NULL: nothing */
    const char *name;                   /* behind the word; NULL: none */
    const trivet__node *node;           /* the same as it stands in the file; NULL: none */
    int32_t number;                     /* behind the word; 0: none */
} trivet__thing;

void trivet__thing_set(trivet__thing *thing, const char *kind, const char *name);
void trivet__thing_key(trivet__thing *thing_out, const trivet__thing *within, const char *key);
/* The same where the name or key stands in the file. */
void trivet__thing_named(trivet__thing *thing, const char *kind, const trivet__node *name);
void trivet__thing_pair(trivet__thing *thing_out, const trivet__thing *within,
                        const trivet__node *name);
void trivet__thing_item(trivet__thing *thing_out, const trivet__thing *within, const char *what,
                        int32_t number);

/* Writes the words into the message. */
void trivet__tell_thing(const trivet__reading *reading, const trivet__thing *thing);

/*
 * Begins a complaint at a node: clears the message, sets status, place and thing. The caller adds
 * problem and remedy with trivet__message_problem and trivet__message_remedy. Returns status.
 */
trivet_status trivet__complain(const trivet__reading *reading, const trivet__node *node,
                               const trivet__thing *thing, trivet_status status);

/* The same with problem and remedy as plain texts. */
trivet_status trivet__refuse_node(const trivet__reading *reading, const trivet__node *node,
                                  const trivet__thing *thing, trivet_status status,
                                  const char *problem, const char *remedy);

/* Gives a complaint from below the place of a node, if it has none. Returns status. */
trivet_status trivet__locate(const trivet__reading *reading, const trivet__node *node,
                             trivet_status status);

/* The text of a node fit for a message: one line, cut if long. */
const char *trivet__shown(const trivet__reading *reading, const trivet__node *node,
                          char shown[TRIVET__SHOWN_MAX]);

/* Adds "thing, key" to what this version does not use. */
trivet_status trivet__add_unused(const trivet__reading *reading, const trivet__thing *thing,
                                 const char *key);

/* Remembers where thing number `count of places so far` of a kind stands. */
trivet_status trivet__add_place(const trivet__reading *reading, int32_t kind,
                                const trivet__node *node);

/* Remembers a load, to be shown. */
trivet_status trivet__add_load(const trivet__reading *reading, const trivet__load_note *load);

/* Refuses what is not a map with the keys of a place. An empty value passes as an empty map. */
trivet_status trivet__check_keys(const trivet__reading *reading, const trivet__node *node,
                                 const trivet__node *name, const trivet__thing *thing,
                                 trivet__key_place place);

/* The value of a key, NULL if it is not there. */
const trivet__node *trivet__member(const trivet__reading *reading, const trivet__node *node,
                                   const char *key);

/* Refuses what is not a map (a list); words: "a group of keys" is said for them. */
trivet_status trivet__need_map(const trivet__reading *reading, const trivet__node *node,
                               const trivet__thing *thing);
trivet_status trivet__need_list(const trivet__reading *reading, const trivet__node *node,
                                const trivet__thing *thing, const char *sample);
trivet_status trivet__need_scalar(const trivet__reading *reading, const trivet__node *node,
                                  const trivet__thing *thing);

/* Reads one "name: value" of a map. */
typedef trivet_status trivet__pair_reader(const trivet__reading *reading, const trivet__node *name,
                                          const trivet__node *value);

/* Each pair of a map in turn, until one is refused. */
trivet_status trivet__each_pair(const trivet__reading *reading, const trivet__node *map,
                                trivet__pair_reader *read);

/* The same for pairs that belong to thing number owner. */
typedef trivet_status trivet__owned_pair_reader(const trivet__reading *reading,
                                                const trivet__node *name, const trivet__node *value,
                                                const trivet__thing *within, int32_t owner);

/* Each pair of the map under a key, if that is there and holds something. */
trivet_status trivet__each_owned_pair(const trivet__reading *reading, const trivet__node *map,
                                      const trivet__thing *within, const char *key, int32_t owner,
                                      trivet__owned_pair_reader *read);

/*
 * The map or list under a key, and its place in words; NULL if it is not there or nothing stands
 * there. Anything else is refused.
 */
trivet_status trivet__read_map_key(const trivet__reading *reading, const trivet__node *map,
                                   const trivet__thing *within, const char *key,
                                   trivet__thing *thing_out, const trivet__node **map_out);
trivet_status trivet__read_list_key(const trivet__reading *reading, const trivet__node *map,
                                    const trivet__thing *within, const char *key,
                                    const char *sample, trivet__thing *thing_out,
                                    const trivet__node **list_out);

/* The name that was meant, if it can be told: of one or two letters every other is near. */
const char *trivet__meant(const trivet__nearest *search);

/*
 * A section of the file, a map. One that every file needs has something in it; any other is NULL
 * if it is not there or nothing stands there.
 */
trivet_status trivet__read_section(const trivet__reading *reading, const char *key,
                                   const trivet__node **section_out);

/* Each pair of a section in turn. */
trivet_status trivet__each_in_section(const trivet__reading *reading, const char *key,
                                      trivet__pair_reader *read);

/* A name: 1 to TRIVET_NAME_MAX - 1 bytes in one line. Owned by the tree. */
trivet_status trivet__read_name(const trivet__reading *reading, const trivet__node *node,
                                const trivet__thing *thing, const char **name_out);

/* One of count words; *choice_out is its number. */
trivet_status trivet__read_choice(const trivet__reading *reading, const trivet__node *node,
                                  const trivet__thing *thing, const char *const *words,
                                  int32_t count, int32_t *choice_out);

/* The same for a key of a map; *choice_out is left alone if the key is not there. */
trivet_status trivet__read_choice_key(const trivet__reading *reading, const trivet__node *map,
                                      const trivet__thing *within, const char *key,
                                      const char *const *words, int32_t count, int32_t *choice_out);

/* The number of a thing of a kind that a node names. */
trivet_status trivet__read_thing(const trivet__reading *reading, const trivet__node *node,
                                 const trivet__thing *thing, int32_t kind, int32_t *index_out);

/* The same for a key that a map needs. */
trivet_status trivet__read_thing_key(const trivet__reading *reading, const trivet__node *map,
                                     const trivet__thing *within, const char *key, int32_t kind,
                                     int32_t *index_out);

/* A list of joints, none twice; *joints_out lasts as long as the document. */
trivet_status trivet__read_joints(const trivet__reading *reading, const trivet__node *node,
                                  const trivet__thing *thing, int32_t **joints_out,
                                  int32_t *count_out);

/* A list of directions x y z rx ry rz as bits, or one of them alone. */
trivet_status trivet__read_directions(const trivet__reading *reading, const trivet__node *node,
                                      const trivet__thing *thing, uint32_t *bits_out);

/* What a number may be. */
typedef enum trivet__range {
    TRIVET__ANY = 0,
    TRIVET__NOT_NEGATIVE = 1,
    TRIVET__POSITIVE = 2
} trivet__range;

/* A quantity as written: expression, names of `let`, gauges. */
trivet_status trivet__read_quantity(const trivet__reading *reading, const trivet__node *node,
                                    const trivet__thing *thing, trivet_quantity *quantity_out);

/* A number of a dimension in SI; bare numbers as the file's units say. */
trivet_status trivet__read_value(const trivet__reading *reading, const trivet__node *node,
                                 const trivet__thing *thing, trivet_dimension dimension,
                                 trivet__range range, double *value_out);

/* The same for a key of a map; *value_out is left alone if the key is not there. */
trivet_status trivet__read_key(const trivet__reading *reading, const trivet__node *map,
                               const trivet__thing *thing, const char *key,
                               trivet_dimension dimension, trivet__range range, double *value_out);

/* A list of count numbers of a dimension. */
trivet_status trivet__read_row(const trivet__reading *reading, const trivet__node *node,
                               const trivet__thing *thing, trivet_dimension dimension,
                               trivet__range range, int32_t count, double *values_out);
trivet_status trivet__read_row_key(const trivet__reading *reading, const trivet__node *map,
                                   const trivet__thing *thing, const char *key,
                                   trivet_dimension dimension, trivet__range range, int32_t count,
                                   double *values_out);

/* A place along a tube: a length, or a share of the tube's length such as 40 %. */
trivet_status trivet__read_along(const trivet__reading *reading, const trivet__node *map,
                                 const trivet__thing *thing, const char *key, int32_t tube,
                                 double *along_out);

/* Turns a quantity into a number of a dimension, or complains about it. */
trivet_status trivet__fit_quantity(const trivet__reading *reading, const trivet__node *node,
                                   const trivet__thing *thing, const trivet_quantity *quantity,
                                   trivet_dimension dimension, double *value_out);

/* Sections of the file, in the order in which they are read. */
trivet_status trivet__read_head(trivet__reading *reading);
trivet_status trivet__read_units(trivet__reading *reading);
trivet_status trivet__read_let(trivet__reading *reading);
trivet_status trivet__read_stock(trivet__reading *reading);
trivet_status trivet__read_joint_section(trivet__reading *reading);
trivet_status trivet__read_tubes(trivet__reading *reading);
trivet_status trivet__read_mounts(trivet__reading *reading);
trivet_status trivet__read_welds(trivet__reading *reading);
trivet_status trivet__read_decks(trivet__reading *reading);
trivet_status trivet__read_cargo(trivet__reading *reading);
trivet_status trivet__read_cases(trivet__reading *reading);
trivet_status trivet__read_combinations(trivet__reading *reading);
trivet_status trivet__read_vehicle(trivet__reading *reading);
trivet_status trivet__read_usage(trivet__reading *reading);
trivet_status trivet__read_measured(trivet__reading *reading);
trivet_status trivet__read_shop(trivet__reading *reading);
trivet_status trivet__read_cycles(trivet__reading *reading);
trivet_status trivet__read_limits(trivet__reading *reading);
trivet_status trivet__read_expect(trivet__reading *reading);

/* What bolts hold: mount, end of a tube or deck, at a joint; stock -1: of the first tube there. */
typedef struct trivet__bolted {
    int32_t kind; /* a trivet_kind */
    int32_t index;
    int32_t joint;
    int32_t stock;
} trivet__bolted;

/* A set of bolts: the map under "bolts" or "screws". */
trivet_status trivet__read_bolts(const trivet__reading *reading, const trivet__node *name,
                                 const trivet__node *map, const trivet__thing *thing,
                                 const trivet__bolted *where);

/* How a deck's plate is cut: "outline", "edge", "slots". Its screws must be there. */
trivet_status trivet__read_plate(const trivet__reading *reading, const trivet__node *map,
                                 const trivet__thing *thing, int32_t deck);

/* What stands under "weld" for an end of a tube, or with joint -1 for both. */
trivet_status trivet__read_weld_key(const trivet__reading *reading, const trivet__node *map,
                                    const trivet__thing *within, int32_t tube, int32_t joint);

/* How the end of a tube is to be cut: a word; thing is its place. */
trivet_status trivet__read_cut(const trivet__reading *reading, const trivet__node *value,
                               const trivet__thing *thing, int32_t tube, int32_t joint);

/* What stands under "axes", rows x, y, z; left alone if the key is not there. */
trivet_status trivet__read_axes(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *within, double rows[9]);

/* Stock under a name: shape, sizes, material, price. choice->node is left alone. */
trivet_status trivet__read_stock_choice(const trivet__reading *reading, const trivet__node *name,
                                        const trivet__node *map, trivet__stock_choice *choice);

/* Multiplies what loads a case by the factor that a variant gives it. */
void trivet__scale_case(const trivet__reading *reading, int32_t in_case, double *values,
                        int32_t count);

/* What stands under "material": a name, or a map of values. */
trivet_status trivet__read_material(const trivet__reading *reading, const trivet__node *map,
                                    const trivet__thing *within, trivet_material *material);

/* Forces of one case: what stands under "forces" and "tube forces" in its map. */
trivet_status trivet__read_forces(const trivet__reading *reading, const trivet__node *map,
                                  const trivet__thing *within, int32_t in_case);
trivet_status trivet__read_tube_forces(const trivet__reading *reading, const trivet__node *map,
                                       const trivet__thing *within, int32_t in_case);

/* The value of a let, for expressions; NULL if there is no such name. */
trivet__let *trivet__find_let(const trivet_document *document, const char *name, size_t length);

/* Refuses an expression that is too long to be meant. */
trivet_status trivet__expression_check(const trivet__reading *reading, const trivet__node *node,
                                       const trivet__thing *thing);

/* trivet__quantity_parse with the names of `let` and with gauges. */
trivet_status trivet__expression_read(const trivet__reading *reading, const char *text,
                                      size_t length, trivet__pool *pool,
                                      trivet__program *program_out, trivet_quantity *quantity_out);

/* Runs a program with the values of `let`; a complaint has no line yet. */
trivet_status trivet__expression_run(const trivet__reading *reading, const trivet__program *program,
                                     trivet_quantity *quantity_out);

#endif
