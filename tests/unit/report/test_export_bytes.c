/*
 * Text made fit for XML and JSON, and names of layers.
 */
#include "report/export_bytes.h"
#include "report/export_dxf.h"
#include "support/run.h"
#include "trivet/document.h"

#include <float.h>
#include <stdlib.h>
#include <string.h>

static void is_written(trivet__bytes *bytes, const char *text)
{
    char *out = NULL;
    size_t length = 0;
    ck_assert_int_eq(trivet__bytes_hand_out(bytes, &out, &length, NULL), TRIVET_OK);
    ck_assert_str_eq(out, text);
    ck_assert_uint_eq(length, strlen(text));
    ck_assert_ptr_null(bytes->at);
    trivet_text_free(out);
}

START_TEST(xml_keeps_its_own_characters_out)
{
    trivet__bytes bytes = {0};
    trivet__bytes_xml(&bytes, "<a href=\"x\"> & 'ä' \x01\t\n\xEF\xBF\xBE\xEF\xBF\xBF\xEF\xBF\xBD");
    is_written(&bytes, "&lt;a href=&quot;x&quot;&gt; &amp; &#39;ä&#39; \xEF\xBF\xBD\t\n"
                       "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");
}
END_TEST

START_TEST(json_texts_are_quoted)
{
    trivet__bytes bytes = {0};
    trivet__bytes_json(&bytes, "a \"b\" \\ \x01\n\x1F </script> ü");
    is_written(&bytes, "\"a \\\"b\\\" \\\\ \\u0001\\u000a\\u001f </script> ü\"");
}
END_TEST

START_TEST(numbers_read_back_to_the_same_double)
{
    const double values[] = {0.1, 1.0 / 3.0, -DBL_MIN, DBL_MAX, 5e-324, 1e22, -1.7976e-7, 0.0};
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        trivet__bytes bytes = {0};
        char *out = NULL;
        trivet__bytes_number(&bytes, values[i]);
        ck_assert_int_eq(trivet__bytes_hand_out(&bytes, &out, NULL, NULL), TRIVET_OK);
        ck_assert(strtod(out, NULL) == values[i]);
        trivet_text_free(out);
    }
}
END_TEST

START_TEST(an_empty_file_is_a_file)
{
    trivet__bytes bytes = {0};
    is_written(&bytes, "");
}
END_TEST

START_TEST(dxf_texts_are_ascii)
{
    trivet__bytes bytes = {0};
    trivet__dxf_text(&bytes, 1, "ä %%d 100 % ^J \\P \x01\x7F \U0001F6E0 z");
    is_written(&bytes, "  1\r\n\\U+00E4 \\U+0025%d 100 % \\U+005EJ \\U+005CP ?? \\U+D83D\\U+DEE0 z"
                       "\r\n");
    trivet__dxf_number(&bytes, 40, 12.0);
    trivet__dxf_number(&bytes, 140, -0.5);
    trivet__dxf_length(&bytes, 10, 1e-13);
    is_written(&bytes, " 40\r\n12.0\r\n140\r\n-0.5\r\n 10\r\n0.0\r\n");
}
END_TEST

START_TEST(dxf_values_stay_short)
{
    char name[128];
    memset(name, 'x', sizeof name - 1);
    name[sizeof name - 1] = '\0';
    trivet__bytes bytes = {0};
    ck_assert_uint_eq(trivet__dxf_text(&bytes, 1, name), 127);
    trivet__bytes_free(&bytes);
    for (int i = 0; i < 126; i += 2) {
        memcpy(name + i, "\xD7\x90", 2); /* U+05D0 */
    }
    name[126] = '\0';
    const size_t first = trivet__dxf_text(&bytes, 1, name);
    ck_assert(first % 2 == 0 && first < 126);
    ck_assert_uint_eq(bytes.length, 5 + first / 2 * 7 + 2);
    ck_assert_uint_le(bytes.length, 5 + 255 + 2);
    ck_assert_uint_eq(trivet__dxf_text(&bytes, 1, name + first), 126 - first);
    trivet__bytes_free(&bytes);
}
END_TEST

START_TEST(layers_have_names_that_release_12_takes)
{
    trivet__layer list[16] = {{"", NULL, 0}};
    trivet__layers layers = {list, 0};
    const char *const names[] = {"rail", "Rail", "r\xC3\xA4il 2", "", "RAIL_2"};
    const char *const wanted[] = {"TUBE_RAIL", "TUBE_RAIL_2", "TUBE_R_IL_2", "TUBE_",
                                  "TUBE_RAIL_2_2"};
    for (int32_t i = 0; i < 5; i++) {
        ck_assert_int_eq(trivet__layer_add(&layers, "TUBE_", names[i], 1), i);
        ck_assert_str_eq(list[i].name, wanted[i]);
        ck_assert_ptr_eq(list[i].of, names[i]);
    }
    char name[128];
    memset(name, 'x', sizeof name - 1);
    name[sizeof name - 1] = '\0';
    for (int i = 0; i < 11; i++) {
        trivet__layer_add(&layers, "TUBE_", name, 1);
    }
    ck_assert_str_eq(list[5].name, "TUBE_XXXXXXXXXXXXXXXXXXXXXXXXXX");
    ck_assert_str_eq(list[15].name, "TUBE_XXXXXXXXXXXXXXXXXXXXXXX_11");
}
END_TEST

int main(void)
{
    return run_tests("export bytes",
                     TESTS(xml_keeps_its_own_characters_out, json_texts_are_quoted,
                           numbers_read_back_to_the_same_double, an_empty_file_is_a_file,
                           dxf_texts_are_ascii, dxf_values_stay_short,
                           layers_have_names_that_release_12_takes));
}
