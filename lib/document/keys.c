/*
 * The tables of keys. Each `NAME_keys` has its twin `NAME` in the definitions of
 * trivet.schema.json.
 */
#include "document/keys.h"

#include <stddef.h>
#include <string.h>

static const trivet__key top_keys[] = {
    {"trivet", TRIVET__NEEDED, "1"},
    {"name", TRIVET__MAY, NULL},
    {"units", TRIVET__MAY, NULL},
    {"let", TRIVET__MAY, NULL},
    {"stock", TRIVET__NEEDED,
     "{rail: {shape: square tube, width: 20 mm, wall: 2 mm, material: E235}}"},
    {"joints", TRIVET__NEEDED, "{A: [0, 0, 0], B: [300 mm, 0, 0]}"},
    {"tubes", TRIVET__NEEDED, "{arm: {through: [A, B], stock: rail}}"},
    {"mounts", TRIVET__NEEDED, "{A: {hold: all}}"},
    {"cargo", TRIVET__MAY, NULL},
    {"cases", TRIVET__MAY, NULL},
    {"combine", TRIVET__MAY, NULL},
    {"limits", TRIVET__MAY, NULL},
    {"expect", TRIVET__MAY, NULL},
    {"weld", TRIVET__MAY, NULL},
    {"decks", TRIVET__MAY, NULL},
    {"cycles", TRIVET__MAY, NULL},
    {"vehicle", TRIVET__MAY, NULL},
    {"rides", TRIVET__LATER, NULL},
    {"usage", TRIVET__MAY, NULL},
    {"vary", TRIVET__MAY, NULL},
    {"measured", TRIVET__MAY, NULL},
    {"shop", TRIVET__MAY, NULL},
};

static const trivet__key units_keys[] = {
    {"length", TRIVET__MAY, NULL},
    {"mass", TRIVET__MAY, NULL},
    {"force", TRIVET__MAY, NULL},
};

static const trivet__key square_tube_keys[] = {
    {"shape", TRIVET__NEEDED, "square tube"},
    {"width", TRIVET__NEEDED, "20 mm"},
    {"wall", TRIVET__NEEDED, "2 mm"},
    {"corner", TRIVET__MAY, NULL},
    {"material", TRIVET__NEEDED, "E235"},
    {"price", TRIVET__MAY, NULL},
    {"have", TRIVET__MAY, NULL},
};

static const trivet__key rectangular_tube_keys[] = {
    {"shape", TRIVET__NEEDED, "rectangular tube"},
    {"height", TRIVET__NEEDED, "30 mm"},
    {"width", TRIVET__NEEDED, "20 mm"},
    {"wall", TRIVET__NEEDED, "2 mm"},
    {"corner", TRIVET__MAY, NULL},
    {"material", TRIVET__NEEDED, "E235"},
    {"price", TRIVET__MAY, NULL},
    {"have", TRIVET__MAY, NULL},
};

static const trivet__key round_tube_keys[] = {
    {"shape", TRIVET__NEEDED, "round tube"},
    {"diameter", TRIVET__NEEDED, "3/4 in"},
    {"wall", TRIVET__NEEDED, "16 ga BWG"},
    {"material", TRIVET__NEEDED, "E235"},
    {"price", TRIVET__MAY, NULL},
    {"have", TRIVET__MAY, NULL},
};

static const trivet__key square_bar_keys[] = {
    {"shape", TRIVET__NEEDED, "square bar"},
    {"width", TRIVET__NEEDED, "15 mm"},
    {"material", TRIVET__NEEDED, "S235"},
    {"price", TRIVET__MAY, NULL},
    {"have", TRIVET__MAY, NULL},
};

static const trivet__key flat_bar_keys[] = {
    {"shape", TRIVET__NEEDED, "flat bar"}, {"height", TRIVET__NEEDED, "30 mm"},
    {"width", TRIVET__NEEDED, "5 mm"},     {"material", TRIVET__NEEDED, "S235"},
    {"price", TRIVET__MAY, NULL},          {"have", TRIVET__MAY, NULL},
};

