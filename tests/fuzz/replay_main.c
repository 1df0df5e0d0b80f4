/*
 * Feeds files to a fuzz target, one after the other: the corpus as an ordinary test.
 */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

/* Whether the file could be read; the target itself ends the program if it finds a fault. */
static int replay(const char *path)
{
    enum { MOST = 1024 * 1024 };
    FILE *const file = fopen(path, "rb");
    if (!file) {
        fprintf(stderr, "%s cannot be read\n", path);
        return 0;
    }
    uint8_t *const bytes = malloc(MOST);
    if (bytes) {
        (void)LLVMFuzzerTestOneInput(bytes, fread(bytes, 1, MOST, file));
    }
    free(bytes);
    return fclose(file) == 0;
}

int main(int count, char **paths)
{
    int is_fine = count > 1;
    for (int i = 1; i < count; i++) {
        is_fine = replay(paths[i]) && is_fine;
    }
    return is_fine ? EXIT_SUCCESS : EXIT_FAILURE;
}
