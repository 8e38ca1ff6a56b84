#include "daemon.h"
#include "log.h"

#include <getopt.h>
#include <malloc.h>
#include <stdio.h>
#include <string.h>
#include <sysexits.h>

#define VERSION "0.1"
#define LARGE (128 * 1024)
#define FLEET_FILE "/etc/ostler/fleet.conf"

static const char help[] =
    "usage: ostlerd [OPTION]...\n\n"
    "Serve the calendars and the page, keep them up to date and send "
    "reminders.\n\n"
    "  -c, --config FILE         the fleet file (" FLEET_FILE ")\n"
    "      --listen ADDRESS      listen at 127.0.0.1:8080, [::1]:8080 or\n"
    "                            unix:/PATH, whatever the fleet file says\n"
    "      --today DAY           take this day, YYYY-MM-DD, for today, and "
    "tell nobody\n"
    "  -h, --help                say how it is used\n"
    "      --version             say which version it is\n\n"
    "It stays in the foreground until SIGTERM; SIGHUP reads the fleet file "
    "again.\nThe manual is ostlerd(8).\n";

enum { LISTEN = 256, TODAY, WHICH_VERSION };

static const struct option options[] = {
    {"config", required_argument, NULL, 'c'},
    {"listen", required_argument, NULL, LISTEN},
    {"today", required_argument, NULL, TODAY},
    {"help", no_argument, NULL, 'h'},
    {"version", no_argument, NULL, WHICH_VERSION},
    {NULL, 0, NULL, 0},
};

/* Take one option: 0 to go on, -1 when there is nothing to run and @code is to
 * be returned. */
static int
take(struct daemon_options *o, int c, int *code)
{
    *code = c == '?' ? EX_USAGE : EX_OK;
    if (c == 'h')
        fputs(help, stdout);
    if (c == WHICH_VERSION)
        puts("ostlerd " VERSION);
    if (c == 'h' || c == WHICH_VERSION || c == '?')
        return -1;
    if (c == 'c')
        o->fleet_file = optarg;
    if (c == LISTEN)
        o->listen = optarg;
    if (c != TODAY)
        return 0;
    o->today = day_parse(optarg, strlen(optarg));
    if (o->today != DAY_NONE)
        return 0;
    fprintf(stderr,
        "ostlerd: --today: '%s' is no day; write it as 2026-12-02, from 1900 "
        "to 2199\n",
        optarg);
    *code = EX_USAGE;
    return -1;
}

int
main(int argc, char **argv)
{
    struct daemon_options o = {.fleet_file = FLEET_FILE, .today = DAY_NONE};
    struct fault f;
    int code = EX_OK;
    int c;

    while ((c = getopt_long(argc, argv, "c:h", options, NULL)) != -1)
        if (take(&o, c, &code))
            return code;
    if (optind < argc) {
        fprintf(stderr, "ostlerd: it takes no operands\ntry: ostlerd --help\n");
        return EX_USAGE;
    }
    /* A large buffer goes back to the system when it is freed, rather than
     * leave a hole: what is served for days was made between such buffers. */
    (void)mallopt(M_MMAP_THRESHOLD, LARGE);
    if (daemon_run(&o, &f) == 0)
        return EX_OK;
    log_line(LOG_ERROR, "%s", f.text);
    return f.code;
}
