/*
 * Values that take the place of what a file says: one variant of it.
 */
#ifndef TRIVET_DOCUMENT_OVERRIDES_H
#define TRIVET_DOCUMENT_OVERRIDES_H

#include "document/tree.h"
#include "trivet/stock.h"

/* What money and the shop say of stock. */
typedef struct trivet__stock_note {
    double price; /* for a metre, in whatever money; NaN: not said */
    double have;  /* m in the shop; NaN: not said */
} trivet__stock_note;

/* Stock that may stand in the place of another: from a catalogue, or by its place in the file. */
typedef struct trivet__stock_choice {
    char name[TRIVET_NAME_MAX];
    const trivet__node *node; /* its map in the file itself; NULL: the values below */
    trivet_profile profile;
    trivet_material material;
    trivet__stock_note note;
} trivet__stock_choice;

typedef struct trivet__let_override {
    const char *name;
    trivet_quantity quantity;
} trivet__let_override;

typedef struct trivet__stock_override {
    const char *name;
    const trivet__stock_choice *choice;
} trivet__stock_override;

/* Multiplies the masses of a cargo, or the loads of a case. */
typedef struct trivet__factor_override {
    const char *name;
    double factor;
} trivet__factor_override;

typedef struct trivet__overrides {
    int32_t let_count;
    int32_t stock_count;
    int32_t cargo_count;
    int32_t case_count;
    const trivet__let_override *lets;
    const trivet__stock_override *stocks;
    const trivet__factor_override *cargos;
    const trivet__factor_override *cases;
} trivet__overrides;

/* NULL or 1 where nothing is overridden; overrides may be NULL. */
const trivet_quantity *trivet__override_let(const trivet__overrides *overrides, const char *name);
const trivet__stock_choice *trivet__override_stock(const trivet__overrides *overrides,
                                                   const char *name);
double trivet__override_cargo(const trivet__overrides *overrides, const char *name);
double trivet__override_case(const trivet__overrides *overrides, const char *name);

#endif
