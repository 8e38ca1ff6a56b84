#include <gmime/gmime.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sysexits.h>
#include <unistd.h>

#include "buf.h"
#include "message.h"
#include "test.h"
#include "transport.h"

#define E_ACUTE "\xc3\xa9"

static const char calendar[] = "BEGIN:VCALENDAR\r\n"
                               "SUMMARY:Pr" E_ACUTE "vu\r\n"
                               "END:VCALENDAR\r\n";
static const struct mail_attachment attachment = {
    .name = "due.ics",
    .bytes = calendar,
    .len = sizeof calendar - 1,
};
static const struct mail_message plain = {
    .from = "bus@skerrow.example",
    .from_name = "Skerrow Isles, Transport",
    .to = "manager@skerrow.example",
    .reply_to = "office@skerrow.example",
    .subject = "3 due this week",
    .list_id = "dues.skerrow.example",
    .message_id = "0123456789abcdef@skerrow.example",
    .date = 1772338620, /* 2026-03-01T04:17:00Z, by date(1) */
    .text = "K7 - Annual test\n",
};

/* The bytes of @m, every line of which is ASCII of at most 998 octets and ends
 * with CRLF (RFC 5322, 2.1.1); free with buf_free(). */
static struct buf *
composed(const struct mail_message *m)
{
    struct fault f = {0};
    struct buf *out = buf_new();

    assert_non_null(out);
    if (mail_compose(m, out, &f))
        fail_msg("%s", f.text);
    for (const char *at = buf_str(out); *at != '\0';) {
        size_t len = strcspn(at, "\r\n");
        assert_in_range(len, 0, 998);
        for (size_t i = 0; i < len; i++)
            assert_in_range(at[i], 1, 0x7e);
        assert_memory_equal(at + len, "\r\n", 2);
        at += len + 2;
    }
    return out;
}

static GMimeMessage *
parsed(const struct buf *bytes)
{
    GMimeStream *stream =
        g_mime_stream_mem_new_with_buffer(buf_str(bytes), buf_len(bytes));
    GMimeParser *parser = g_mime_parser_new_with_stream(stream);
    GMimeMessage *message = g_mime_parser_construct_message(parser, NULL);

    assert_non_null(message);
    g_object_unref(parser);
    g_object_unref(stream);
    return message;
}

/* The decoded content of a part is the @len bytes at @wanted. */
static void
check_content(GMimeObject *part, const char *wanted, size_t len)
{
    GMimeStream *stream = g_mime_stream_mem_new();

    assert_true(GMIME_IS_PART(part));
    g_mime_data_wrapper_write_to_stream(
        g_mime_part_get_content(GMIME_PART(part)), stream);
    GByteArray *bytes =
        g_mime_stream_mem_get_byte_array(GMIME_STREAM_MEM(stream));
    assert_int_equal(bytes->len, len);
    assert_memory_equal(bytes->data, wanted, len);
    g_object_unref(stream);
}

static void
check_header(GMimeMessage *message, const char *name, const char *wanted)
{
    const char *value = g_mime_object_get_header(GMIME_OBJECT(message), name);

    assert_non_null(value);
    assert_string_equal(value, wanted);
}

static void
check_mailbox(GMimeMessage *message, GMimeAddressType type, const char *name,
    const char *address)
{
    InternetAddressList *list = g_mime_message_get_addresses(message, type);

    assert_int_equal(internet_address_list_length(list), 1);
    InternetAddress *one = internet_address_list_get_address(list, 0);
    assert_true(INTERNET_ADDRESS_IS_MAILBOX(one));
    /* GMime reads no name as an empty one. */
    assert_string_equal(internet_address_get_name(one), name ? name : "");
    assert_string_equal(
        internet_address_mailbox_get_addr(INTERNET_ADDRESS_MAILBOX(one)),
        address);
}