static const trivet__key round_bar_keys[] = {
    {"shape", TRIVET__NEEDED, "round bar"},
    {"diameter", TRIVET__NEEDED, "12 mm"},
    {"material", TRIVET__NEEDED, "S235"},
    {"price", TRIVET__MAY, NULL},
    {"have", TRIVET__MAY, NULL},
};

static const trivet__key angle_keys[] = {
    {"shape", TRIVET__NEEDED, "angle"}, {"legs", TRIVET__NEEDED, "[30 mm, 20 mm]"},
    {"wall", TRIVET__NEEDED, "3 mm"},   {"material", TRIVET__NEEDED, "S235"},
    {"price", TRIVET__MAY, NULL},       {"have", TRIVET__MAY, NULL},
};

static const trivet__key channel_keys[] = {
    {"shape", TRIVET__NEEDED, "channel"}, {"height", TRIVET__NEEDED, "60 mm"},
    {"width", TRIVET__NEEDED, "30 mm"},   {"wall", TRIVET__NEEDED, "4 mm"},
    {"flange", TRIVET__NEEDED, "6 mm"},   {"material", TRIVET__NEEDED, "S235"},
    {"price", TRIVET__MAY, NULL},         {"have", TRIVET__MAY, NULL},
};

static const trivet__key values_keys[] = {
    {"shape", TRIVET__NEEDED, "values"},
    {"area", TRIVET__NEEDED, "140 mm^2"},
    {"shear areas", TRIVET__MAY, NULL},
    {"second moments", TRIVET__NEEDED, "[7300 mm^4, 7300 mm^4]"},
    {"torsion constant", TRIVET__NEEDED, "12000 mm^4"},
    {"section moduli", TRIVET__MAY, NULL},
    {"torsion modulus", TRIVET__MAY, NULL},
    {"mass per length", TRIVET__MAY, NULL},
    {"material", TRIVET__NEEDED, "S235"},
    {"price", TRIVET__MAY, NULL},
    {"have", TRIVET__MAY, NULL},
};

static const trivet__key material_keys[] = {
    {"E", TRIVET__NEEDED, "210 GPa"},
    {"G", TRIVET__NEEDED, "81 GPa"},
    {"density", TRIVET__NEEDED, "7850 kg/m^3"},
    {"yield", TRIVET__MAY, NULL},
    {"tensile", TRIVET__MAY, NULL},
    {"expansion", TRIVET__MAY, NULL},
};

static const trivet__key tube_keys[] = {
    {"through", TRIVET__NEEDED, "[A, B]"}, {"stock", TRIVET__NEEDED, "rail"},
    {"roll", TRIVET__MAY, NULL},           {"ends", TRIVET__MAY, NULL},
    {"offset", TRIVET__MAY, NULL},         {"inserts", TRIVET__MAY, NULL},
    {"weld", TRIVET__MAY, NULL},           {"cut", TRIVET__MAY, NULL},
};

static const trivet__key end_keys[] = {
    {"free", TRIVET__MAY, NULL},
    {"weld", TRIVET__MAY, NULL},
    {"bolts", TRIVET__MAY, NULL},
};

static const trivet__key insert_keys[] = {
    {"at", TRIVET__NEEDED, "A"},
    {"length", TRIVET__NEEDED, "40 mm"},
    {"stock", TRIVET__NEEDED, "plug"},
    {"bond", TRIVET__MAY, NULL},
};

static const trivet__key mount_keys[] = {
    {"hold", TRIVET__MAY, NULL}, {"spring", TRIVET__MAY, NULL}, {"axes", TRIVET__MAY, NULL},
    {"give", TRIVET__MAY, NULL}, {"bolts", TRIVET__MAY, NULL},  {"limit", TRIVET__MAY, NULL},
};

static const trivet__key directions_keys[] = {
    {"x", TRIVET__MAY, NULL},  {"y", TRIVET__MAY, NULL},  {"z", TRIVET__MAY, NULL},
    {"rx", TRIVET__MAY, NULL}, {"ry", TRIVET__MAY, NULL}, {"rz", TRIVET__MAY, NULL},
};

static const trivet__key axes_keys[] = {
    {"x", TRIVET__NEEDED, "[1, 0, 0]"},
    {"y", TRIVET__NEEDED, "[0, 1, 0]"},
};

