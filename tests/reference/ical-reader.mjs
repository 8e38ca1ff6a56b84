// ical-reader.mjs MODULES: what ical.js and node-ical read, a line of JSON a
// file named on the standard input: two lists, one of each library.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(`${process.argv[2]}/`);
const ICAL = (await import(require.resolve("ical.js"))).default;
const nodeIcal = require("node-ical");

const icalJs = (text) => {
    const calendar = new ICAL.Component(ICAL.parse(text));
    const events = calendar.getAllSubcomponents("vevent").map((e) => {
        const value = (name) => e.getFirstPropertyValue(name);
        return {
            uid: value("uid"),
            start: value("dtstart").toString(),
            end: value("dtend").toString(),
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

// Dates are midnights of the zone of the process, which is UTC.
const day = (date) => date.dateOnly ? date.toISOString().slice(0, 10) : null;
const nodeIcalRead = (text) => {
    const all = Object.values(nodeIcal.sync.parseICS(text));
    const calendar = all.find((c) => c.type === "VCALENDAR");
    const events = all.filter((c) => c.type === "VEVENT").map((e) => ({
        uid: e.uid,
        start: day(e.start),
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
