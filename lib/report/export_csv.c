/*
 * CSV after RFC 4180, and the list of tables.
 */
#include "report/export_csv.h"

#include "base/message.h"
#include "trivet/report_export.h"

#include <math.h>
#include <string.h>

typedef struct table_row {
    const char *name;
    const char *headings;
    trivet__csv_fill *fill;
} table_row;

static const table_row TABLES[] = {
    {"joints", "joint,x (m),y (m),z (m),droop limit (m)", trivet__csv_joints},
    {"tubes",
     "tube,number,stock,first joint,last joint,length (m),mass (kg),utilisation (1),verdict",
     trivet__csv_tubes},
    {"sections",
     "stock,shape,material,area (m^2),shear area y (m^2),shear area z (m^2),Iyy (m^4),Izz (m^4),"
     "Iyz (m^4),elastic modulus y (m^3),elastic modulus z (m^3),plastic modulus y (m^3),"
     "plastic modulus z (m^3),torsion constant (m^4),torsion modulus (m^3),"
     "radius of gyration y (m),radius of gyration z (m),mass per length (kg/m),E (Pa),G (Pa),"
     "density (kg/m^3),yield (Pa),tensile (Pa)",
     trivet__csv_sections},
    {"cases", "case,loads", trivet__csv_cases},
    {"reactions", "case,mount,Fx (N),Fy (N),Fz (N),Mx (N m),My (N m),Mz (N m)",
     trivet__csv_reactions},
    {"movements", "case,joint,ux (m),uy (m),uz (m),rx (rad),ry (rad),rz (rad)",
     trivet__csv_movements},
    {"forces", "case,tube,span,end,joint,at (m),N (N),Vy (N),Vz (N),T (N m),My (N m),Mz (N m)",
     trivet__csv_forces},
    {"checks",
     "check,part,where,joint,case,at (m),demand,limit,unit,utilisation "
     "(1),verdict,line,source,note",
     trivet__csv_checks},
    {"bolts",
     "where,what,count,torque said (N m),torque by table (N m),torque allowed (N m),"
     "weakest part,preload (N),least preload (N),most preload (N)",
     trivet__csv_bolts},
    {"droop", "case,droop (m),tube,at (m)", trivet__csv_droop},
    {"mounts", "mount,pull (N),pull in,push (N),push in,shear (N),shear in,moment (N m),moment in",
     trivet__csv_mounts},
    {"inserts", "tube,joint,stock,length (m)", trivet__csv_inserts},
    {"cargo", "cargo,item,mass (kg)", trivet__csv_cargo},
    {"plates", "deck,what,number,x (m),y (m),to x (m),to y (m),wide (m)", trivet__csv_plates},
    {"not-checked", "what,why", trivet__csv_omissions},
};

enum { TABLE_COUNT = (int)(sizeof TABLES / sizeof TABLES[0]) };

static void begin_field(trivet__csv *csv)
{
    if (csv->has_field) {
        trivet__bytes_text(csv->bytes, ",");
    }
    csv->has_field = 1;
}

void trivet__csv_text(trivet__csv *csv, const char *text)
{
    begin_field(csv);
    if (!text || !text[0]) {
        return;
    }
    const size_t length = strlen(text);
    const int is_quoted = strpbrk(text, ",\"\r\n") || text[0] == ' ' || text[length - 1] == ' ';
    if (is_quoted) {
        trivet__bytes_text(csv->bytes, "\"");
    }
    if (strchr("=+-@'", text[0])) {
        trivet__bytes_text(csv->bytes, "'");
    }
    for (; *text; text++) {
        if (*text == '"') {
            trivet__bytes_text(csv->bytes, "\"");
        }
        trivet__bytes_add(csv->bytes, text, 1);
    }
    if (is_quoted) {
        trivet__bytes_text(csv->bytes, "\"");
    }
}

void trivet__csv_number(trivet__csv *csv, double value)
{
    begin_field(csv);
    if (isinf(value)) {
        trivet__bytes_text(csv->bytes, value > 0.0 ? "inf" : "-inf");
    } else if (!isnan(value)) {
        trivet__bytes_number(csv->bytes, value);
    }
}

void trivet__csv_numbers(trivet__csv *csv, const double *values, int count)
{
    for (int i = 0; i < count; i++) {
        trivet__csv_number(csv, values[i]);
    }
}

void trivet__csv_whole(trivet__csv *csv, int64_t value)
{
    begin_field(csv);
    trivet__bytes_whole(csv->bytes, value);
}

void trivet__csv_end_row(trivet__csv *csv)
{
    trivet__bytes_text(csv->bytes, "\r\n");
    csv->has_field = 0;
}

trivet_status trivet__csv_no_table(trivet_message *message, int32_t table, int32_t count)
{
    trivet__refuse(message, TRIVET_BAD_INDEX, "", "there is none", "");
    trivet__message_thing(message, "table number %d", (int)table);
    trivet__message_remedy(message, "give 0 to %d", (int)count - 1);
    return TRIVET_BAD_INDEX;
}

const char *trivet_export_table(int32_t index)
{
    return index >= 0 && index < TABLE_COUNT ? TABLES[index].name : NULL;
}

trivet_status trivet_export_csv(const trivet_frame *frame, const trivet_result *result,
                                const trivet_checks *checks, int32_t table, char **bytes_out,
                                size_t *length_out, trivet_message *message)
{
    trivet__handed handed;
    trivet__bytes bytes = {0};
    trivet_status status =
        trivet__handed_check(frame, result, checks, bytes_out, length_out, &handed, message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (!trivet_export_table(table)) {
        return trivet__csv_no_table(message, table, TABLE_COUNT);
    }
    trivet__csv csv = {&bytes, 0};
    trivet__bytes_text(&bytes, TABLES[table].headings);
    trivet__csv_end_row(&csv);
    status = TABLES[table].fill(&handed, &csv);
    if (status != TRIVET_OK) {
        trivet__bytes_free(&bytes);
        return status == TRIVET_NO_MEMORY ? trivet__no_memory(message) : status;
    }
    return trivet__bytes_hand_out(&bytes, bytes_out, length_out, message);
}