static void
headers(void **state)
{
    struct buf *bytes = composed(&plain);
    GMimeMessage *message = parsed(bytes);

    (void)state;
    check_header(message, "Date", "Sun, 01 Mar 2026 04:17:00 +0000");
    check_header(message, "Message-ID", "<0123456789abcdef@skerrow.example>");
    check_mailbox(message, GMIME_ADDRESS_TYPE_FROM, plain.from_name,
        "bus@skerrow.example");
    check_mailbox(
        message, GMIME_ADDRESS_TYPE_TO, NULL, "manager@skerrow.example");
    check_mailbox(
        message, GMIME_ADDRESS_TYPE_REPLY_TO, NULL, "office@skerrow.example");
    check_header(message, "Subject", "3 due this week");
    check_header(message, "Auto-Submitted", "auto-generated");
    check_header(message, "X-Auto-Response-Suppress", "All");
    check_header(message, "List-Id", "<dues.skerrow.example>");
    check_header(message, "MIME-Version", "1.0");
    assert_null(strstr(buf_str(bytes), "Cc:"));
    /* What is plain stays legible. */
    assert_non_null(strstr(buf_str(bytes), "\r\n\r\nK7 - Annual test\r\n"));
    g_object_unref(message);
    buf_free(bytes);
}

static void
names(void **state)
{
    static const char *const all[] = {"Skerrow Isles",
        "K7 (the bus), \"x\" <y>", "Caf" E_ACUTE ", ltd",
        "=?utf-8?q?abc?=", "a@b.example",
        ("A name of the office that is longer than what fits into a line of a "
         "header, which is seldom \xf0\x9f\x9a\x8c")};

    (void)state;
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        struct mail_message m = plain;
        m.from_name = all[i];
        struct buf *bytes = composed(&m);
        GMimeMessage *message = parsed(bytes);
        check_mailbox(
            message, GMIME_ADDRESS_TYPE_FROM, all[i], "bus@skerrow.example");
        g_object_unref(message);
        buf_free(bytes);
    }
}

static void
headers_that_are_not_given(void **state)
{
    struct mail_message m = plain;

    (void)state;
    m.from_name = m.reply_to = m.list_id = NULL;
    struct buf *bytes = composed(&m);
    GMimeMessage *message = parsed(bytes);
    check_mailbox(
        message, GMIME_ADDRESS_TYPE_FROM, NULL, "bus@skerrow.example");
    assert_null(g_mime_object_get_header(GMIME_OBJECT(message), "Reply-To"));
    assert_null(g_mime_object_get_header(GMIME_OBJECT(message), "List-Id"));
    g_object_unref(message);
    buf_free(bytes);
}

/* The subject comes back as it was, and no line of it is longer than 76 octets
 * (RFC 2047, 2). */
static void
check_subject(const char *subject)
{
    struct mail_message m = plain;

    m.subject = subject;
    struct buf *bytes = composed(&m);
    GMimeMessage *message = parsed(bytes);
    assert_string_equal(g_mime_message_get_subject(message), subject);
    const char *at = strstr(buf_str(bytes), "\r\nSubject:");
    assert_non_null(at);
    do {
        at += 2;
        assert_in_range(strcspn(at, "\r"), 1, 76);
        at += strcspn(at, "\r");
    } while (at[2] == ' ');
    g_object_unref(message);
    buf_free(bytes);
}

