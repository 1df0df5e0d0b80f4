/*
 * How tight a screw may be made, with the numbers in between for the working.
 */
#ifndef TRIVET_CHECKS_TORQUE_H
#define TRIVET_CHECKS_TORQUE_H

#include "checks/check_record.h"

typedef struct trivet__torque_card {
    trivet_torque torque; /* the card */
    trivet_thread thread;
    trivet_grade grade;
    double head;        /* share of its grade's strength that the head lets the screw have */
    double part;        /* N that the weakest part stands; of the screw: 0.75 head proof As */
    int32_t is_rated;   /* the weakest part's torque is said by the user */
    int32_t is_partial; /* the strength of some part is not known: it was left out */
} trivet__torque_card;

void trivet__torque_card_find(const trivet_frame *frame, const trivet_bolts *bolts,
                              trivet__torque_card *out);

/* N, the preload at the upper end of the scatter, by the torque that is said or else the table's.
 */
double trivet__most_preload(const trivet_bolts *bolts, const trivet__torque_card *card);

/* Its working: ends with the symbol F_t. */
void trivet__record_preload(trivet__making *making, trivet__record *record,
                            const trivet_bolts *bolts, const trivet__torque_card *card);

/* The record of the torque said for a set against the torque allowed; an omission if none is said.
 */
trivet_status trivet__check_torque(trivet__making *making, int32_t bolts);

#endif
