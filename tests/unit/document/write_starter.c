/*
 * Writes the starter file to standard output, for tests in other languages.
 */
#include "trivet/document.h"

#include <stdio.h>

int main(void)
{
    return fputs(trivet_starter_text(), stdout) < 0;
}