static void
subjects(void **state)
{
    char subject[4 * 300 + 1] = "";

    (void)state;
    check_subject("K7, annual test: \"plan day\" (14 May) <soon> = ?");
    check_subject("Contr" E_ACUTE "le technique");
    /* What looks like an encoded word is text. */
    check_subject("=?utf-8?q?a=0D=0ABcc:_v@y.example?= x");
    check_subject("a =?utf-8?b?Yg==?= =? ?=");
    for (size_t n = 1; n <= 100; n++) {
        memset(subject, 'x', n);
        subject[n] = '\0';
        check_subject(subject);
    }
    subject[0] = '\0';
    /* 300 characters of one to four octets, with and without blanks. */
    for (int i = 0; i < 300; i++)
        strcat(subject, i % 10 == 9  ? " "
                        : i % 3 == 0 ? "\xe8\xbd\xa6"
                                     : "\xf0\x9f\x9a\x8c");
    check_subject(subject);
    subject[0] = '\0';
    for (int i = 0; i < 300; i++)
        strcat(subject, i % 2 ? E_ACUTE : "x");
    check_subject(subject);
    subject[0] = '\0';
    for (int i = 0; i < 60; i++)
        strcat(subject, i ? " bus " : "bus ");
    strcat(subject, "end");
    check_subject(subject);
}

static void
refused(const struct mail_message *m)
{
    struct fault f = {0};
    struct buf *out = buf_new();

    assert_non_null(out);
    assert_int_equal(mail_compose(m, out, &f), -1);
    assert_int_equal(f.code, EX_DATAERR);
    assert_true(strlen(f.text) > 0);
    assert_int_equal(buf_len(out), 0);
    buf_free(out);
}

/* Every text that reaches a header, with everything that could end one. */
static void
header_injection_is_refused(void **state)
{
    static const char *const bad[] = {"x\r\nBcc: v@y.example", "x\nBcc: v",
        "x\rBcc: v", "x\n", "\nx", "x\x01", "x\x7f", "x\xff", "x\xc3",
        "x\xc2\x85y", "x\xe2\x80\xa8y", "x\xe2\x80\xa9y"};

    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct mail_attachment a = attachment;
        struct mail_message m = plain;
        const char **fields[] = {&m.from, &m.from_name, &m.to, &m.reply_to,
            &m.subject, &m.list_id, &m.message_id, &a.name};
        m.attachment = &a;
        for (size_t k = 0; k < sizeof fields / sizeof *fields; k++) {
            const char *good = *fields[k];
            *fields[k] = bad[i];
            refused(&m);
            *fields[k] = good;
        }
        buf_free(composed(&m));
    }
}

static void
addresses(void **state)
{
    static const char *const good[] = {"a@b", "bus.k7+due@skerrow.example",
        "o'neill@skerrow.example", "_@x-y.example"};
    static const char *const bad[] = {"", "@", "a", "a@", "@b", "a@b@c",
        "-f@b.example", "-f x", "a b@c", "a@b c", "a@b\n", "a\t@b", "<a@b>",
        "a@b,c@d", "a@b;c", "\"a\"@b", "a@[127.0.0.1]", "a(x)@b", "a\\@b",
        E_ACUTE "@b", "a@b\x7f", " a@b", "a:b@c"};
    char text[300];

    (void)state;
    for (size_t i = 0; i < sizeof good / sizeof *good; i++)
        if (!mail_address_ok(good[i]))
            fail_msg("'%s' is refused", good[i]);
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        if (mail_address_ok(bad[i]))
            fail_msg("'%s' is taken", bad[i]);
    /* RFC 3696, erratum 1690: 254 octets at most. */
    memset(text, 'a', sizeof text);
    text[1] = '@';
    text[254] = '\0';
    assert_true(mail_address_ok(text));
    text[254] = 'a';
    text[255] = '\0';
    assert_false(mail_address_ok(text));
}

/* The text comes back with CRLF where it had LF. */
static void
check_text(const char *text)
{
    struct mail_message m = plain;
    struct buf *wanted = buf_new();

    m.text = text;
    for (; *text != '\0'; text++)
        buf_add(wanted, *text == '\n' ? "\r\n" : text, *text == '\n' ? 2 : 1);
    struct buf *bytes = composed(&m);
    GMimeMessage *message = parsed(bytes);
    check_content(g_mime_message_get_mime_part(message), buf_str(wanted),
        buf_len(wanted));
    g_object_unref(message);
    buf_free(bytes);
    buf_free(wanted);
}

