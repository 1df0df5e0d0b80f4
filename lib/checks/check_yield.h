/*
 * The worst place of a tube in a case, between finding it and writing its working.
 */
#ifndef TRIVET_CHECKS_CHECK_YIELD_H
#define TRIVET_CHECKS_CHECK_YIELD_H

#include "checks/check_record.h"
#include "checks/stress.h"
#include "statics/span_pieces.h"

typedef struct trivet__worst {
    int32_t is_found;
    int32_t is_insert;
    double used;      /* stress over limit */
    double at;        /* m along the tube */
    double yield;     /* Pa, of the material there, beside a weld if it lies there */
    double forces[6]; /* N Vy Vz T My Mz of the tube and insert together */
    trivet__part part;
    trivet__spot spot;
} trivet__worst;

/* Makes the record and writes its working. */
void trivet__record_yield(trivet__making *making, int32_t tube, int32_t in_case,
                          const trivet__worst *worst);

#endif
