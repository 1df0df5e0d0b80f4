/*
 * The tables of a store and the views for the usual questions. What each column means, and its
 * unit, stands in DEVELOPERS.md, "The store of a sweep"; a test holds the two together.
 *
 * Texts that repeat (checks, places, cases, reasons) stand once, in texts; a variant holds their
 * numbers. The number of a variant is the key of its row, so that no index is needed. Columns of
 * doubles have no type: in one of type REAL, SQLite keeps -0 as the whole number 0.
 */
#include "sweep/store_inside.h"

#include "trivet/checks.h"

/* Small pages would cut long rows, large ones waste the last; 4096 is what disks write at once. */
static const char tables[] =
    "CREATE TABLE runs("
    "number INTEGER PRIMARY KEY, version TEXT NOT NULL, settings TEXT NOT NULL,"
    " file TEXT NOT NULL, variant_count INTEGER NOT NULL, first INTEGER NOT NULL,"
    " end INTEGER NOT NULL, finished INTEGER NOT NULL);"
    "CREATE TABLE inputs("
    "position INTEGER PRIMARY KEY, name TEXT NOT NULL, kind INTEGER NOT NULL,"
    " dimension INTEGER NOT NULL, unit TEXT NOT NULL);"
    "CREATE TABLE choices("
    "input INTEGER NOT NULL, choice INTEGER NOT NULL, text TEXT NOT NULL,"
    " PRIMARY KEY(input, choice)) WITHOUT ROWID;"
    "CREATE TABLE outcomes(number INTEGER PRIMARY KEY, text TEXT NOT NULL);"
    "CREATE TABLE verdicts(number INTEGER PRIMARY KEY, text TEXT NOT NULL);"
    "CREATE TABLE texts(id INTEGER PRIMARY KEY, text TEXT NOT NULL UNIQUE);"
    "CREATE TABLE checks("
    "variant INTEGER NOT NULL, place INTEGER NOT NULL, kind INTEGER, location INTEGER,"
    " in_case INTEGER, used, PRIMARY KEY(variant, place)) WITHOUT ROWID;"
    "INSERT INTO outcomes VALUES(0, 'solved'), (1, 'skipped'), (2, 'failed');";

static const char variant_columns[] =
    "number INTEGER PRIMARY KEY, outcome INTEGER NOT NULL, reason INTEGER,"
    " overload INTEGER NOT NULL, cracking INTEGER NOT NULL, service INTEGER NOT NULL,"
    " overload_used, cracking_used, service_used,"
    " governs_check INTEGER, governs_where INTEGER, governs_case INTEGER,"
    " droop, mass, price, mount_force";

/* What follows the inputs' own names in variants_named. */
static const char named_columns[] =
    " o.text AS outcome, r.text AS reason,"
    " vo.text AS overload, vc.text AS cracking, vs.text AS service,"
    " v.overload_used, v.cracking_used, v.service_used,"
    " nullif(max(ifnull(v.overload_used, -1), ifnull(v.cracking_used, -1),"
    " ifnull(v.service_used, -1)), -1) AS worst_used,"
    " gc.text AS governs_check, gw.text AS governs_where, gk.text AS governs_case,"
    " v.droop, v.mass, v.price, v.mount_force,"
    " (v.overload = 0) + (v.cracking = 0) + (v.service = 0) AS lines_not_checked"
    " FROM variants v"
    " LEFT JOIN outcomes o ON o.number = v.outcome"
    " LEFT JOIN texts r ON r.id = v.reason"
    " LEFT JOIN verdicts vo ON vo.number = v.overload"
    " LEFT JOIN verdicts vc ON vc.number = v.cracking"
    " LEFT JOIN verdicts vs ON vs.number = v.service"
    " LEFT JOIN texts gc ON gc.id = v.governs_check"
    " LEFT JOIN texts gw ON gw.id = v.governs_where"
    " LEFT JOIN texts gk ON gk.id = v.governs_case";

