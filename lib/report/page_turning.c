/*
 * What the page's script turns: places in space, as elements that show nothing by themselves.
 */
#include "report/body.h"
#include "report/page.h"
#include "report/picture.h"

#include <math.h>

enum { MOVED_PIECES = 8 };

/* A place in the script's own units, mm to a tenth. */
static void write_place(trivet__page *page, const char *before, const double at[3])
{
    trivet__write(page->out, "%r%n %n %n", before, 0.1 * nearbyint(1e4 * at[0]),
                  0.1 * nearbyint(1e4 * at[1]), 0.1 * nearbyint(1e4 * at[2]));
}

void trivet__page_moved(trivet__page *page, int32_t in_case)
{
    const double magnified = trivet__magnify(page->frame, page->result, in_case);
    for (int32_t s = 0; s < trivet_result_span_count(page->result); s++) {
        trivet__body body;
        if (!trivet__body_find(page->frame, page->result, s, &body)) {
            continue;
        }
        trivet__write(page->out, "<data class='moved-span' value='");
        for (int i = 0; i <= MOVED_PIECES; i++) {
            const double share = (double)i / MOVED_PIECES;
            double move[6] = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
            double at[3];
            trivet_result_at(page->result, in_case, s, share * body.span.length, NULL, move);
            for (int k = 0; k < 3; k++) {
                at[k] = body.from[k] + share * (body.to[k] - body.from[k]) + magnified * move[k];
            }
            write_place(page, i > 0 ? " " : "", at);
        }
        trivet__write(page->out, "'></data>");
    }
}

void trivet__page_turning(trivet__page *page, const trivet__use *uses)
{
    trivet__write(page->out, "<div id='turning' hidden data-turn='%i' data-tilt='%i'>",
                  (int)TRIVET__TURN, (int)TRIVET__TILT);
    for (int32_t j = 0; j < trivet_frame_count(page->frame, TRIVET_KIND_JOINT); j++) {
        trivet__write(page->out, "<data class='joint' data-name='%b' value='",
                      trivet_frame_name(page->frame, TRIVET_KIND_JOINT, j));
        write_place(page, "", trivet_frame_position(page->frame, j));
        trivet__write(page->out, "'></data>");
    }
    for (int32_t s = 0; s < trivet_result_span_count(page->result); s++) {
        trivet__body body;
        int32_t span_count = 0;
        char used[64] = "";
        if (!trivet__body_find(page->frame, page->result, s, &body)) {
            continue;
        }
        const int32_t tube = body.span.tube;
        const int32_t first = trivet_result_tube_spans(page->result, tube, &span_count);
        trivet__write(page->out, "<data class='span' data-wide='%n' data-name='",
                      2e3 * fmax(body.half_width, body.half_height));
        if (s == first + span_count / 2) {
            if (uses[tube].check >= 0) {
                trivet_used_text(uses[tube].used, used, sizeof used);
            }
            trivet__write(page->out, "%b %r",
                          trivet_frame_name(page->frame, TRIVET_KIND_TUBE, tube), used);
        }
        write_place(page, "' value='", body.from);
        write_place(page, " ", body.to);
        trivet__write(page->out, "'></data>");
    }
    trivet__write(page->out, "</div>");
}