static const trivet__key limit_keys[] = {
    {"pull", TRIVET__MAY, NULL},
    {"push", TRIVET__MAY, NULL},
    {"shear", TRIVET__MAY, NULL},
    {"moment", TRIVET__MAY, NULL},
};

static const trivet__key cargo_keys[] = {
    {"mass", TRIVET__MAY, NULL},      {"items", TRIVET__MAY, NULL}, {"centre", TRIVET__MAY, NULL},
    {"on", TRIVET__NEEDED, "[A, B]"}, {"grip", TRIVET__MAY, NULL},
};

static const trivet__key case_keys[] = {
    {"gravity", TRIVET__MAY, NULL},     {"cargo", TRIVET__MAY, NULL},
    {"forces", TRIVET__MAY, NULL},      {"tube forces", TRIVET__MAY, NULL},
    {"mount moves", TRIVET__MAY, NULL}, {"warm", TRIVET__MAY, NULL},
};

static const trivet__key force_keys[] = {
    {"on", TRIVET__NEEDED, "A"},
    {"force", TRIVET__MAY, NULL},
    {"moment", TRIVET__MAY, NULL},
    {"at", TRIVET__MAY, NULL},
};

static const trivet__key tube_force_keys[] = {
    {"tube", TRIVET__NEEDED, "arm"}, {"at", TRIVET__MAY, NULL},      {"force", TRIVET__MAY, NULL},
    {"moment", TRIVET__MAY, NULL},   {"from", TRIVET__MAY, NULL},    {"to", TRIVET__MAY, NULL},
    {"line", TRIVET__MAY, NULL},     {"to line", TRIVET__MAY, NULL}, {"axes", TRIVET__MAY, NULL},
};

static const trivet__key limits_keys[] = {
    {"yield", TRIVET__MAY, NULL},       {"droop", TRIVET__MAY, NULL},
    {"droop ratio", TRIVET__MAY, NULL}, {"droop at", TRIVET__MAY, NULL},
    {"loads", TRIVET__MAY, NULL},       {"bolt rule", TRIVET__MAY, NULL},
    {"weld rule", TRIVET__MAY, NULL},   {"crack", TRIVET__MAY, NULL},
    {"rack rating", TRIVET__MAY, NULL}, {"lowest frequency", TRIVET__LATER, NULL},
};

static const trivet__key expect_keys[] = {
    {"what", TRIVET__NEEDED, "droop"},   {"at", TRIVET__MAY, NULL},
    {"joint", TRIVET__MAY, NULL},        {"from", TRIVET__MAY, NULL},
    {"check", TRIVET__MAY, NULL},        {"case", TRIVET__MAY, NULL},
    {"value", TRIVET__NEEDED, "1.9 mm"}, {"within", TRIVET__MAY, NULL},
    {"by", TRIVET__MAY, NULL},
};

static const trivet__key bolts_keys[] = {
    {"thread", TRIVET__NEEDED, "M6"},  {"grade", TRIVET__NEEDED, "8.8"},
    {"count", TRIVET__MAY, NULL},      {"pattern", TRIVET__MAY, NULL},
    {"head", TRIVET__MAY, NULL},       {"into", TRIVET__MAY, NULL},
    {"engagement", TRIVET__MAY, NULL}, {"clamps", TRIVET__MAY, NULL},
    {"sleeve", TRIVET__MAY, NULL},     {"spacer", TRIVET__MAY, NULL},
    {"plate", TRIVET__MAY, NULL},      {"torque", TRIVET__MAY, NULL},
    {"nut factor", TRIVET__MAY, NULL}, {"scatter", TRIVET__MAY, NULL},
    {"friction", TRIVET__MAY, NULL},   {"shear through", TRIVET__MAY, NULL},
    {"rated", TRIVET__MAY, NULL},      {"fixing", TRIVET__MAY, NULL},
    {"axes", TRIVET__MAY, NULL},
};

static const trivet__key plate_keys[] = {
    {"thickness", TRIVET__NEEDED, "4 mm"}, {"material", TRIVET__MAY, NULL},
    {"edge", TRIVET__MAY, NULL},           {"side", TRIVET__MAY, NULL},
    {"hole", TRIVET__MAY, NULL},
};

