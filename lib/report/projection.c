/*
 * A view is a pair of axes on paper: x = x0 + s right.p, y = y0 - s up.p. The pictorial one is the
 * general axonometric projection: turned about the vertical, then tilted.
 */
#include "report/projection.h"

#include "base/decimal.h"
#include "base/text.h"
#include "base/vec3.h"

#include <math.h>
#include <string.h>

static const double DEGREE = 3.14159265358979323846 / 180.0;

void trivet__view_look(trivet__view *view, trivet__look look)
{
    static const double EYES[3][3] = {{0.0, 1.0, 0.0}, {-1.0, 0.0, 0.0}, {0.0, 0.0, 1.0}};
    static const double UPS[3][3] = {{0.0, 0.0, 1.0}, {0.0, 0.0, 1.0}, {0.0, -1.0, 0.0}};
    memset(view, 0, sizeof *view);
    if (look == TRIVET__LOOK_CORNER) {
        const double turn = TRIVET__TURN * DEGREE;
        const double tilt = TRIVET__TILT * DEGREE;
        view->toward[0] = -cos(tilt) * cos(turn);
        view->toward[1] = cos(tilt) * sin(turn);
        view->toward[2] = sin(tilt);
        view->up[0] = sin(tilt) * cos(turn);
        view->up[1] = -sin(tilt) * sin(turn);
        view->up[2] = cos(tilt);
    } else {
        memcpy(view->toward, EYES[look], sizeof view->toward);
        memcpy(view->up, UPS[look], sizeof view->up);
    }
    trivet__cross3(view->up, view->toward, view->right);
}

void trivet__view_point(const trivet__view *view, const double point[3], double paper_out[2])
{
    paper_out[0] = view->x + view->scale * trivet__dot3(view->right, point);
    paper_out[1] = view->y - view->scale * trivet__dot3(view->up, point);
}

double trivet__view_nearness(const trivet__view *view, const double point[3])
{
    return trivet__dot3(view->toward, point);
}

trivet__box trivet__box_empty(void)
{
    return (trivet__box){HUGE_VAL, HUGE_VAL, -HUGE_VAL, -HUGE_VAL};
}

void trivet__box_hold(trivet__box *box, double x, double y)
{
    box->left = fmin(box->left, x);
    box->right = fmax(box->right, x);
    box->top = fmin(box->top, y);
    box->bottom = fmax(box->bottom, y);
}

int trivet__boxes_meet(const trivet__box *one, const trivet__box *other)
{
    return one->left < other->right && other->left < one->right && one->top < other->bottom &&
           other->top < one->bottom;
}

double trivet__round_down(double value)
{
    static const double STEPS[] = {5.0, 2.0, 1.0};
    if (!(value > 0.0) || value > 1e300) {
        return 0.0;
    }
    const double power = pow(10.0, floor(log10(value) + 1e-12));
    for (int i = 0; i < 3; i++) {
        if (STEPS[i] * power <= value * (1.0 + 1e-12)) {
            return STEPS[i] * power;
        }
    }
    return power;
}

double trivet__scale_choose(double most, char *words_out, size_t size)
{
    static const double PARTS[] = {1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0};
    const double full = 1000.0; /* mm on paper for each m: 1 : 1 */
    char number[32];
    if (most >= 2.0 * full) {
        const double times = trivet__round_down(most / full);
        trivet__decimal_write(times, 6, number, sizeof number);
        trivet__text_print(words_out, size, "%s : 1", number);
        return times * full;
    }
    double power = 1.0;
    for (int digits = 0; digits < 9; digits++, power *= 10.0) {
        for (size_t i = 0; i < sizeof PARTS / sizeof PARTS[0]; i++) {
            if (full / (PARTS[i] * power) <= most * (1.0 + 1e-12)) {
                trivet__decimal_write(PARTS[i] * power, 6, number, sizeof number);
                trivet__text_print(words_out, size, "1 : %s", number);
                return full / (PARTS[i] * power);
            }
        }
    }
    trivet__text_print(words_out, size, "1 : 1000000000");
    return full / 1e9;
}
