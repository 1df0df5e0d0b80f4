/*
 * Somebody's words in XML and HTML.
 */
#include "base/xml_text.h"

size_t trivet__unwanted_length(const char *text)
{
    const unsigned char *const at = (const unsigned char *)text;
    if ((at[0] < 0x20U && at[0] != '\n' && at[0] != '\t') || at[0] == 0x7FU) {
        return 1;
    }
    if (at[0] == 0xC2U && at[1] >= 0x80U && at[1] < 0xA0U) {
        return 2; /* U+0080 to U+009F */
    }
    if (at[0] == 0xE2U && at[1] == 0x80U && at[2] >= 0xAAU && at[2] <= 0xAEU) {
        return 3; /* U+202A to U+202E: embeddings and overrides */
    }
    if (at[0] == 0xE2U && at[1] == 0x81U && at[2] >= 0xA6U && at[2] <= 0xA9U) {
        return 3; /* U+2066 to U+2069: isolates */
    }
    return at[0] == 0xEFU && at[1] == 0xBFU && (at[2] == 0xBEU || at[2] == 0xBFU) ? 3 : 0;
}

const char *trivet__entity(char byte)
{
    switch (byte) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    case '\'':
        return "&#39;";
    default:
        return NULL;
    }
}