static const trivet__key spacer_keys[] = {
    {"of", TRIVET__NEEDED, "metal"},
    {"height", TRIVET__NEEDED, "20 mm"},
    {"diameter", TRIVET__MAY, NULL},
};

static const trivet__key sleeve_keys[] = {
    {"diameter", TRIVET__NEEDED, "12 mm"},
    {"wall", TRIVET__NEEDED, "2 mm"},
    {"yield", TRIVET__MAY, NULL},
};

static const trivet__key rated_keys[] = {
    {"pull", TRIVET__MAY, NULL},
    {"shear", TRIVET__MAY, NULL},
    {"torque", TRIVET__MAY, NULL},
};

static const trivet__key fixing_keys[] = {
    {"spots", TRIVET__NEEDED, "2"},
    {"diameter", TRIVET__NEEDED, "6 mm"},
};

static const trivet__key weld_keys[] = {
    {"throat", TRIVET__MAY, NULL},        {"run", TRIVET__MAY, NULL},
    {"sides", TRIVET__MAY, NULL},         {"spots", TRIVET__MAY, NULL},
    {"spot diameter", TRIVET__MAY, NULL}, {"filler", TRIVET__MAY, NULL},
    {"detail", TRIVET__MAY, NULL},
};

static const trivet__key deck_keys[] = {
    {"on", TRIVET__NEEDED, "[A, B]"}, {"screws", TRIVET__MAY, NULL},  {"mass", TRIVET__MAY, NULL},
    {"centre", TRIVET__MAY, NULL},    {"outline", TRIVET__MAY, NULL}, {"edge", TRIVET__MAY, NULL},
    {"slots", TRIVET__MAY, NULL},
};

static const trivet__key slot_keys[] = {
    {"from", TRIVET__NEEDED, "[0, 0]"},
    {"to", TRIVET__NEEDED, "[0, 40 mm]"},
    {"width", TRIVET__NEEDED, "8 mm"},
};

static const trivet__key cycles_keys[] = {
    {"from", TRIVET__MAY, NULL},        {"to", TRIVET__NEEDED, "pothole"},
    {"from factor", TRIVET__MAY, NULL}, {"to factor", TRIVET__MAY, NULL},
    {"count", TRIVET__MAY, NULL},
};

static const trivet__key vehicle_keys[] = {
    {"wheelbase", TRIVET__MAY, NULL},   {"rear axle", TRIVET__MAY, NULL},
    {"ground", TRIVET__MAY, NULL},      {"front load", TRIVET__MAY, NULL},
    {"rear load", TRIVET__MAY, NULL},   {"front most", TRIVET__MAY, NULL},
    {"rear most", TRIVET__MAY, NULL},   {"total most", TRIVET__MAY, NULL},
    {"front least", TRIVET__MAY, NULL}, {"grade", TRIVET__MAY, NULL},
    {"accelerate", TRIVET__MAY, NULL},  {"wheel radius", TRIVET__MAY, NULL},
    {"overhang", TRIVET__MAY, NULL},    {"width", TRIVET__MAY, NULL},
};

static const trivet__key usage_keys[] = {
    {"down", TRIVET__MAY, NULL},       {"up", TRIVET__MAY, NULL},   {"brake", TRIVET__MAY, NULL},
    {"accelerate", TRIVET__MAY, NULL}, {"side", TRIVET__MAY, NULL}, {"lean", TRIVET__MAY, NULL},
    {"force", TRIVET__MAY, NULL},      {"mass", TRIVET__MAY, NULL}, {"height", TRIVET__MAY, NULL},
    {"settle", TRIVET__MAY, NULL},     {"move", TRIVET__MAY, NULL}, {"on", TRIVET__MAY, NULL},
    {"rail", TRIVET__MAY, NULL},
};

static const trivet__key reading_keys[] = {
    {"at", TRIVET__NEEDED, "A"},
    {"mass", TRIVET__NEEDED, "10 kg"},
    {"drop", TRIVET__NEEDED, "3 mm"},
    {"within", TRIVET__MAY, NULL},
};