static void
texts(void **state)
{
    char line[2002];

    (void)state;
    check_text("");
    check_text(".\n.dot\n..\n.\n");
    check_text("From here on\nFrom\n>From there\n");
    check_text("blanks  \ntab\t\n \n\n\n- -- \n-- \n");
    check_text("100 % = sure, =20 =\nr" E_ACUTE "vis" E_ACUTE "e\n");
    memset(line, 'x', 2000);
    strcpy(line + 2000, "\n");
    check_text(line);
    for (size_t i = 0; i < 2000; i += 2)
        memcpy(line + i, E_ACUTE, 2);
    check_text(line);
}

static void
a_text_with_cr_is_refused(void **state)
{
    struct mail_message m = plain;

    (void)state;
    m.text = "one\r\ntwo\n";
    refused(&m);
    m.text = "one\xfftwo\n";
    refused(&m);
}

static void
an_attachment(void **state)
{
    struct mail_message m = plain;

    (void)state;
    m.attachment = &attachment;
    m.text = "--=_0123456789abcdef\n";
    struct buf *bytes = composed(&m);
    GMimeMessage *message = parsed(bytes);
    GMimeObject *body = g_mime_message_get_mime_part(message);
    assert_true(GMIME_IS_MULTIPART(body));
    GMimeMultipart *both = GMIME_MULTIPART(body);
    assert_int_equal(g_mime_multipart_get_count(both), 2);
    check_content(
        g_mime_multipart_get_part(both, 0), "--=_0123456789abcdef\r\n", 22);
    GMimeObject *part = g_mime_multipart_get_part(both, 1);
    check_content(part, calendar, sizeof calendar - 1);
    assert_string_equal(g_mime_object_get_disposition(part), "attachment");
    assert_string_equal(g_mime_part_get_filename(GMIME_PART(part)), "due.ics");
    GMimeContentType *type = g_mime_object_get_content_type(part);
    assert_true(g_mime_content_type_is_type(type, "text", "calendar"));
    assert_string_equal(
        g_mime_content_type_get_parameter(type, "charset"), "utf-8");
    assert_null(g_mime_content_type_get_parameter(type, "method"));
    g_object_unref(message);
    buf_free(bytes);
}

/* RFC 2046, 5.1.4: the same in two forms, the plainest first; with a file
 * beside both (5.1.3), or by themselves. */
static void
a_page_beside_the_text(void **state)
{
    static const char page[] = "<p>K7 &amp; r" E_ACUTE "vision</p>\n";
    struct mail_message m = plain;

    (void)state;
    m.html = page;
    for (int with_file = 0; with_file < 2; with_file++) {
        m.attachment = with_file ? &attachment : NULL;
        struct buf *bytes = composed(&m);
        GMimeMessage *message = parsed(bytes);
        GMimeObject *body = g_mime_message_get_mime_part(message);
        if (with_file) {
            assert_int_equal(
                g_mime_multipart_get_count(GMIME_MULTIPART(body)), 2);
            check_content(g_mime_multipart_get_part(GMIME_MULTIPART(body), 1),
                calendar, sizeof calendar - 1);
            body = g_mime_multipart_get_part(GMIME_MULTIPART(body), 0);
        }
        assert_true(g_mime_content_type_is_type(
            g_mime_object_get_content_type(body), "multipart", "alternative"));
        GMimeMultipart *forms = GMIME_MULTIPART(body);
        assert_int_equal(g_mime_multipart_get_count(forms), 2);
        check_content(
            g_mime_multipart_get_part(forms, 0), "K7 - Annual test\r\n", 18);
        GMimeObject *html = g_mime_multipart_get_part(forms, 1);
        check_content(html, "<p>K7 &amp; r" E_ACUTE "vision</p>\r\n", 27);
        assert_true(g_mime_content_type_is_type(
            g_mime_object_get_content_type(html), "text", "html"));
        g_object_unref(message);
        buf_free(bytes);
    }
    m.html = "<p>\r\n";
    refused(&m);
    m.html = "<p>\xff\n";
    refused(&m);
}