/*
 * Verdicts by number: 1 holds, 2 tight, 3 may crack, 4 fails, 0 not checked. As in the command, a
 * variant holds as far as it was checked: overload must be, and no line may fail.
 *
 * The trade-off: b is the least droop of each mass, and stays if every lighter mass droops more.
 */
static const char views[] =
    "CREATE VIEW checks_named AS"
    " SELECT c.variant, c.place, k.text AS kind, w.text AS location, i.text AS in_case, c.used"
    " FROM checks c LEFT JOIN texts k ON k.id = c.kind"
    " LEFT JOIN texts w ON w.id = c.location LEFT JOIN texts i ON i.id = c.in_case;"
    "CREATE VIEW holding AS SELECT n.* FROM variants h JOIN variants_named n"
    " ON n.number = h.number WHERE h.outcome = 0 AND h.overload IN (1, 2)"
    " AND h.cracking IN (0, 1, 2) AND h.service IN (0, 1, 2);"
    "CREATE VIEW best_by_mass AS SELECT * FROM holding WHERE mass IS NOT NULL"
    " ORDER BY mass, number;"
    "CREATE VIEW trade_off AS WITH"
    " h AS (SELECT number, mass, droop FROM variants WHERE outcome = 0 AND overload IN (1, 2)"
    " AND cracking IN (0, 1, 2) AND service IN (0, 1, 2)"
    " AND mass IS NOT NULL AND droop IS NOT NULL),"
    " b AS (SELECT mass, min(droop) AS droop FROM h GROUP BY mass),"
    " f AS (SELECT mass, droop, min(droop) OVER (ORDER BY mass"
    " ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING) AS lighter FROM b),"
    " t AS (SELECT h.number AS number FROM f JOIN h ON h.mass = f.mass AND h.droop = f.droop"
    " WHERE f.lighter IS NULL OR f.droop < f.lighter)"
    " SELECT n.* FROM t JOIN variants_named n ON n.number = t.number ORDER BY n.mass, n.number;"
    "CREATE VIEW failing AS SELECT n.* FROM variants h JOIN variants_named n"
    " ON n.number = h.number WHERE h.outcome = 0"
    " AND (h.overload >= 3 OR h.cracking >= 3 OR h.service >= 3);"
    "CREATE VIEW worst_first AS SELECT * FROM failing ORDER BY worst_used DESC, number;"
    "CREATE VIEW first_failing AS SELECT * FROM failing ORDER BY number LIMIT 1;"
    "CREATE VIEW count_by_outcome AS SELECT o.text AS outcome, count(*) AS variants"
    " FROM variants v JOIN outcomes o ON o.number = v.outcome GROUP BY v.outcome;"
    "CREATE VIEW count_by_verdict AS"
    " SELECT l.line, d.text AS verdict, l.variants FROM ("
    "SELECT 0 AS at, 'overload' AS line, overload AS verdict, count(*) AS variants"
    " FROM variants WHERE outcome = 0 GROUP BY overload UNION ALL "
    "SELECT 1, 'cracking', cracking, count(*) FROM variants WHERE outcome = 0 GROUP BY cracking"
    " UNION ALL "
    "SELECT 2, 'service', service, count(*) FROM variants WHERE outcome = 0 GROUP BY service"
    ") l JOIN verdicts d ON d.number = l.verdict ORDER BY l.at, l.verdict;"
    "CREATE VIEW count_by_governing AS"
    " SELECT k.text AS governs_check, count(*) AS variants,"
    " sum(v.overload >= 3 OR v.cracking >= 3 OR v.service >= 3) AS failing"
    " FROM variants v JOIN texts k ON k.id = v.governs_check WHERE v.outcome = 0"
    " GROUP BY v.governs_check ORDER BY variants DESC, k.text;";

