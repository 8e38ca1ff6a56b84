#include "message.h"

#include "buf.h"
#include "encoded.h"

#include <gmime/gmime.h>
#include <nettle/sha2.h>
#include <stdio.h>
#include <string.h>
#include <sysexits.h>

#define ADDRESS_OCTETS 254 /* RFC 5321, 4.5.3.1.3, without the brackets */
#define ID_OCTETS 16

int
mail_message_id(const char *seed, const char *domain, char *out, size_t size)
{
    struct sha256_ctx sha;
    uint8_t digest[ID_OCTETS];
    char hex[2 * ID_OCTETS + 1];

    sha256_init(&sha);
    sha256_update(&sha, strlen(seed), (const uint8_t *)seed);
    sha256_digest(&sha, sizeof digest, digest);
    for (size_t i = 0; i < ID_OCTETS; i++)
        snprintf(hex + 2 * i, 3, "%02x", digest[i]);
    int n = snprintf(out, size, "%s@%s", hex, domain);
    return n < 0 || (size_t)n >= size ? -1 : 0;
}

int
mail_address_ok(const char *address)
{
    const char *at = strchr(address, '@');
    size_t len = strlen(address);

    if (at == NULL || at == address || at[1] == '\0' || address[0] == '-')
        return 0;
    if (strchr(at + 1, '@') != NULL || len > ADDRESS_OCTETS)
        return 0;
    for (; *address != '\0'; address++)
        if (*address <= ' ' || *address >= 0x7f ||
            strchr("()<>[]:;\\,\"", *address) != NULL)
            return 0;
    return 1;
}

/* Nonzero when @text can stand in a header and stay there. */
static int
fits_header(const char *text)
{
    if (!g_utf8_validate(text, -1, NULL))
        return 0;
    for (; *text != '\0'; text = g_utf8_next_char(text)) {
        GUnicodeType type = g_unichar_type(g_utf8_get_char(text));
        if (type == G_UNICODE_CONTROL || type == G_UNICODE_LINE_SEPARATOR ||
            type == G_UNICODE_PARAGRAPH_SEPARATOR)
            return 0;
    }
    return 1;
}

static int
check_addresses(const struct mail_message *m, struct fault *f)
{
    const char *addresses[] = {m->from, m->to, m->reply_to, m->message_id};

    for (size_t i = 0; i < sizeof addresses / sizeof *addresses; i++)
        if (addresses[i] != NULL && !mail_address_ok(addresses[i]))
            return fault_set(
                f, EX_DATAERR, "'%s' is not a mail address", addresses[i]);
    return 0;
}

/* RFC 2919, 3: dots and atoms, and no more than a host name has of these. */
static int
is_list_id(const char *id)
{
    return *id != '\0' &&
           id[strspn(id, "-._0123456789abcdefghijklmnopqrstuvwxyz"
                         "ABCDEFGHIJKLMNOPQRSTUVWXYZ")] == '\0';
}

static int
is_text(const char *text)
{
    return g_utf8_validate(text, -1, NULL) && strchr(text, '\r') == NULL;
}

static int
check_texts(const struct mail_message *m, struct fault *f)
{
    const char *texts[] = {
        m->from_name, m->subject, m->attachment ? m->attachment->name : NULL};

    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        if (texts[i] != NULL && !fits_header(texts[i]))
            return fault_set(f, EX_DATAERR,
                "'%s' cannot be in the header of a message: it has control "
                "characters or is not UTF-8",
                texts[i]);
    if (m->list_id != NULL && !is_list_id(m->list_id))
        return fault_set(
            f, EX_DATAERR, "'%s' is not the name of a list", m->list_id);
    if (!is_text(m->text) || (m->html != NULL && !is_text(m->html)))
        return fault_set(
            f, EX_DATAERR, "the text of a message has a CR or is not UTF-8");
    return 0;
}

/* Give @part its content. */
static void
set_content(GMimePart *part, const char *bytes, size_t len,
    GMimeContentEncoding encoding)
{
    GMimeStream *stream = g_mime_stream_mem_new_with_buffer(bytes, len);
    GMimeDataWrapper *content = g_mime_data_wrapper_new_with_stream(
        stream, GMIME_CONTENT_ENCODING_DEFAULT);

    g_mime_part_set_content(part, content);
    g_mime_part_set_content_encoding(part, encoding);
    g_object_unref(content);
    g_object_unref(stream);
}

/* Quoted-printable also where the text would do without: then no line is too
 * long, no blank at the end of one gets lost, and there is one case. */
static GMimePart *
text_part(const char *subtype, const char *text)
{
    GMimePart *part = g_mime_part_new_with_type("text", subtype);

    g_mime_object_set_content_type_parameter(
        GMIME_OBJECT(part), "charset", "utf-8");
    set_content(
        part, text, strlen(text), GMIME_CONTENT_ENCODING_QUOTEDPRINTABLE);
    return part;
}

static GMimePart *
attachment_part(const struct mail_attachment *a)
{
    GMimePart *part = g_mime_part_new_with_type("text", "calendar");

    g_mime_object_set_content_type_parameter(
        GMIME_OBJECT(part), "charset", "utf-8");
    g_mime_object_set_disposition(
        GMIME_OBJECT(part), GMIME_DISPOSITION_ATTACHMENT);
    g_mime_part_set_filename(part, a->name);
    set_content(part, a->bytes, a->len, GMIME_CONTENT_ENCODING_BASE64);
    return part;
}