static void
same_message_same_bytes(void **state)
{
    struct mail_message m = plain;

    (void)state;
    m.attachment = &attachment;
    m.html = "<p>K7</p>\n";
    m.from_name = "Caf" E_ACUTE ", ltd";
    struct buf *a = composed(&m);
    struct buf *b = composed(&m);
    assert_string_equal(buf_str(a), buf_str(b));
    buf_free(a);
    buf_free(b);
}

/* FIPS 180-2, B.1: SHA-256 of "abc" begins ba7816bf 8f01cfea 414140de
 * 5dae2223. */
static void
message_ids(void **state)
{
    static const char wanted[] =
        "ba7816bf8f01cfea414140de5dae2223@skerrow.example";
    char id[sizeof wanted];

    (void)state;
    assert_int_equal(
        mail_message_id("abc", "skerrow.example", id, sizeof id), 0);
    assert_string_equal(id, wanted);
    assert_int_equal(
        mail_message_id("abc", "skerrow.example", id, sizeof id - 1), -1);
}

static void
transports(void **state)
{
    (void)state;
    assert_ptr_equal(transport_find("folder")->send, send_folder);
    assert_null(transport_find("pigeon"));
    assert_ptr_equal(transport_find("smtp")->send, send_smtp);
    assert_ptr_equal(transport_find("sendmail")->send, send_sendmail);
    assert_string_equal(transport_at(0)->name, "folder");
    size_t n = 0;
    while (transport_at(n) != NULL)
        n++;
    assert_null(transport_at(n + 1));
}

/* Hand over to the folder at @path. */
static int
put_in(const char *path, const struct mail_envelope *e, const char *bytes,
    size_t len, struct fault *f)
{
    struct mail_route route = {.argument = path};
    struct mail_session s =
        mail_session_start(transport_find("folder"), &route);
    int rc = mail_send(&s, e, bytes, len, f);

    mail_session_end(&s);
    return rc;
}

/* The folder's file holds just @wanted. */
static void
check_file(const char *path, const char *wanted)
{
    char text[64] = "";
    FILE *file = fopen(path, "rb");

    assert_non_null(file);
    assert_int_equal(fread(text, 1, sizeof text - 1, file), strlen(wanted));
    assert_string_equal(text, wanted);
    fclose(file);
}

static void
the_folder(void **state)
{
    char root[] = "/tmp/test_mail-XXXXXX";
    char folder[64], path[128];
    struct mail_envelope e = {
        "a@b.example", "c@d.example", "0123@skerrow.example"};
    struct fault f = {0};
    struct stat first, second;

    (void)state;
    assert_non_null(mkdtemp(root));
    snprintf(folder, sizeof folder, "%s/mail/out", root);
    snprintf(path, sizeof path, "%s/0123.eml", folder);
    assert_int_equal(put_in(folder, &e, "one\r\n", 5, &f), 0);
    check_file(path, "one\r\n");
    /* Again: the same file, not even written. */
    assert_int_equal(stat(path, &first), 0);
    assert_int_equal(put_in(folder, &e, "one\r\n", 5, &f), 0);
    assert_int_equal(stat(path, &second), 0);
    assert_int_equal(first.st_ino, second.st_ino);
    /* A file is no folder. */
    assert_int_equal(put_in(path, &e, "x\r\n", 3, &f), -1);
    assert_int_equal(f.code, EX_TEMPFAIL);
    /* Nothing but the one file was made. */
    assert_int_equal(unlink(path), 0);
    assert_int_equal(rmdir(folder), 0);
    snprintf(folder, sizeof folder, "%s/mail", root);
    assert_int_equal(rmdir(folder), 0);
    assert_int_equal(rmdir(root), 0);
}

