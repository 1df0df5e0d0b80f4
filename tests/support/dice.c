/*
 * Random numbers for tests.
 */
#include "support/dice.h"

#include <math.h>

static uint64_t roll_bits(dice *d)
{
    d->state ^= d->state >> 12;
    d->state ^= d->state << 25;
    d->state ^= d->state >> 27;
    return d->state * UINT64_C(0x2545F4914F6CDD1D);
}

dice dice_new(uint64_t seed)
{
    /* The golden ratio spreads small seeds over all bits; the state must not be 0. */
    dice d = {(seed + 1) * UINT64_C(0x9E3779B97F4A7C15)};
    if (d.state == 0) {
        d.state = 1;
    }
    for (int i = 0; i < 8; i++) {
        roll_bits(&d);
    }
    return d;
}

double dice_between(dice *d, double low, double high)
{
    const double share = ldexp((double)(roll_bits(d) >> 11), -53);
    return low + share * (high - low);
}

int dice_below(dice *d, int count)
{
    return (int)(roll_bits(d) % (uint64_t)count);
}

int dice_chance(dice *d, double probability)
{
    return dice_between(d, 0.0, 1.0) < probability;
}

void dice_vector(dice *d, double size, double out[3])
{
    for (int i = 0; i < 3; i++) {
        out[i] = dice_between(d, -size, size);
    }
}

void dice_rotation(dice *d, double rotation[9])
{
    /* A unit quaternion from a random point in the ball; its matrix has orthonormal rows. */
    double q[4];
    double square;
    do {
        square = 0.0;
        for (int i = 0; i < 4; i++) {
            q[i] = dice_between(d, -1.0, 1.0);
            square += q[i] * q[i];
        }
    } while (square > 1.0 || square < 0.01);
    const double s = 2.0 / square;
    const double w = q[0], x = q[1], y = q[2], z = q[3];
    rotation[0] = 1.0 - s * (y * y + z * z);
    rotation[1] = s * (x * y - w * z);
    rotation[2] = s * (x * z + w * y);
    rotation[3] = s * (x * y + w * z);
    rotation[4] = 1.0 - s * (x * x + z * z);
    rotation[5] = s * (y * z - w * x);
    rotation[6] = s * (x * z - w * y);
    rotation[7] = s * (y * z + w * x);
    rotation[8] = 1.0 - s * (x * x + y * y);
}

void dice_order(dice *d, int count, int *order)
{
    for (int i = 0; i < count; i++) {
        order[i] = i;
    }
    for (int i = count - 1; i > 0; i--) {
        const int k = dice_below(d, i + 1);
        const int kept = order[i];
        order[i] = order[k];
        order[k] = kept;
    }
}
