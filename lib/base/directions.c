/*
 * The words for the six ways to move.
 */
#include "base/directions.h"

const char *const *trivet__direction_words(void)
{
    static const char *const words[TRIVET__DIRECTIONS] = {"x", "y", "z", "rx", "ry", "rz"};
    return words;
}
