/*
 * Messages a second over one connection to a server on this machine that keeps
 * nothing.  The peer in the same run is plain libcurl sending the same bytes to
 * the same server over one connection.  The two take turns, and each counts
 * with its best round.
 */
#include "transport.h"

#include <arpa/inet.h>
#include <curl/curl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define ROUNDS 50
#define MESSAGES 300
#define FROM "dates@skerrow.example"
#define TO "workshop@skerrow.example"

static char message[4096];
static char server[40];

static double
seconds(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static void
answer(int fd, const char *text)
{
    if (write(fd, text, strlen(text)) < 0)
        _exit(1);
}

/* One connection: a reply to each line, and to the end of each message. */
static void
serve(int fd)
{
    FILE *in = fdopen(fd, "r");
    char line[1100];
    int is_data = 0;

    answer(fd, "220 sink\r\n");
    while (fgets(line, sizeof line, in) != NULL) {
        if (is_data && strcmp(line, ".\r\n") != 0)
            continue;
        is_data = strcmp(line, "DATA\r\n") == 0;
        answer(fd, is_data ? "354 go\r\n" : "250 ok\r\n");
        if (strcmp(line, "QUIT\r\n") == 0)
            break;
    }
    fclose(in);
}

/* A server in a process of its own; @server is where it listens. */
static pid_t
start_server(void)
{
    struct sockaddr_in at = {.sin_family = AF_INET};
    socklen_t len = sizeof at;
    int fd = socket(AF_INET, SOCK_STREAM, 0);

    at.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    if (fd < 0 || bind(fd, (struct sockaddr *)&at, len) != 0 ||
        listen(fd, 5) != 0 ||
        getsockname(fd, (struct sockaddr *)&at, &len) != 0)
        return -1;
    snprintf(server, sizeof server, "127.0.0.1:%d", ntohs(at.sin_port));
    pid_t pid = fork();
    while (pid == 0) {
        int one = accept(fd, NULL, NULL);
        if (one < 0)
            _exit(1);
        serve(one);
    }
    close(fd);
    return pid;
}

static double
ours(void)
{
    struct mail_route route = {.argument = server,
        .tls = SERVER_TLS_NONE,
        .ehlo = "skerrow.example",
        .timeout = 60};
    struct mail_session s = mail_session_start(transport_find("smtp"), &route);
    struct mail_envelope e = {FROM, TO, "0@skerrow.example"};
    struct fault f;
    double begin = seconds();

    for (int i = 0; i < MESSAGES; i++)
        if (mail_send(&s, &e, message, strlen(message), &f)) {
            fprintf(stderr, "bench_mail: %s\n", f.text);
            exit(1);
        }
    mail_session_end(&s);
    return MESSAGES / (seconds() - begin);
}

/* What is left of the message, given out as libcurl asks for it. */
static size_t
give(char *out, size_t size, size_t n, void *user)
{
    const char **left = user;
    size_t len = strnlen(*left, size * n);

    memcpy(out, *left, len);
    *left += len;
    return len;
}

static double
plain(void)
{
    CURL *curl = curl_easy_init();
    struct curl_slist *to = curl_slist_append(NULL, TO);
    char url[80];
    double begin = seconds();

    snprintf(url, sizeof url, "smtp://%s/skerrow.example", server);
    curl_easy_setopt(curl, CURLOPT_URL, url);
    curl_easy_setopt(curl, CURLOPT_UPLOAD, 1L);
    curl_easy_setopt(curl, CURLOPT_READFUNCTION, give);
    curl_easy_setopt(
        curl, CURLOPT_INFILESIZE_LARGE, (curl_off_t)strlen(message));
    curl_easy_setopt(curl, CURLOPT_MAIL_FROM, FROM);
    curl_easy_setopt(curl, CURLOPT_MAIL_RCPT, to);
    for (int i = 0; i < MESSAGES; i++) {
        const char *left = message;
        curl_easy_setopt(curl, CURLOPT_READDATA, &left);
        if (curl_easy_perform(curl) != CURLE_OK)
            exit(1);
    }
    curl_easy_cleanup(curl);
    curl_slist_free_all(to);
    return MESSAGES / (seconds() - begin);
}

int
main(void)
{
    double best = 0;
    double peer = 0;

    strcpy(message, "From: " FROM "\r\nTo: " TO "\r\n\r\n");
    while (strlen(message) < sizeof message - 80)
        strcat(message, "K7 Annual test, by Tue 2027-03-09, is to be "
                        "booked this week.\r\n");
    pid_t pid = start_server();
    if (pid < 0)
        return 1;
    for (int i = 0; i < ROUNDS; i++) {
        double n = plain();
        peer = n > peer ? n : peer;
        n = ours();
        best = n > best ? n : best;
    }
    kill(pid, SIGTERM);
    waitpid(pid, NULL, 0);
    printf("mail: %.0f messages/s of %zu bytes, plain libcurl %.0f: %.2f\n",
        best, strlen(message), peer, best / peer);
    return 0;
}
