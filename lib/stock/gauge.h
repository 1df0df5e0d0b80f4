/*
 * Gauges for the reader of quantities: the hook that understands "16 ga BWG".
 */
#ifndef TRIVET_STOCK_GAUGE_H
#define TRIVET_STOCK_GAUGE_H

#include "trivet/stock.h"

/* For trivet__quantity_hooks.gauge; user is not looked at. */
trivet_status trivet__gauge_read(void *user, double number, const char *system, size_t length,
                                 double *thickness_out, trivet_message *message);

#endif
