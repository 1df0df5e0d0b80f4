/*
 * Names as people write them: "m6", "M 6"; "Grade 5", "grade5".
 */
#include "stock/spelling.h"

static int lower(char c)
{
    return c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c;
}

int trivet__same_name(const char *one, const char *other)
{
    for (;;) {
        while (*one == ' ') {
            one++;
        }
        while (*other == ' ') {
            other++;
        }
        if (lower(*one) != lower(*other)) {
            return 0;
        }
        if (*one == '\0') {
            return 1;
        }
        one++;
        other++;
    }
}
