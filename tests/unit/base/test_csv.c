#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

#include "buf.h"
#include "csv.h"
#include "test.h"

/* A reader over @len bytes at @text. */
struct sheet {
    FILE *from;
    struct csv *csv;
};

static struct sheet
sheet(const char *text, size_t len, char separator)
{
    struct sheet s = {.from = fmemopen((void *)(uintptr_t)text, len, "r")};

    assert_non_null(s.from);
    s.csv = csv_new(s.from, separator);
    assert_non_null(s.csv);
    return s;
}

static void
put_away(struct sheet s)
{
    csv_free(s.csv);
    fclose(s.from);
}

/* Everything in @text as "LINE[field][field]\n" a record; a bad record as
 * "LINE!", and what is broken as "LINE!!" at the end. */
static void
reads_bytes(const char *text, size_t len, char separator, const char *expected)
{
    struct sheet s = sheet(text, len, separator);
    struct buf *seen = buf_new();
    struct fault f;
    enum csv_got got;

    while ((got = csv_next(s.csv, &f)) != CSV_END && got != CSV_BROKEN) {
        buf_print(seen, "%d", csv_line(s.csv));
        for (size_t i = 0; i < csv_count(s.csv) && got == CSV_RECORD; i++)
            buf_print(seen, "[%s]", csv_field(s.csv, i));
        buf_text(seen, got == CSV_BAD ? "!\n" : "\n");
    }
    if (got == CSV_BROKEN)
        buf_print(seen, "%d!!", csv_line(s.csv));
    assert_string_equal(buf_str(seen), expected);
    buf_free(seen);
    put_away(s);
}

static void
reads(const char *text, const char *expected)
{
    reads_bytes(text, strlen(text), 0, expected);
}

/* What the first record of @text that cannot be used is refused with. */
static void
refuses(
    const char *text, size_t len, enum csv_got how, int code, const char *part)
{
    struct sheet s = sheet(text, len, ',');
    struct fault f = {0};
    enum csv_got got;

    while ((got = csv_next(s.csv, &f)) == CSV_RECORD)
        ;
    assert_int_equal(got, how);
    assert_int_equal(f.code, code);
    if (strstr(f.text, part) == NULL)
        fail_msg("'%s' does not say '%s'", f.text, part);
    put_away(s);
}

/* The seven rules of RFC 4180, section 2, with its own examples. */
static void
the_examples_of_the_standard(void **state)
{
    (void)state;
    reads("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
        "1[aaa][bbb][ccc]\n2[zzz][yyy][xxx]\n");
    reads("aaa,bbb,ccc\r\nzzz,yyy,xxx", "1[aaa][bbb][ccc]\n2[zzz][yyy][xxx]\n");
    reads("field_name,field_name,field_name\r\naaa,bbb,ccc\r\n",
        "1[field_name][field_name][field_name]\n2[aaa][bbb][ccc]\n");
    reads("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx",
        "1[aaa][bbb][ccc]\n2[zzz][yyy][xxx]\n");
    reads("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx",
        "1[aaa][b\r\nbb][ccc]\n3[zzz][yyy][xxx]\n");
    reads("\"aaa\",\"b\"\"bb\",\"ccc\"", "1[aaa][b\"bb][ccc]\n");
    reads("a, b ,c", "1[a][ b ][c]\n"); /* spaces are part of a field */
}

static void
empty_fields_and_lines_are_kept(void **state)
{
    (void)state;
    reads(",", "1[][]\n");
    reads("a,,\n", "1[a][][]\n");
    reads("\"\",\"\"\"\"\n", "1[][\"]\n");
    reads("a\n\nb\n", "1[a]\n2[]\n3[b]\n");
    reads("\n", "1[]\n");
    reads("", "");
}

static void
lines_end_with_lf_or_crlf(void **state)
{
    (void)state;
    reads("a,b\nc,d\r\ne,f", "1[a][b]\n2[c][d]\n3[e][f]\n");
    reads("a\rb\n", "1!!");
    reads("a\n\"b\rc\"\n", "1[a]\n2[b\rc]\n"); /* in quotes it is text */
    refuses("a\rb\n", 4, CSV_BROKEN, EX_DATAERR, "LF or CRLF");
}

static void
a_record_is_where_it_begins(void **state)
{
    (void)state;
    reads("a,b\n\"1\n2\n3\",x\n\n\"4\r\n5\",y\nend,z\n",
        "1[a][b]\n2[1\n2\n3][x]\n5[]\n6[4\r\n5][y]\n8[end][z]\n");
}

static void
the_separator_is_found_or_given(void **state)
{
    (void)state;
    reads("a;b;c\n1,5;2;3\n", "1[a][b][c]\n2[1,5][2][3]\n");
    reads("a\tb\n1,5\t2;3\n", "1[a][b]\n2[1,5][2;3]\n");
    reads("\"x,y,z\";b\n", "1[x,y,z][b]\n"); /* not counted in quotes */
    reads("a;b,c\n", "1[a;b][c]\n");         /* as many: the comma */
    reads("alone\n1;2\n", "1[alone]\n2[1;2]\n");
    reads_bytes("a,b;c,d\n", 8, ';', "1[a,b][c,d]\n");
    reads_bytes("a,b\tc\n", 6, '\t', "1[a,b][c]\n");
}

