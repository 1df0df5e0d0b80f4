/*
 * What somebody's words need before they may stand in XML or HTML, character by character.
 */
#ifndef TRIVET_BASE_XML_TEXT_H
#define TRIVET_BASE_XML_TEXT_H

#include <stddef.h>

/* U+2068 and U+2069: what stands between them runs in its own direction. */
#define TRIVET__ISOLATE "\xE2\x81\xA8"
#define TRIVET__END_ISOLATE "\xE2\x81\xA9"
/* U+FFFD, in the place of what is not shown. */
#define TRIVET__UNKNOWN "\xEF\xBF\xBD"

/* What stands for a byte between tags and inside attributes; NULL if it may stand for itself. */
const char *trivet__entity(char byte);

/*
 * Bytes of the character at text if nobody should meet it in a picture: a control character other
 * than tab and line end, one that turns or embeds the direction of text, U+FFFE, U+FFFF. Else 0.
 */
size_t trivet__unwanted_length(const char *text);

#endif
