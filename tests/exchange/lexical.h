/* lexical.h - texts that are JSON as this format wants it, and texts that are not. Shared by the test of the gate and
 * by the test that holds it against a JSON reader that is not ours.
 */
#ifndef TESTS_EXCHANGE_LEXICAL_H
#define TESTS_EXCHANGE_LEXICAL_H

#include <stddef.h>

enum lexical_verdict {
    PASSES,
    STOPPED,
    STOPPED_HERE_ONLY /* is JSON, but more than this format allows */
};

struct lexical {
    enum lexical_verdict verdict;
    const char *text;
    size_t n; /* 0: up to the NUL */
    const char *says;
};

/* clang-format off */
static const struct lexical lexical[] = {
    /* RFC 8259, section 2 and 3: one value, white space around it, literal names in lower case */
    {PASSES, "null", 0, ""},
    {PASSES, " \t\r\n[ true , false , null ]\r\n", 0, ""},
    {PASSES, "{}", 0, ""},
    {PASSES, "[]", 0, ""},
    {PASSES, "[[],{},[{}]]", 0, ""},
    {PASSES, "\"\"", 0, ""},
    {PASSES, "{\"a\":{\"a\":[{\"a\":1},{\"a\":2}]},\"b\":[]}", 0, ""},
    {STOPPED, "", 0, "line 1, column 1: found the end of the text, expected a value"},
    {STOPPED, " \n ", 0, "line 2, column 2: found the end of the text"},
    {STOPPED, "[1,2", 0, "line 1, column 5: found the end of the text, expected ',' or ']'"},
    {STOPPED, "{\"a\":1", 0, "expected ',' or '}'"},
    {STOPPED, "[1,]", 0, "line 1, column 4: found ']', expected a value"},
    {STOPPED, "[,1]", 0, "line 1, column 2: found ',', expected a value"},
    {STOPPED, "{\"a\":1,}", 0, "found '}', expected a member's name in double quotes"},
    {STOPPED, "{,}", 0, "expected a member's name in double quotes or '}'"},
    {STOPPED, "{\"a\" 1}", 0, "line 1, column 6: found '1', expected ':' after a member's name"},
    {STOPPED, "{\"a\":}", 0, "found '}', expected a value"},
    {STOPPED, "{a:1}", 0, "found 'a', expected a member's name"},
    {STOPPED, "{1:1}", 0, "found '1'"},
    {STOPPED, "{'a':1}", 0, "found '''"},
    {STOPPED, "[1 2]", 0, "found '2', expected ',' or ']'"},
    {STOPPED, "[1}", 0, "found '}', expected ',' or ']'"},
    {STOPPED, "{\"a\":1]", 0, "found ']', expected ',' or '}'"},
    {STOPPED, "]", 0, "found ']', expected a value"},
    {STOPPED, "[] []", 0, "line 1, column 4: found '[', expected nothing after the end"},
    {STOPPED, "{}\n}", 0, "line 2, column 1: found '}', expected nothing after the end"},
    {STOPPED, "1 2", 0, "expected nothing after the end"},
    {STOPPED, "[]\0", 3, "line 1, column 3: found the character U+0000"},
    {STOPPED, "[1]// note", 0, "found '/'"},
    {STOPPED, "/* note */[1]", 0, "found '/'"},
    {STOPPED, "True", 0, "found 'T', expected a value"},
    {STOPPED, "nul", 0, "found 'n'"},
    {STOPPED, "nullx", 0, "found 'n'"},
    {STOPPED, "NaN", 0, "found 'N'"},
    {STOPPED, "[Infinity]", 0, "line 1, column 2: found 'I'"},
    {STOPPED, "[-Infinity]", 0, "found '-', expected a finite number"},
    {STOPPED, "\v[]", 0, "found the character U+000B"},
    {STOPPED, "\xC2\xA0[]", 0, "column 1"},
    {STOPPED, "\xEF\xBB\xBF[]", 0, "line 1, column 1: found a byte order mark"},

    /* section 6: numbers */
    {PASSES, "[0,-0,0.5,-0.5e+10,1E-5,1e5,123456789012345678901234567890,0.0,5e-324]", 0, ""},
    {STOPPED, "[01]", 0, "found '01', expected a finite number"},
    {STOPPED, "[+1]", 0, "found '+', expected a value"},
    {STOPPED, "[.5]", 0, "found '.', expected a value"},
    {STOPPED, "[5.]", 0, "found '5.'"},
    {STOPPED, "[1.e5]", 0, "found '1.e5'"},
    {STOPPED, "[1e]", 0, "found '1e'"},
    {STOPPED, "[1e+]", 0, "found '1e+'"},
    {STOPPED, "[-]", 0, "found '-'"},
    {STOPPED, "[--1]", 0, "found '--1'"},
    {STOPPED, "[1.2.3]", 0, "found '1.2.3'"},
    {STOPPED, "[0x10]", 0, "found 'x', expected ',' or ']'"},
    {STOPPED, "[1,5e3,2,]", 0, "column 10"},
    {STOPPED, "[1e400]", 0, "found '1e400', expected a finite number"},
    {STOPPED, "[-1e400]", 0, "found '-1e400'"},
    {STOPPED, "[1_000]", 0, "found '_'"},
    {STOPPED_HERE_ONLY, "[0.000000000000000000000000000000000000000000000000000000000000012]", 0, "expected a number of at most 63 characters"},
    {PASSES, "[0.0000000000000000000000000000000000000000000000000000000000012]", 0, ""},

    /* section 7: texts */
    {PASSES, "[\"\\\"\\\\\\/\\n\\t\\u00e9\\uD83C\\uDF4B\"]", 0, ""},
    {PASSES, "[\"\xC3\xA9 \xE6\xBC\xA2 \xF0\x9F\x8D\x8B\"]", 0, ""},
    {PASSES, "[\"\xEF\xBF\xBD\"]", 0, ""},
    {STOPPED, "[\"a", 0, "line 1, column 4: found the end of the text, expected the closing quote"},
    {STOPPED, "[\"\\x41\"]", 0, "line 1, column 3: found a broken escape"},
    {STOPPED, "[\"\\u12\"]", 0, "a broken escape"},
    {STOPPED, "[\"\\u12G4\"]", 0, "a broken escape"},
    {STOPPED, "[\"\\U0041\"]", 0, "a broken escape"},
    {STOPPED, "[\"\\\"]", 0, "found the end of the text"},
    {STOPPED, "[\"a\\", 0, "a broken escape"},
    {STOPPED, "[\"a\nb\"]", 0, "line 1, column 4: found the control character U+000A"},
    {STOPPED, "[\"a\tb\"]", 0, "the control character U+0009"},
    {STOPPED, "[\"a\0b\"]", 7, "the control character U+0000"},
    {STOPPED, "[\"a\033[31mb\"]", 0, "the control character U+001B"},
    {STOPPED_HERE_ONLY, "[\"a\x7F\"]", 0, "the control character U+007F"},
    {STOPPED_HERE_ONLY, "[\"a\xC2\x9B\"]", 0, "the control character U+009B"},
    {STOPPED_HERE_ONLY, "[\"a\xE2\x80\xAE\"]", 0, "the control character U+202E"},
    {STOPPED_HERE_ONLY, "[\"a\xEF\xBF\xBE\"]", 0, "the control character U+FFFE"},
    {STOPPED_HERE_ONLY, "[\"\\u0000\"]", 0, "the control character U+0000"},
    {STOPPED_HERE_ONLY, "[\"\\u001b\"]", 0, "the control character U+001B"},
    {STOPPED_HERE_ONLY, "[\"\\r\"]", 0, "the control character U+000D"},
    {STOPPED_HERE_ONLY, "[\"\\b\"]", 0, "the control character U+0008"},
    {STOPPED_HERE_ONLY, "[\"\\u202e\"]", 0, "the control character U+202E"},
    {STOPPED_HERE_ONLY, "[\"\\ud800\"]", 0, "a broken escape"},
    {STOPPED_HERE_ONLY, "[\"\\ude00\"]", 0, "a broken escape"},
    {STOPPED_HERE_ONLY, "[\"\\ud83c\\ud83c\"]", 0, "a broken escape"},
    {STOPPED_HERE_ONLY, "[\"\\ud83cx\"]", 0, "a broken escape"},
    {STOPPED_HERE_ONLY, "{\"a\\n\":1}", 0, "the control character U+000A"},

    /* section 8.1: UTF-8, of RFC 3629 */
    {STOPPED, "[\"\xFF\xFE\"]", 0, "line 1, column 3: found the byte 0xFF, expected well-formed UTF-8"},
    {STOPPED, "[\"\xC0\xAF\"]", 0, "the byte 0xC0"},
    {STOPPED, "[\"\xE0\x80\x80\"]", 0, "the byte 0xE0"},
    {STOPPED, "[\"\xED\xA0\x80\"]", 0, "the byte 0xED"},
    {STOPPED, "[\"\xF4\x90\x80\x80\"]", 0, "the byte 0xF4"},
    {STOPPED, "[\"\xE6\xBC\"]", 0, "the byte 0xE6"},
    {STOPPED, "[\"\x80\"]", 0, "the byte 0x80"},
    {STOPPED, "[1]\xFF", 0, "the byte 0xFF"},
    {STOPPED, "[\"\xE6\xBC\xA2\xE6\xBC\xA2\",!]", 0, "line 1, column 7: found '!'"},

    /* section 4: names of members are to be unique; this format insists */
    {STOPPED, "{\"a\":1,\"a\":1}", 0, "line 1, column 8: found a member that this object has already"},
    {STOPPED, "{\"a\":1,\"\\u0061\":2}", 0, "line 1, column 8: found a member that this object has already"},
    {STOPPED, "[{},{\"b\":{\"x\":1,\"y\":2,\"x\":3}}]", 0, "found a member that this object has already"},
    {STOPPED, "{\"\":1,\"\":1}", 0, "found a member that this object has already"},
    {STOPPED, "{\"\\ud83c\\udf4b\":1,\"\xF0\x9F\x8D\x8B\":1}", 0, "found a member that this object has already"},
    {STOPPED, "{\"x\":{\"a\":1,\"b\":{\"a\":1}},\"x\":0}", 0, "found a member that this object has already"},
    {PASSES, "{\"x\":{\"b\":1,\"c\":2},\"b\":{\"c\":3},\"c\":4}", 0, ""},
    {PASSES, "{\"a\":1,\"A\":2,\"aa\":3,\"a \":4}", 0, ""},
};
/* clang-format on */

enum { LEXICALS = sizeof lexical / sizeof lexical[0] };

#endif