/* The SI unit of each trivet_dimension, in its order. */
static const char *unit_of(int32_t dimension)
{
    static const char *const units[] = {
        "",    "m",   "kg",     "N",    "N*m", "Pa",      "rad", "K",     "s",   "Hz",    "m^2",
        "m^3", "m^4", "kg/m^3", "kg/m", "N/m", "N*m/rad", "1/K", "m/s^2", "m/s", "1/m^2", "1/m^3"};
    const int32_t count = (int32_t)(sizeof units / sizeof units[0]);
    return dimension >= 0 && dimension < count ? units[dimension] : "";
}

/* Runs the text that was put together, and frees it. */
static int run_string(sqlite3 *db, sqlite3_str *text)
{
    int result = sqlite3_str_errcode(text);
    char *const sql = sqlite3_str_finish(text);
    if (result == SQLITE_OK && sql) {
        result = trivet__sql_run(db, sql);
    }
    sqlite3_free(sql);
    return result;
}

static int make_variants(sqlite3 *db, const trivet__run_head *head)
{
    sqlite3_str *const sql = sqlite3_str_new(db);
    sqlite3_str_appendf(sql, "CREATE TABLE variants(%s", variant_columns);
    for (int32_t i = 0; i < head->input_count; i++) {
        sqlite3_str_appendf(sql, ", input_%d%s", (int)i + 1,
                            head->input_kinds[i] == TRIVET__INPUT_CHOICE ? " INTEGER" : "");
    }
    sqlite3_str_appendall(sql, ");");
    return run_string(db, sql);
}

/* Whether an input's name is also a column of variants_named or the name of an earlier input. */
static int is_taken(const trivet__run_head *head, int32_t input)
{
    static const char *const others[] = {
        "number",        "outcome",       "reason",           "overload",     "cracking",
        "service",       "overload_used", "cracking_used",    "service_used", "worst_used",
        "governs_check", "governs_where", "governs_case",     "droop",        "mass",
        "price",         "mount_force",   "lines_not_checked"};
    const char *const name = head->input_names[input];
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        if (sqlite3_stricmp(name, others[i]) == 0) {
            return 1;
        }
    }
    for (int32_t i = 0; i < input; i++) {
        if (sqlite3_stricmp(name, head->input_names[i]) == 0) {
            return 1;
        }
    }
    return 0;
}

static int make_named(sqlite3 *db, const trivet__run_head *head)
{
    sqlite3_str *const sql = sqlite3_str_new(db);
    sqlite3_str_appendall(sql, "CREATE VIEW variants_named AS SELECT v.number,");
    for (int32_t i = 0; i < head->input_count; i++) {
        const int at = (int)i + 1;
        if (head->input_kinds[i] == TRIVET__INPUT_CHOICE) {
            sqlite3_str_appendf(sql,
                                " (SELECT text FROM choices WHERE input = %d"
                                " AND choice = v.input_%d)",
                                at, at);
        } else {
            sqlite3_str_appendf(sql, " v.input_%d", at);
        }
        if (is_taken(head, i)) {
            sqlite3_str_appendf(sql, " AS \"%w (input %d)\",", head->input_names[i], at);
        } else {
            sqlite3_str_appendf(sql, " AS \"%w\",", head->input_names[i]);
        }
    }
    sqlite3_str_appendall(sql, named_columns);
    sqlite3_str_appendall(sql, ";");
    return run_string(db, sql);
}

static int fill_verdicts(sqlite3 *db)
{
    sqlite3_str *const sql = sqlite3_str_new(db);
    for (int32_t i = TRIVET_NOT_CHECKED; i <= TRIVET_FAILS; i++) {
        sqlite3_str_appendf(sql, "INSERT INTO verdicts VALUES(%d, %Q);", (int)i,
                            trivet_verdict_text(i));
    }
    return run_string(db, sql);
}

/* Steps a statement that gives no rows and makes it ready for the next. */
static int step_once(sqlite3_stmt *statement)
{
    const int result = sqlite3_step(statement);
    const int ended = sqlite3_reset(statement);
    return result == SQLITE_DONE ? SQLITE_OK : ended;
}

