/* What a dialog with a server amounts to, line by line. */
#include <string.h>

#include "smtp_dialog.h"
#include "test.h"

/* Lines as in a transcript: "C: " ours, "S: " the server's, "D" some of the
 * message. */
static struct smtp_dialog
after(const char *transcript)
{
    struct smtp_dialog d = {0};
    char line[400];

    while (*transcript != '\0') {
        size_t len = strcspn(transcript, "\n");
        assert_true(len + 2 < sizeof line);
        memcpy(line, transcript, len);
        memcpy(line + len, "\r\n", 2);
        if (line[0] == 'C')
            smtp_dialog_said(&d, line + 3, len - 1);
        else if (line[0] == 'S')
            smtp_dialog_heard(&d, line + 3, len - 1);
        else
            smtp_dialog_sent(&d);
        transcript += len + (transcript[len] == '\n');
    }
    return d;
}

#define HELLO                                                                  \
    "S: 220 mx ESMTP\nC: EHLO b.example\nS: 250-mx\nS: 250 AUTH PLAIN\n"
#define SENDER HELLO "C: MAIL FROM:<a@b.example>\n"
#define RECIPIENT SENDER "S: 250 ok\nC: RCPT TO:<c@d.example>\n"
#define DATA RECIPIENT "S: 250 ok\nC: DATA\n"
#define MESSAGE DATA "S: 354 go\nD\nD\n"

static void
steps(void **state)
{
    static const struct {
        const char *transcript;
        enum smtp_step step;
        int code;
        int refused;
        const char *reply;
    } rows[] = {
        {"", SMTP_CONNECT, 0, 0, ""},
        {"S: 554 no\n", SMTP_CONNECT, 554, 0, "554 no"},
        {"S: 421-a\nS: 421 b\n", SMTP_CONNECT, 421, 0, "421-a"},
        {HELLO, SMTP_HELLO, 250, 0, "250-mx"},
        {HELLO "C: STARTTLS\n", SMTP_STARTTLS, 0, 0, ""},
        {HELLO "C: AUTH PLAIN AGEAYg==\nS: 535 no\n", SMTP_LOGIN, 535, 0,
            "535 no"},
        /* Base64 that is the word of a command is not the command. */
        {HELLO "C: AUTH LOGIN\nS: 334 x\nC: DATA\nS: 334 y\nC: STARTTLS\n",
            SMTP_LOGIN, 0, 0, ""},
        {SENDER, SMTP_SENDER, 0, 0, ""},
        {SENDER "S: 553 not yours\n", SMTP_SENDER, 553, 1, "553 not yours"},
        {SENDER "S: 530 log in first\n", SMTP_SENDER, 530, 0,
            "530 log in first"},
        {RECIPIENT "S: 451 later\n", SMTP_RECIPIENT, 451, 0, "451 later"},
        {RECIPIENT "S: 550-5.1.1 no\nS: 550 5.1.1 such user\n", SMTP_RECIPIENT,
            550, 1, "550-5.1.1 no"},
        /* What is said when we leave is no answer. */
        {RECIPIENT "S: 550 no\nC: QUIT\nS: 221 bye\n", SMTP_RECIPIENT, 550, 1,
            "550 no"},
        {DATA "S: 554 no\n", SMTP_DATA, 554, 1, "554 no"},
        /* The 354 is no answer to the message. */
        {MESSAGE, SMTP_MESSAGE, 0, 0, ""},
        {MESSAGE "S: 452 full\n", SMTP_MESSAGE, 452, 0, "452 full"},
        {MESSAGE "S: 554 spam\n", SMTP_MESSAGE, 554, 1, "554 spam"},
        {MESSAGE "S: 250 ok\n", SMTP_MESSAGE, 250, 0, "250 ok"},
        {MESSAGE "S: gibberish\n", SMTP_MESSAGE, 0, 0, "gibberish"},
        {MESSAGE "S: 55\x1b[2J\n", SMTP_MESSAGE, 0, 0, "55?[2J"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct smtp_dialog d = after(rows[i].transcript);
        assert_int_equal(d.step, rows[i].step);
        assert_int_equal(d.code, rows[i].code);
        assert_int_equal(smtp_dialog_refused(&d), rows[i].refused);
        assert_string_equal(d.reply, rows[i].reply);
    }
}

/* A reply of any length is kept as far as there is room. */
static void
a_long_reply(void **state)
{
    struct smtp_dialog d = {0};
    char line[4000];

    (void)state;
    memset(line, 'x', sizeof line);
    memcpy(line, "550 ", 4);
    smtp_dialog_heard(&d, line, sizeof line);
    assert_int_equal(strlen(d.reply), sizeof d.reply - 1);
    assert_int_equal(d.code, 550);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(steps),
        cmocka_unit_test(a_long_reply),
    };

    return cmocka_run_group_tests_name("smtp_dialog", tests, NULL, NULL);
}
