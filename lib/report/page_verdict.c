/*
 * The verdict, what the frame must stand, what was not checked, and the cautions.
 */
#include "report/page.h"

#include <string.h>

/* The class of a verdict's word, and the word in capitals. */
static void write_word(trivet__page *page, int32_t verdict, const char *more)
{
    static const char *const CLASSES[] = {"not-checked", "holds", "tight", "may-crack", "fails"};
    static const char *const WORDS[] = {"NOT CHECKED", "HOLDS", "TIGHT", "MAY CRACK", "FAILS"};
    const int i = verdict >= 0 && verdict <= TRIVET_FAILS ? verdict : 0;
    trivet__write(page->out, "<span class='word %r%r'>%r</span>", CLASSES[i], more, WORDS[i]);
}

void trivet__page_verdict(trivet__page *page)
{
    static const char *const LINES[TRIVET_LINE_COUNT] = {"overload", "cracking", "service"};
    static const char *const ASKS[TRIVET_LINE_COUNT] = {"does anything yield, break or strip",
                                                        "does anything crack after many bumps",
                                                        "droop and other limits that were set"};
    const int32_t overall = trivet_checks_overall(page->checks);
    trivet__section_open(page, "verdict", "Does it hold?");
    trivet__write(page->out, "<p class='verdict'>");
    write_word(page, overall, " big");
    trivet__write(page->out, overall == TRIVET_HOLDS || overall == TRIVET_TIGHT
                                 ? " as far as it was checked</p>"
                                 : "</p>");
    trivet__write(page->out,
                  "<table class='lines'><thead><tr><th scope='col'>line</th><th scope='col'>verdict"
                  "</th><th scope='col'>what governs</th></tr></thead><tbody>");
    for (int32_t line = 0; line < TRIVET_LINE_COUNT; line++) {
        char text[TRIVET__PAGE_TEXT];
        trivet__write(page->out, "<tr><th scope='row'>%r <small>%r</small></th><td>", LINES[line],
                      ASKS[line]);
        write_word(page, trivet_checks_verdict(page->checks, line, NULL), "");
        trivet_checks_sentence(page->checks, line, &page->units, text, sizeof text);
        trivet__write(page->out, "</td><td class='s'>%h</td></tr>", text);
    }
    trivet__table_close(page);
    trivet__write(page->out,
                  "<p>The answer goes no further than what was looked at: read "
                  "<a href='#not-checked'>what was not checked</a> and <a href='#cautions'>before "
                  "you trust it</a>.</p>");
    trivet__section_close(page);
}

static void write_gaps(trivet__page *page)
{
    for (int32_t i = 0; trivet_frame_gap(page->frame, i, NULL); i++) {
        const char *why = "";
        const char *const what = trivet_frame_gap(page->frame, i, &why);
        if (i == 0) {
            trivet__write(page->out, "<h3>Asked for, and not looked at</h3><ul>");
        }
        trivet__write(page->out, "<li>%h: %h</li>", what, why);
    }
    if (trivet_frame_gap(page->frame, 0, NULL)) {
        trivet__write(page->out, "</ul>");
    }
}

void trivet__page_stories(trivet__page *page)
{
    static const char *const HEADINGS[] = {"case", "what happens", "where its numbers come from"};
    int count = 0;
    for (int32_t c = 0; c < trivet_frame_count(page->frame, TRIVET_KIND_CASE); c++) {
        count += trivet_frame_case_story(page->frame, c, NULL)[0] != '\0';
    }
    if (count == 0 && !trivet_frame_gap(page->frame, 0, NULL)) {
        return;
    }
    trivet__section_open(page, "stories", "What it must stand");
    if (count > 0) {
        trivet__write(page->out, "<p>Every number can be changed in the file.</p>");
        trivet__table_open(page, "", "oss", HEADINGS);
    }
    for (int32_t c = 0; c < trivet_frame_count(page->frame, TRIVET_KIND_CASE); c++) {
        const char *source = "";
        const char *const story = trivet_frame_case_story(page->frame, c, &source);
        if (story[0]) {
            trivet__cell(page, trivet_frame_name(page->frame, TRIVET_KIND_CASE, c));
            trivet__cell(page, story);
            trivet__cell(page, source);
        }
    }
    if (count > 0) {
        trivet__table_close(page);
    }
    write_gaps(page);
    trivet__section_close(page);
}

/* Whether an earlier thing was left out for the same reason: it was listed with that. */
static int is_listed(const trivet_checks *checks, int32_t index, const char *why)
{
    const char *other = NULL;
    for (int32_t i = 0; i < index; i++) {
        if (trivet_checks_omission(checks, i, NULL, &other) && strcmp(why, other) == 0) {
            return 1;
        }
    }
    return 0;
}

void trivet__page_omissions(trivet__page *page)
{
    const int32_t count = trivet_checks_omission_count(page->checks);
    trivet__section_open(page, "not-checked", "NOT CHECKED");
    trivet__write(page->out, "<ul>");
    for (int32_t i = 0; i < count; i++) {
        const char *why = "";
        trivet_checks_omission(page->checks, i, NULL, &why);
        if (is_listed(page->checks, i, why)) {
            continue;
        }
        trivet__write(page->out, "<li>");
        for (int32_t k = i; k < count; k++) {
            const char *other = "";
            const char *const what = trivet_checks_omission(page->checks, k, NULL, &other);
            if (strcmp(why, other) == 0) {
                trivet__write(page->out, k == i ? "%h" : ", %h", what);
            }
        }
        trivet__write(page->out, ": %h</li>", why);
    }
    for (int32_t i = 0; trivet_document_unused(page->document, i); i++) {
        trivet__write(page->out,
                      "<li><bdi>%e</bdi>: this version reads past that part of the file</li>",
                      trivet_document_unused(page->document, i));
    }
    trivet__write(page->out, "</ul>");
    trivet__section_close(page);
}

void trivet__page_cautions(trivet__page *page)
{
    trivet__section_open(page, "cautions", "Before you trust it");
    trivet__write(page->out, "<ul>");
    for (int32_t i = 0; trivet_caution(i); i++) {
        trivet__write(page->out, "<li>%e</li>", trivet_caution(i));
    }
    trivet__write(page->out, "</ul>");
    trivet__section_close(page);
}

void trivet__page_file(trivet__page *page)
{
    const char *const file = page->file_name[0] ? page->file_name : "rack.yaml";
    trivet__section_open(page, "file", "To do it again");
    trivet__write(page->out,
                  "<p>Everything on this page was worked out by trivet %e (binary interface %i) "
                  "from the file below, format 1, %i bytes. Saved as <bdi>%e</bdi>, it gives the "
                  "same page with:</p><pre><code>trivet report <bdi>%e</bdi> -o report.html"
                  "</code></pre><h3>The file</h3><pre id='source'>%h</pre>",
                  trivet_version(), (int)trivet_abi(),
                  (int)strlen(trivet_document_text(page->document)), file, file,
                  trivet_document_text(page->document));
    trivet__section_close(page);
}