static const trivet__key measured_keys[] = {
    {"fit", TRIVET__MAY, NULL},
    {"readings", TRIVET__NEEDED, "[{at: A, mass: 10 kg, drop: 3 mm}]"},
};

static const trivet__key item_keys[] = {
    {"mass", TRIVET__NEEDED, "4 kg"},
    {"centre", TRIVET__NEEDED, "[-250 mm, 0, 200 mm]"},
};

static const trivet__key vary_keys[] = {
    {"let", TRIVET__MAY, NULL},       {"stock", TRIVET__MAY, NULL},  {"cargo", TRIVET__MAY, NULL},
    {"cases", TRIVET__MAY, NULL},     {"tuples", TRIVET__MAY, NULL}, {"sample", TRIVET__MAY, NULL},
    {"skip when", TRIVET__MAY, NULL},
};

static const trivet__key range_keys[] = {
    {"from", TRIVET__NEEDED, "150 mm"},
    {"to", TRIVET__NEEDED, "250 mm"},
    {"steps", TRIVET__MAY, NULL},
};

static const trivet__key vary_stock_keys[] = {
    {"of", TRIVET__MAY, NULL},
    {"catalogue", TRIVET__MAY, NULL},
    {"among", TRIVET__MAY, NULL},
};

static const trivet__key tuples_keys[] = {
    {"of", TRIVET__NEEDED, "[reach, half]"},
    {"rows", TRIVET__NEEDED, "[[160 mm, 140 mm], [180 mm, 150 mm]]"},
};

static const trivet__key sample_keys[] = {
    {"by", TRIVET__NEEDED, "sobol"},
    {"count", TRIVET__NEEDED, "1024"},
    {"seed", TRIVET__MAY, NULL},
};

static const trivet__key catalogue_keys[] = {
    {"catalogue", TRIVET__NEEDED, "1"},
    {"name", TRIVET__MAY, NULL},
    {"units", TRIVET__MAY, NULL},
    {"stock", TRIVET__NEEDED,
     "{sq 20: {shape: square tube, width: 20 mm, wall: 2 mm, material: E235, price: 3.1}}"},
};

static const trivet__key shop_keys[] = {
    {"kerf", TRIVET__MAY, NULL},        {"gap", TRIVET__MAY, NULL},
    {"aim", TRIVET__MAY, NULL},         {"bars", TRIVET__MAY, NULL},
    {"bars of", TRIVET__MAY, NULL},     {"bent", TRIVET__MAY, NULL},
    {"wire factor", TRIVET__MAY, NULL}, {"electrode factor", TRIVET__MAY, NULL},
};

static const trivet__key bar_keys[] = {
    {"length", TRIVET__NEEDED, "6 m"},
    {"price", TRIVET__MAY, NULL},
    {"have", TRIVET__MAY, NULL},
};

static const trivet__key bent_keys[] = {
    {"tubes", TRIVET__NEEDED, "[left, top, right]"},
    {"radius", TRIVET__NEEDED, "60 mm"},
    {"neutral", TRIVET__MAY, NULL},
};

typedef struct key_table {
    const trivet__key *keys;
    int32_t count;
} key_table;

#define TABLE_ROW(keys)                                                                            \
    {                                                                                              \
        keys, (int32_t)(sizeof keys / sizeof keys[0])                                              \
    }