static void
the_folder_is_not_left(void **state)
{
    static const char *const bad[] = {"../x@y", "a/b@y", "@y", ".x@y", ""};
    struct fault f = {0};

    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct mail_envelope e = {"a@b.example", "c@d.example", bad[i]};
        assert_int_equal(put_in("/nowhere", &e, "x\r\n", 3, &f), -1);
        assert_int_equal(f.code, EX_DATAERR);
    }
}

/* Whatever the transport, an address that is none and a line that ends in
 * another way reach nobody. */
static void
the_border_of_mail(void **state)
{
    static const char *const addresses[] = {"a@b\r\nRSET", "-f@b", "", "a b@c",
        "a@b>", "a", "a@b\n", "c\xc3\xa9@d"};
    static const struct {
        const char *bytes;
        size_t len;
    } bad[] = {{"x\n", 2}, {"x\r", 2}, {"x\r\n.\n\r\n", 8},
        {"x\r\ny\rz\r\n", 9}, {"x\r\ny", 4}, {"x\0y\r\n", 5}, {"\r\r\n", 3},
        {"x\n\r\n", 4}, {"", 0}, {"\n", 1}};
    struct mail_envelope good = {"a@b.example", "c@d.example", "0@b.example"};
    struct fault f = {0};

    (void)state;
    for (size_t i = 0; i < sizeof addresses / sizeof *addresses; i++) {
        struct mail_envelope to = good, from = good;
        to.to = from.from = addresses[i];
        assert_int_equal(put_in("/nowhere", &to, "x\r\n", 3, &f), -1);
        assert_int_equal(f.code, EX_DATAERR);
        f.code = 0;
        assert_int_equal(put_in("/nowhere", &from, "x\r\n", 3, &f), -1);
        assert_int_equal(f.code, EX_DATAERR);
        f.code = 0;
    }
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        assert_int_equal(
            put_in("/nowhere", &good, bad[i].bytes, bad[i].len, &f), -1);
        assert_int_equal(f.code, EX_DATAERR);
        f.code = 0;
    }
}

/* Send one message with everything in it into @folder, for the reader in
 * tests/reference. */
static int
write_sample(const char *folder)
{
    char subject[4 * 300 + 1] = "";
    char text[2200];
    struct mail_message m = plain;
    struct mail_envelope e = {plain.from, plain.to, plain.message_id};

    for (int i = 0; i < 300; i++)
        strcat(subject, i % 10 == 9 ? " " : "\xe8\xbd\xa6");
    int n = snprintf(text, sizeof text,
        ".\n.dot\nFrom here\ntrailing \n100 %% = r" E_ACUTE "vis" E_ACUTE "\n");
    memset(text + n, 'x', 2000);
    strcpy(text + n + 2000, "\n");
    m.from_name = "Caf" E_ACUTE ", ltd";
    m.subject = subject;
    m.text = text;
    m.attachment = &attachment;
    struct buf *bytes = composed(&m);
    int rc = put_in(folder, &e, buf_str(bytes), buf_len(bytes), NULL);
    buf_free(bytes);
    return rc ? 1 : 0;
}

int
main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(headers),
        cmocka_unit_test(names),
        cmocka_unit_test(headers_that_are_not_given),
        cmocka_unit_test(subjects),
        cmocka_unit_test(header_injection_is_refused),
        cmocka_unit_test(addresses),
        cmocka_unit_test(texts),
        cmocka_unit_test(a_text_with_cr_is_refused),
        cmocka_unit_test(an_attachment),
        cmocka_unit_test(a_page_beside_the_text),
        cmocka_unit_test(same_message_same_bytes),
        cmocka_unit_test(message_ids),
        cmocka_unit_test(transports),
        cmocka_unit_test(the_folder),
        cmocka_unit_test(the_border_of_mail),
        cmocka_unit_test(the_folder_is_not_left),
    };

    if (argc == 2)
        return write_sample(argv[1]);
    g_mime_init();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