static void
a_byte_order_mark_is_passed_over(void **state)
{
    (void)state;
    reads("\xef\xbb\xbf"
          "a,b\n1,2\n",
        "1[a][b]\n2[1][2]\n");
    reads("\xef\xbb\xbf\"a\",b\n", "1[a][b]\n");
    reads("\xef\xbb\xbf", "");
    reads("a\n\xef\xbb\xbf"
          "b\n",
        "1[a]\n2[\xef\xbb\xbf"
        "b]\n"); /* elsewhere it is a character */
}

static void
a_quote_out_of_place_spoils_its_record_alone(void **state)
{
    (void)state;
    reads("a\nb\"c\nd\n", "1[a]\n2!\n3[d]\n");
    reads("a\n\"b\"c\nd\n", "1[a]\n2!\n3[d]\n");
    reads("a\n\"b\" ,c\nd\n", "1[a]\n2!\n3[d]\n");
    reads("a\n\"b\"c", "1[a]\n2!\n");
    refuses("a,6\"\n", 5, CSV_BAD, EX_DATAERR, "cell 2 has a quote");
    refuses("\"a\"b\n", 5, CSV_BAD, EX_DATAERR, "cell 1 goes on behind");
}

static void
a_quote_never_closed_breaks_the_rest(void **state)
{
    (void)state;
    reads("a\n\"b\nc\nd\n", "1[a]\n2!!");
    refuses("a,\"b\n", 5, CSV_BROKEN, EX_DATAERR, "never closed");
}

static void
what_is_no_text_is_refused(void **state)
{
    static const char nul[] = "a\nb\0c\nd\n";

    (void)state;
    reads_bytes(nul, sizeof nul - 1, 0, "1[a]\n2!\n3[d]\n");
    refuses(nul, sizeof nul - 1, CSV_BAD, EX_DATAERR, "NUL");
    reads("caf\xc3\xa9\n", "1[caf\xc3\xa9]\n");
    reads("caf\xe9\nb\n", "1!\n2[b]\n"); /* ISO 8859-1 */
    refuses("x,caf\xe9\n", 7, CSV_BAD, EX_DATAERR, "cell 2 is not UTF-8");
    reads("\xed\xa0\x80\n", "1!\n"); /* a surrogate */
}

/* @count copies of @piece in an allocated text. */
static char *
many(const char *piece, size_t count)
{
    size_t len = strlen(piece);
    char *text = malloc(count * len + 1);

    assert_non_null(text);
    for (size_t i = 0; i < count; i++)
        memcpy(text + i * len, piece, len);
    text[count * len] = '\0';
    return text;
}

static void
limits_are_told(void **state)
{
    char *longest = many("x", CSV_FIELD_MOST);
    char *longer = many("x", CSV_FIELD_MOST + 1);
    char *widest = many(",", CSV_FIELDS_MOST - 1);
    char *wider = many(",", CSV_FIELDS_MOST);
    struct sheet s = sheet(longest, strlen(longest), ',');
    struct fault f;

    (void)state;
    assert_int_equal(csv_next(s.csv, &f), CSV_RECORD);
    assert_string_equal(csv_field(s.csv, 0), longest);
    put_away(s);
    refuses(longer, strlen(longer), CSV_BROKEN, EX_DATAERR, "65535 bytes");
    s = sheet(widest, strlen(widest), ',');
    assert_int_equal(csv_next(s.csv, &f), CSV_RECORD);
    assert_int_equal(csv_count(s.csv), CSV_FIELDS_MOST);
    put_away(s);
    refuses(wider, strlen(wider), CSV_BROKEN, EX_DATAERR, "1024 cells");
    free(longest);
    free(longer);
    free(widest);
    free(wider);
}

/* The reader takes the file in pieces of a power of two; so the edges cut a
 * record of 17 bytes at each of its bytes in turn. */
static void
the_edges_of_pieces_do_not_show(void **state)
{
    static const char row[] = "aa,\"b\"\"c\r\nd\",\xc3\xa9\r\n";
    char *text = many(row, 80000);
    struct sheet s = sheet(text, strlen(text), ',');
    struct fault f;
    int n = 0;

    (void)state;
    while (csv_next(s.csv, &f) == CSV_RECORD) {
        assert_int_equal(csv_line(s.csv), 2 * n + 1);
        assert_int_equal(csv_count(s.csv), 3);
        assert_string_equal(csv_field(s.csv, 1), "b\"c\r\nd");
        assert_string_equal(csv_field(s.csv, 2), "\xc3\xa9");
        n++;
    }
    assert_int_equal(n, 80000);
    put_away(s);
    free(text);
}

static void
a_failed_reading_is_not_an_end(void **state)
{
    FILE *folder = fopen(".", "r"); /* opens, and cannot be read */
    struct csv *c = csv_new(folder, ',');
    struct fault f = {0};

    (void)state;
    assert_int_equal(csv_next(c, &f), CSV_BROKEN);
    assert_int_equal(f.code, EX_IOERR);
    csv_free(c);
    fclose(folder);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_examples_of_the_standard),
        cmocka_unit_test(empty_fields_and_lines_are_kept),
        cmocka_unit_test(lines_end_with_lf_or_crlf),
        cmocka_unit_test(a_record_is_where_it_begins),
        cmocka_unit_test(the_separator_is_found_or_given),
        cmocka_unit_test(a_byte_order_mark_is_passed_over),
        cmocka_unit_test(a_quote_out_of_place_spoils_its_record_alone),
        cmocka_unit_test(a_quote_never_closed_breaks_the_rest),
        cmocka_unit_test(what_is_no_text_is_refused),
        cmocka_unit_test(limits_are_told),
        cmocka_unit_test(the_edges_of_pieces_do_not_show),
        cmocka_unit_test(a_failed_reading_is_not_an_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