static const key_table tables[] = {
    [TRIVET__KEYS_TOP] = TABLE_ROW(top_keys),
    [TRIVET__KEYS_UNITS] = TABLE_ROW(units_keys),
    [TRIVET__KEYS_SQUARE_TUBE] = TABLE_ROW(square_tube_keys),
    [TRIVET__KEYS_RECTANGULAR_TUBE] = TABLE_ROW(rectangular_tube_keys),
    [TRIVET__KEYS_ROUND_TUBE] = TABLE_ROW(round_tube_keys),
    [TRIVET__KEYS_SQUARE_BAR] = TABLE_ROW(square_bar_keys),
    [TRIVET__KEYS_FLAT_BAR] = TABLE_ROW(flat_bar_keys),
    [TRIVET__KEYS_ROUND_BAR] = TABLE_ROW(round_bar_keys),
    [TRIVET__KEYS_ANGLE] = TABLE_ROW(angle_keys),
    [TRIVET__KEYS_CHANNEL] = TABLE_ROW(channel_keys),
    [TRIVET__KEYS_VALUES] = TABLE_ROW(values_keys),
    [TRIVET__KEYS_MATERIAL] = TABLE_ROW(material_keys),
    [TRIVET__KEYS_TUBE] = TABLE_ROW(tube_keys),
    [TRIVET__KEYS_END] = TABLE_ROW(end_keys),
    [TRIVET__KEYS_INSERT] = TABLE_ROW(insert_keys),
    [TRIVET__KEYS_MOUNT] = TABLE_ROW(mount_keys),
    [TRIVET__KEYS_DIRECTIONS] = TABLE_ROW(directions_keys),
    [TRIVET__KEYS_AXES] = TABLE_ROW(axes_keys),
    [TRIVET__KEYS_LIMIT] = TABLE_ROW(limit_keys),
    [TRIVET__KEYS_CARGO] = TABLE_ROW(cargo_keys),
    [TRIVET__KEYS_CASE] = TABLE_ROW(case_keys),
    [TRIVET__KEYS_FORCE] = TABLE_ROW(force_keys),
    [TRIVET__KEYS_TUBE_FORCE] = TABLE_ROW(tube_force_keys),
    [TRIVET__KEYS_LIMITS] = TABLE_ROW(limits_keys),
    [TRIVET__KEYS_EXPECT] = TABLE_ROW(expect_keys),
    [TRIVET__KEYS_VEHICLE] = TABLE_ROW(vehicle_keys),
    [TRIVET__KEYS_USAGE] = TABLE_ROW(usage_keys),
    [TRIVET__KEYS_READING] = TABLE_ROW(reading_keys),
    [TRIVET__KEYS_MEASURED] = TABLE_ROW(measured_keys),
    [TRIVET__KEYS_ITEM] = TABLE_ROW(item_keys),
    [TRIVET__KEYS_BOLTS] = TABLE_ROW(bolts_keys),
    [TRIVET__KEYS_PLATE] = TABLE_ROW(plate_keys),
    [TRIVET__KEYS_SPACER] = TABLE_ROW(spacer_keys),
    [TRIVET__KEYS_SLEEVE] = TABLE_ROW(sleeve_keys),
    [TRIVET__KEYS_RATED] = TABLE_ROW(rated_keys),
    [TRIVET__KEYS_FIXING] = TABLE_ROW(fixing_keys),
    [TRIVET__KEYS_WELD] = TABLE_ROW(weld_keys),
    [TRIVET__KEYS_DECK] = TABLE_ROW(deck_keys),
    [TRIVET__KEYS_CYCLES] = TABLE_ROW(cycles_keys),
    [TRIVET__KEYS_VARY] = TABLE_ROW(vary_keys),
    [TRIVET__KEYS_RANGE] = TABLE_ROW(range_keys),
    [TRIVET__KEYS_VARY_STOCK] = TABLE_ROW(vary_stock_keys),
    [TRIVET__KEYS_TUPLES] = TABLE_ROW(tuples_keys),
    [TRIVET__KEYS_SAMPLE] = TABLE_ROW(sample_keys),
    [TRIVET__KEYS_CATALOGUE] = TABLE_ROW(catalogue_keys),
    [TRIVET__KEYS_SHOP] = TABLE_ROW(shop_keys),
    [TRIVET__KEYS_BAR] = TABLE_ROW(bar_keys),
    [TRIVET__KEYS_BENT] = TABLE_ROW(bent_keys),
    [TRIVET__KEYS_SLOT] = TABLE_ROW(slot_keys),
};

const trivet__key *trivet__keys_of(trivet__key_place place, int32_t *count_out)
{
    *count_out = tables[place].count;
    return tables[place].keys;
}

const trivet__key *trivet__key_find(const trivet__key *keys, int32_t count, const char *name)
{
    for (int32_t i = 0; i < count; i++) {
        if (strcmp(keys[i].name, name) == 0) {
            return &keys[i];
        }
    }
    return NULL;
}
