// daemon_lib.mjs: ostlerd for a script in a browser, beside browser_lib.mjs, and
// windows on its page.  Always at one address, also when it is started anew.
import { spawn } from "node:child_process";
import { once } from "node:events";
import { setTimeout as sleep } from "node:timers/promises";
import { BUILD, TODAY, check, open, ostler } from "./browser_lib.mjs";

let daemon;
let where = "127.0.0.1:0";
let log = "";

export function begin() {
  daemon = spawn(`${BUILD}/ostlerd`,
    ["-c", "fleet.conf", "--today", TODAY, "--listen", where],
    { stdio: ["ignore", "ignore", "pipe"] });
  let said = "";
  return new Promise((done, failed) => {
    daemon.once("exit", () => failed(new Error(said)));
    daemon.stderr.on("data", (part) => {
      said += part;
      log += part;
      const found = /serves at (\S+)\n/.exec(said);
      if (found) done(where = found[1]);
    });
  });
}

export async function end() {
  daemon.kill();
  await once(daemon, "exit");
}
process.on("exit", () => daemon.kill());

// In time: other scenarios measure how soon.
export async function until(what, isSo) {
  const last = Date.now() + 20000;
  while (!await isSo()) {
    if (Date.now() > last) return check(false, what);
    await sleep(50);
  }
  return check(true, what);
}

await begin();
const base = `http://${where}`;
const key = (...words) => base + ostler("key", ...words).trim();
export const calendar = key("all");
export const fleet = key("--page");
export const person = key("--person", "workshop");
await until("the keys are taken", async () =>
  (await fetch(person)).ok && (await fetch(calendar)).ok);

// Record it on the command line, and wait until the page at @url is another.
export async function record(url, ...words) {
  const tag = async () =>
    (await fetch(url, { method: "HEAD" })).headers.get("etag");
  const old = await tag();
  ostler("record", ...words, "--on", TODAY);
  await until(`${words[0]} is recorded`, async () => await tag() !== old);
}

// The days in the feed on the wire on which something of that title stands.
export async function feed(title) {
  const text = (await (await fetch(calendar)).text()).replaceAll("\r\n ", "");
  return [...text.matchAll(/DTSTART;VALUE=DATE:(\d+)[^]*?\nSUMMARY:(.*)\r/g)]
    .filter((event) => event[2] === title).map((event) => event[1]).join();
}

// --- Windows, whose complaints are kept ---------------------------------------

const complaints = [];
const hosts = new Set();
// That an answer was no page is told on the console, too.
const STATUS = /^Failed to load resource.*(404|422|ERR_CONNECTION_REFUSED)/;

export async function window(width, options) {
  const context = await open(width, options);
  context.on("console", (m) => {
    if (m.type() !== "error" && m.type() !== "warning") return;
    if (!STATUS.test(m.text())) complaints.push(m.text());
  });
  context.on("weberror", (e) => complaints.push(String(e.error())));
  context.on("request", (r) => hosts.add(new URL(r.url()).host));
  return context.newPage();
}

// What was complained of, who was asked, and what the daemon logged.
export function quiet() {
  check(complaints.length === 0, "the console has no error", ...complaints);
  check([...hosts].join() === where, "no other host was asked", ...hosts);
  check(!/[a-z2-7]{32}/.test(log), "no key is in the log");
}
