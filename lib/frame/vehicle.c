/*
 * The vehicle under the frame.
 */
#include "base/defaults.h"
#include "frame/border.h"
#include "frame/frame.h"

#include <math.h>
#include <stddef.h>

/* Our own choice where nothing is said: a steep road, and a brisk start of a motorcycle. */
#define USUAL_GRADE 0.12 /* rad, about 12 % */
#define USUAL_START 0.5  /* of g */

trivet_status trivet_vehicle_defaults(trivet_vehicle *vehicle, size_t size)
{
    const trivet_status status = trivet__defaults(vehicle, size, sizeof *vehicle);
    if (status == TRIVET_OK) {
        *vehicle = (trivet_vehicle){.size = size,
                                    .wheelbase = (double)NAN,
                                    .rear_axle = (double)NAN,
                                    .ground = (double)NAN,
                                    .front_load = (double)NAN,
                                    .rear_load = (double)NAN,
                                    .front_most = (double)NAN,
                                    .rear_most = (double)NAN,
                                    .total_most = (double)NAN,
                                    .front_least = (double)NAN,
                                    .grade = USUAL_GRADE,
                                    .accelerate = USUAL_START,
                                    .wheel_radius = (double)NAN,
                                    .overhang_most = (double)NAN,
                                    .width_most = (double)NAN};
    }
    return status;
}

static trivet_status check_vehicle(const trivet_vehicle *vehicle, trivet_message *message)
{
    const struct {
        const char *what;
        double value;
        trivet_dimension dimension;
        int may_be_any; /* a place, which may lie below 0 */
    } rows[] = {
        {"wheelbase", vehicle->wheelbase, TRIVET_LENGTH, 0},
        {"rear axle", vehicle->rear_axle, TRIVET_LENGTH, 1},
        {"ground", vehicle->ground, TRIVET_LENGTH, 1},
        {"front load", vehicle->front_load, TRIVET_MASS, 0},
        {"rear load", vehicle->rear_load, TRIVET_MASS, 0},
        {"most on the front axle", vehicle->front_most, TRIVET_MASS, 0},
        {"most on the rear axle", vehicle->rear_most, TRIVET_MASS, 0},
        {"most in all", vehicle->total_most, TRIVET_MASS, 0},
        {"least on the front wheel", vehicle->front_least, TRIVET_MASS, 0},
        {"wheel radius", vehicle->wheel_radius, TRIVET_LENGTH, 0},
        {"overhang", vehicle->overhang_most, TRIVET_LENGTH, 0},
        {"width", vehicle->width_most, TRIVET_LENGTH, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const trivet__number_of of = {"vehicle", "", rows[i].what, rows[i].dimension};
        trivet_status status = TRIVET_OK;
        if (!isnan(rows[i].value)) {
            status = rows[i].may_be_any ? trivet__numbers_check(&rows[i].value, 1, of, message)
                                        : trivet__positive_check(rows[i].value, of, message);
        }
        if (status != TRIVET_OK) {
            return status;
        }
    }
    return TRIVET_OK;
}

trivet_status trivet_frame_set_vehicle(trivet_frame *frame, const trivet_vehicle *vehicle,
                                       trivet_message *message)
{
    if (!frame || !vehicle) {
        return trivet__missing(message, frame ? "vehicle" : "frame");
    }
    trivet_status status = trivet__size_check(vehicle->size, sizeof *vehicle, "vehicle",
                                              "fill it with its defaults first", message);
    if (status == TRIVET_OK) {
        status = check_vehicle(vehicle, message);
    }
    if (status == TRIVET_OK && !(vehicle->grade >= 0.0 && vehicle->grade < 1.0 &&
                                 vehicle->accelerate >= 0.0 && vehicle->accelerate < 10.0)) {
        status = trivet__refuse(message, TRIVET_BAD_VALUE, "vehicle",
                                "its grade or start is out of range",
                                "give a grade from 0 to 1 rad and a start from 0 to 10 g");
    }
    if (status == TRIVET_OK) {
        frame->vehicle = *vehicle;
    }
    return status;
}

trivet_status trivet_frame_vehicle(const trivet_frame *frame, trivet_vehicle *vehicle_out)
{
    const trivet_status status = trivet__out_check(frame, vehicle_out, sizeof *vehicle_out);
    if (status != TRIVET_OK) {
        return status;
    }
    if (frame->vehicle.size == 0) {
        return trivet_vehicle_defaults(vehicle_out, sizeof *vehicle_out);
    }
    *vehicle_out = frame->vehicle;
    return TRIVET_OK;
}
