// ical-reader.mjs MODULES: what ical.js and node-ical read, a line of JSON a
// file named on the standard input: two lists, one of each library.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(`${process.argv[2]}/`);
const ICAL = (await import(require.resolve("ical.js"))).default;
const nodeIcal = require("node-ical");

// A to-do has the day it is due, and no other.
const icalJs = (text) => {
    const calendar = new ICAL.Component(ICAL.parse(text));
    const events = calendar.getAllSubcomponents().map((e) => {
        const value = (name) => e.getFirstPropertyValue(name);
        const day = (name) => value(name)?.toString() ?? null;
        return {
            uid: value("uid"),
            start: day(e.name === "vtodo" ? "due" : "dtstart"),
            end: day("dtend"),
            sequence: value("sequence"),
            summary: value("summary"),
            description: value("description"),
            categories: e.getAllProperties("categories")
                .flatMap((p) => p.getValues()),
            status: value("status"),
        };
    });
    return { name: calendar.getFirstPropertyValue("x-wr-calname"), events };
};

// Dates are midnights of the zone of the process, which is UTC; of a to-do it
// keeps the day as it is written.
const day = (date) => {
    if (date?.val) {
        return date.val.replace(/^(....)(..)(..)$/, "$1-$2-$3");
    }
    return date?.dateOnly ? date.toISOString().slice(0, 10) : null;
};
const nodeIcalRead = (text) => {
    const all = Object.values(nodeIcal.sync.parseICS(text));
    const calendar = all.find((c) => c.type === "VCALENDAR");
    const entries = all.filter((c) => ["VEVENT", "VTODO"].includes(c.type));
    const events = entries.map((e) => ({
        uid: e.uid,
        start: day(e.type === "VTODO" ? e.due : e.start),
        end: day(e.end),
        sequence: Number(e.sequence),
        summary: e.summary,
        description: e.description,
        categories: e.categories ?? [],
        status: e.status,
    }));
    return { name: calendar["WR-CALNAME"], events };
};

const outcome = (read, text) => {
    try {
        return read(text);
    } catch (error) {
        return { name: null, events: [], broken: String(error) };
    }
};

for (const file of readFileSync(0, "utf8").split("\n").filter(Boolean)) {
    const text = readFileSync(file, "utf8");
    console.log(JSON.stringify(
        [outcome(icalJs, text), outcome(nodeIcalRead, text)]));
}