static int fill_choices(sqlite3_stmt *add, const trivet__run_head *head, int32_t input)
{
    int result = SQLITE_OK;
    for (int32_t k = 0; result == SQLITE_OK && k < head->choice_counts[input]; k++) {
        sqlite3_bind_int(add, 1, (int)input + 1);
        sqlite3_bind_int(add, 2, (int)k);
        result = sqlite3_bind_text(add, 3, head->choices[input][k], -1, SQLITE_STATIC);
        if (result == SQLITE_OK) {
            result = step_once(add);
        }
    }
    return result;
}

static int fill_inputs(sqlite3 *db, const trivet__run_head *head)
{
    sqlite3_stmt *add = NULL;
    sqlite3_stmt *add_choice = NULL;
    int result = trivet__sql_prepare(db, "INSERT INTO inputs VALUES(?1, ?2, ?3, ?4, ?5)", &add);
    if (result == SQLITE_OK) {
        result = trivet__sql_prepare(db, "INSERT INTO choices VALUES(?1, ?2, ?3)", &add_choice);
    }
    for (int32_t i = 0; result == SQLITE_OK && i < head->input_count; i++) {
        const int is_choice = head->input_kinds[i] == TRIVET__INPUT_CHOICE;
        sqlite3_bind_int(add, 1, (int)i + 1);
        result = sqlite3_bind_text(add, 2, head->input_names[i], -1, SQLITE_STATIC);
        sqlite3_bind_int(add, 3, head->input_kinds[i]);
        sqlite3_bind_int(add, 4, head->input_dimensions[i]);
        sqlite3_bind_text(add, 5, is_choice ? "" : unit_of(head->input_dimensions[i]), -1,
                          SQLITE_STATIC);
        if (result == SQLITE_OK) {
            result = step_once(add);
        }
        if (result == SQLITE_OK && is_choice) {
            result = fill_choices(add_choice, head, i);
        }
    }
    sqlite3_finalize(add);
    sqlite3_finalize(add_choice);
    return result;
}

static int fill_run(sqlite3 *db, const trivet__run_head *head)
{
    sqlite3_stmt *add = NULL;
    int result =
        trivet__sql_prepare(db, "INSERT INTO runs VALUES(1, ?1, ?2, ?3, ?4, ?5, ?6, 0)", &add);
    if (result == SQLITE_OK) {
        result = sqlite3_bind_text(add, 1, head->version, -1, SQLITE_STATIC);
    }
    if (result == SQLITE_OK) {
        result = sqlite3_bind_text(add, 2, head->settings, -1, SQLITE_STATIC);
    }
    if (result == SQLITE_OK) {
        result = sqlite3_bind_text64(add, 3, head->file_text, head->file_length, SQLITE_STATIC,
                                     SQLITE_UTF8);
    }
    if (result == SQLITE_OK) {
        sqlite3_bind_int64(add, 4, head->variant_count);
        sqlite3_bind_int64(add, 5, head->first);
        sqlite3_bind_int64(add, 6, head->end);
        result = step_once(add);
    }
    sqlite3_finalize(add);
    return result;
}

int trivet__schema_make(sqlite3 *db, const trivet__run_head *head)
{
    _Static_assert(TRIVET__STORE_FORMAT == 1 && TRIVET__STORE_ID == 1416787572,
                   "these numbers stand in the line below");
    int result =
        trivet__sql_run(db, "PRAGMA application_id = 1416787572; PRAGMA user_version = 1;");
    if (result == SQLITE_OK) {
        result = trivet__sql_run(db, tables);
    }
    if (result == SQLITE_OK) {
        result = make_variants(db, head);
    }
    if (result == SQLITE_OK) {
        result = make_named(db, head);
    }
    if (result == SQLITE_OK) {
        result = trivet__sql_run(db, views);
    }
    if (result == SQLITE_OK) {
        result = fill_verdicts(db);
    }
    if (result == SQLITE_OK) {
        result = fill_inputs(db, head);
    }
    return result == SQLITE_OK ? fill_run(db, head) : result;
}
