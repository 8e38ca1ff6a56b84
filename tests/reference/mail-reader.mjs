// mail-reader.mjs LIBRARY FILE...: print what mailparser finds in each message
// as JSON, a line a file.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const [library, ...files] = process.argv.slice(2);
const { simpleParser } = createRequire(import.meta.url)(library);

for (const file of files) {
    const m = await simpleParser(readFileSync(file), {
        skipHtmlToText: true, skipTextToHtml: true, skipImageLinks: true });
    console.log(JSON.stringify({
        subject: m.subject,
        from: m.from.value.map((a) => [a.name, a.address]),
        to: m.to.value.map((a) => a.address),
        id: m.messageId,
        date: m.date.toISOString(),
        headers: [...new Set(m.headerLines.map((h) => h.key))].sort(),
        text: m.text,
        html: m.html,
        files: m.attachments.map((a) => [
            a.filename, a.contentType, a.contentDisposition,
            a.content.toString("utf8")]),
    }));
}
