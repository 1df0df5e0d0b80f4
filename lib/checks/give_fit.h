/*
 * The search for the springs that explain readings: what its files share.
 */
#ifndef TRIVET_CHECKS_GIVE_FIT_H
#define TRIVET_CHECKS_GIVE_FIT_H

#include "trivet/checks.h"

enum { TRIVET__UNKNOWNS_MAX = 6 };

/* Springs beyond these, N/m or N m/rad, hold nothing up, or are as good as rigid. */
#define TRIVET__SPRING_LEAST 1e1
#define TRIVET__SPRING_MOST 1e10

/* A frame with a case for each reading, and room for the numbers. Unknowns: logs of springs. */
typedef struct trivet__fitting {
    const trivet_reading *readings;
    int32_t count;
    int32_t first_case; /* of the readings' cases in frame */
    uint32_t directions;
    int32_t unknown_count;
    int32_t unknowns[TRIVET__UNKNOWNS_MAX]; /* their directions */
    int32_t held;                           /* the unknown that stays as it is, or -1 */
    trivet_frame *frame;
    trivet_plan *plan;
    trivet_workspace *workspace;
    trivet_result *result;
    trivet_message *message; /* never NULL */
    double *drops;           /* [count] at the place reached, m */
    double *trial;           /* [count] at a place that is tried */
    double *other;           /* [count] for derivatives */
    double *slopes;          /* [count + unknown_count][unknown_count] by logs, over within */
    double *inverse;         /* [unknown_count][count + unknown_count] */
    double *scratch;         /* for the inverse */
} trivet__fitting;

/* Puts springs in the place of holds and springs in the fitted directions; NULL: holds. */
trivet_status trivet__fitting_set(trivet_frame *frame, const trivet__fitting *of,
                                  const double *logs);

/* The drops [count] that a solution of the readings' cases has. */
void trivet__fitting_read(const trivet__fitting *of, const trivet_result *result,
                          double *drops_out);

/* The drops [count] with these springs. Statuses of trivet_plan_solve. */
trivet_status trivet__fitting_predict(const trivet__fitting *of, const double *logs,
                                      double *drops_out);

/* Fills slopes [count][unknown_count], drops over within by logs of springs. */
trivet_status trivet__fitting_slopes(const trivet__fitting *of, const double *logs);

/* Too soft or too unlike to be solved is no mistake in a search, only a bad place. */
int trivet__fitting_is_bad_place(trivet_status status);

/* From a starting point down to where no step improves; the held unknown stays. */
trivet_status trivet__fitting_descend(const trivet__fitting *of, double *logs, double *misfit_out);

/* The best springs from several starting points; drops are theirs. */
trivet_status trivet__fitting_search(const trivet__fitting *of, double *logs_out,
                                     double *misfit_out);

/* Fills least and most of each spring, 95 % bounds around the best springs. */
trivet_status trivet__fitting_bounds(const trivet__fitting *of, const double *logs, double misfit,
                                     trivet_fitted *fitted);

#endif
