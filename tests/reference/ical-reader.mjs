// ical-reader.mjs LIBRARY FILE: print the events that ical.js finds in FILE as
// JSON.
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const [library, file] = process.argv.slice(2);
const ICAL = (await import(pathToFileURL(library))).default;

const calendar = new ICAL.Component(ICAL.parse(readFileSync(file, "utf8")));
const events = calendar.getAllSubcomponents("vevent").map((e) => {
    const value = (name) => e.getFirstPropertyValue(name);
    return {
        uid: value("uid"),
        start: value("dtstart").toString(),
        end: value("dtend").toString(),
        sequence: value("sequence"),
        summary: value("summary"),
        description: value("description"),
        categories: e.getFirstProperty("categories")?.getValues() ?? [],
        status: value("status"),
    };
});
console.log(JSON.stringify({
    name: calendar.getFirstPropertyValue("x-wr-calname"), events }));
