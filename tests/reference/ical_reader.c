/*
 * What libical reads: a line of JSON a file named on the standard input, with
 * the name of the calendar and its events, as the other readers give them.
 */
#include <jansson.h>
#include <libical/ical.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char *
contents(const char *path)
{
    FILE *file = fopen(path, "rb");
    char *text;
    long size;

    if (file == NULL || fseek(file, 0, SEEK_END) || (size = ftell(file)) < 0)
        abort();
    rewind(file);
    text = calloc((size_t)size + 1, 1);
    if (text == NULL || fread(text, 1, (size_t)size, file) != (size_t)size)
        abort();
    fclose(file);
    return text;
}

static const char *
x_value(icalcomponent *c, const char *name)
{
    icalproperty *p = icalcomponent_get_first_property(c, ICAL_X_PROPERTY);

    for (; p != NULL; p = icalcomponent_get_next_property(c, ICAL_X_PROPERTY))
        if (strcmp(icalproperty_get_x_name(p), name) == 0)
            return icalproperty_get_x(p);
    return NULL;
}

static const char *
text_of(icalcomponent *c, icalproperty_kind kind)
{
    icalproperty *p = icalcomponent_get_first_property(c, kind);
    icalvalue *v = p ? icalproperty_get_value(p) : NULL;

    if (v == NULL)
        return NULL;
    return icalvalue_isa(v) == ICAL_TEXT_VALUE ? icalvalue_get_text(v)
                                               : icalvalue_as_ical_string(v);
}

/* A day as YYYY-MM-DD; libical has it without the hyphens. */
static json_t *
day_of(icalcomponent *c, icalproperty_kind kind)
{
    const char *d = text_of(c, kind);

    return d == NULL || strlen(d) != 8
               ? json_null()
               : json_sprintf("%.4s-%.2s-%.2s", d, d + 4, d + 6);
}

static json_t *
categories(icalcomponent *c)
{
    json_t *list = json_array();
    icalproperty *p =
        icalcomponent_get_first_property(c, ICAL_CATEGORIES_PROPERTY);

    for (; p != NULL;
         p = icalcomponent_get_next_property(c, ICAL_CATEGORIES_PROPERTY))
        json_array_append_new(
            list, json_string(icalproperty_get_categories(p)));
    return list;
}

static json_t *
text_or_null(const char *text)
{
    return text == NULL ? json_null() : json_string(text);
}

/* An event, or a to-do, which has the day it is due and no other. */
static json_t *
entry_of(icalcomponent *c)
{
    int todo = icalcomponent_isa(c) == ICAL_VTODO_COMPONENT;

    return json_pack("{s:o, s:o, s:o, s:i, s:o, s:o, s:o, s:o}", "uid",
        text_or_null(text_of(c, ICAL_UID_PROPERTY)), "start",
        day_of(c, todo ? ICAL_DUE_PROPERTY : ICAL_DTSTART_PROPERTY), "end",
        day_of(c, ICAL_DTEND_PROPERTY), "sequence",
        icalcomponent_get_sequence(c), "summary",
        text_or_null(text_of(c, ICAL_SUMMARY_PROPERTY)), "description",
        text_or_null(text_of(c, ICAL_DESCRIPTION_PROPERTY)), "categories",
        categories(c), "status",
        text_or_null(text_of(c, ICAL_STATUS_PROPERTY)));
}

static void
read_file(const char *path)
{
    char *text = contents(path);
    icalcomponent *calendar = icalparser_parse_string(text);
    json_t *events = json_array();
    int broken = calendar ? icalcomponent_count_errors(calendar) : 1;

    for (icalcomponent *c = calendar ? icalcomponent_get_first_component(
                                           calendar, ICAL_ANY_COMPONENT)
                                     : NULL;
         c != NULL;
         c = icalcomponent_get_next_component(calendar, ICAL_ANY_COMPONENT))
        json_array_append_new(events, entry_of(c));
    json_t *all = json_pack("{s:o, s:o, s:i}", "name",
        text_or_null(calendar ? x_value(calendar, "X-WR-CALNAME") : NULL),
        "events", events, "broken", broken);
    char *line = all ? json_dumps(all, JSON_COMPACT) : NULL;
    puts(line ? line : "null");
    free(line);
    json_decref(all);
    if (calendar != NULL)
        icalcomponent_free(calendar);
    free(text);
}

int
main(void)
{
    char path[4096];

    while (fgets(path, sizeof path, stdin) != NULL) {
        path[strcspn(path, "\n")] = '\0';
        read_file(path);
        icalmemory_free_ring();
    }
    return 0;
}