/* A multipart with a boundary that the same message always gets; neither
 * encoding ever writes "=_".  @mark tells those of one message apart. */
static GMimeMultipart *
new_multipart(const struct mail_message *m, const char *subtype, char mark)
{
    char boundary[70];
    GMimeMultipart *all = g_mime_multipart_new_with_subtype(subtype);

    snprintf(boundary, sizeof boundary, "=_%c%.*s", mark,
        (int)MIN(strcspn(m->message_id, "@"), 60), m->message_id);
    g_mime_multipart_set_boundary(all, boundary);
    return all;
}

/* Hand @part over to @all. */
static void
add_part(GMimeMultipart *all, GMimeObject *part)
{
    g_mime_multipart_add(all, part);
    g_object_unref(part);
}

/* The text, and after it what is to be shown rather (RFC 2046, 5.1.4). */
static GMimeObject *
words_part(const struct mail_message *m)
{
    GMimeObject *text = GMIME_OBJECT(text_part("plain", m->text));

    if (m->html == NULL)
        return text;
    GMimeMultipart *all = new_multipart(m, "alternative", 'a');
    add_part(all, text);
    add_part(all, GMIME_OBJECT(text_part("html", m->html)));
    return GMIME_OBJECT(all);
}

static GMimeObject *
body_part(const struct mail_message *m)
{
    if (m->attachment == NULL)
        return words_part(m);
    GMimeMultipart *all = new_multipart(m, "mixed", 'm');
    add_part(all, words_part(m));
    add_part(all, GMIME_OBJECT(attachment_part(m->attachment)));
    return GMIME_OBJECT(all);
}

static void
set_header(GMimeMessage *message, const char *name, const char *value)
{
    g_mime_object_set_header(GMIME_OBJECT(message), name, value, NULL);
}

/* Set a header that is encoded already: @raw begins with a blank and ends with
 * a line feed. */
static void
set_raw(GMimeMessage *message, const char *name, const struct buf *raw)
{
    GMimeHeaderList *list =
        g_mime_object_get_header_list(GMIME_OBJECT(message));

    g_mime_header_list_append(list, name, "", NULL);
    g_mime_header_set_raw_value(
        g_mime_header_list_get_header(list, name), buf_str(raw));
}

static void
set_from(GMimeMessage *message, const struct mail_message *m, struct buf *raw)
{
    buf_clear(raw);
    if (m->from_name == NULL) {
        buf_print(raw, " %s\n", m->from);
    } else {
        buf_text(raw, " ");
        encoded_add(raw, ENCODED_NAME, m->from_name);
        /* A line with an encoded word has at most 76 octets. */
        buf_text(raw, strstr(buf_str(raw), "=?") ? "\n " : " ");
        buf_print(raw, "<%s>\n", m->from);
    }
    set_raw(message, "From", raw);
}

static void
set_subject(
    GMimeMessage *message, const struct mail_message *m, struct buf *raw)
{
    buf_clear(raw);
    buf_text(raw, " ");
    encoded_add(raw, ENCODED_TEXT, m->subject);
    buf_text(raw, "\n");
    set_raw(message, "Subject", raw);
}

/* Headers in a fixed order. */
static void
set_headers(GMimeMessage *message, const struct mail_message *m,
    GDateTime *date, struct buf *raw)
{
    g_mime_message_set_date(message, date);
    g_mime_message_set_message_id(message, m->message_id);
    set_from(message, m, raw);
    set_header(message, "To", m->to);
    if (m->reply_to != NULL)
        set_header(message, "Reply-To", m->reply_to);
    set_subject(message, m, raw);
    /* RFC 3834, 5: so that nobody's holiday reply answers; the second says
     * the same to Exchange. */
    set_header(message, "Auto-Submitted", "auto-generated");
    set_header(message, "X-Auto-Response-Suppress", "All");
    if (m->list_id != NULL) {
        buf_clear(raw);
        buf_print(raw, " <%s>\n", m->list_id);
        set_raw(message, "List-Id", raw);
    }
}

static void
write_message(GMimeMessage *message, struct buf *out)
{
    GMimeFormatOptions *format = g_mime_format_options_new();

    g_mime_format_options_set_newline_format(format, GMIME_NEWLINE_FORMAT_DOS);
    char *text = g_mime_object_to_string(GMIME_OBJECT(message), format);
    buf_text(out, text);
    g_free(text);
    g_mime_format_options_free(format);
}

int
mail_compose(const struct mail_message *m, struct buf *out, struct fault *f)
{
    if (check_addresses(m, f) || check_texts(m, f))
        return -1;
    GDateTime *date = g_date_time_new_from_unix_utc(m->date);
    if (date == NULL)
        return fault_set(f, EX_DATAERR, "the date of a message is too far");
    /* Once would do and more do no harm; g_mime_shutdown() is never called,
     * because GMime cannot be started again after it. */
    g_mime_init();
    int failed = 1;
    struct buf *raw = buf_new();
    GMimeMessage *message = g_mime_message_new(FALSE);
    GMimeObject *body = body_part(m);
    if (raw != NULL) {
        set_headers(message, m, date, raw);
        g_mime_message_set_mime_part(message, body);
        write_message(message, out);
        failed = buf_failed(raw) || buf_failed(out);
    }
    g_object_unref(body);
    g_object_unref(message);
    buf_free(raw);
    g_date_time_unref(date);
    return failed ? fault_set(f, EX_OSERR, "out of memory") : 0;
}
