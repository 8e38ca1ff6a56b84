// daemon_browser.mjs: see page/chromium-records-a-job.
import { appendFileSync, copyFileSync } from "node:fs";
import { setTimeout as sleep } from "node:timers/promises";
import { SHOTS, check, look, openSome, ostler, records, scenes, tabTo }
  from "./browser_lib.mjs";
import { begin, end, feed, fleet, person, quiet, record, until, window }
  from "./daemon_lib.mjs";

// Where a due is recorded, on the board, by what its form says it is.
const due = (subject, job) => `.board details:has(` +
  `[name=subject][value="${subject}"]):has([name=job][value="${job}"])`;
const heading = (page, name) =>
  page.getByRole("heading", { name, exact: true });
const told = (page) => page.getByRole("status").innerText();

// --- How it looks -------------------------------------------------------------

async function views() {
  for (const [width, colorScheme] of [[360, "light"], [360, "dark"],
    [1280, "light"], [1280, "dark"], [1920, "light"], [1920, "dark"]]) {
    const page = await window(width, { colorScheme });
    const what = `${width}, ${colorScheme}`;
    const shot = `${SHOTS}/daemon-${width}-${colorScheme}`;
    await page.goto(fleet);
    await page.screenshot({ fullPage: true, path: `${shot}.png` });
    await look(page, `the page to read at ${what}`);
    await page.goto(person);
    await openSome(page);
    await look(page, `the page of a person at ${what}`);
    await page.screenshot({ fullPage: true, path: `${shot}-open.png` });
    await page.context().close();
  }
}

async function paper() {
  const page = await window(1280);
  await page.emulateMedia({ media: "print" });
  await page.goto(person);
  await look(page, "on paper");
  check(!await page.locator("form, summary, nav").filter({ visible: true })
    .count(), "on paper there is nothing to press");
  const pdf = await page.pdf({ preferCSSPageSize: true,
    path: `${SHOTS}/daemon-paper.pdf` });
  const sheets = String(pdf).match(/\/Type\s*\/Page\b/g).length;
  check(sheets === 2, "and it takes two sheets", sheets);
  await page.context().close();
}

// --- A job, by keyboard alone -------------------------------------------------

async function press(page, wanted, key) {
  check(await tabTo(page, wanted) > 0, `Tab leads to ${wanted}`);
  await page.keyboard.press(key);
}

async function type(page, name, text) {
  await tabTo(page, `[name=${name}]`);
  // In a date it is the part that is written to.
  if (name !== "on") await page.keyboard.press("Control+A");
  await page.keyboard.type(text);
}

// What the form holds; it is refused with @why, and holds that still.
async function refused(page, why, before) {
  const holds = () => page.locator("form:visible").first().evaluate((form) =>
    JSON.stringify([...new FormData(form)].filter(
      ([name]) => !["made", "token", "sure"].includes(name))));
  const typed = await holds();
  await press(page, "button", "Enter");
  await heading(page, "Not recorded").waitFor();
  check((await told(page)).includes(why), `refused: ${why}`, await told(page));
  check(await holds() === typed, "what was typed is kept", typed,
    await holds());
  check(records() === before, "and nothing is in the ledger");
}

// Nobody comes back faster than a new page is made, but a script.
const gone = (page, item, how) => until(`it is gone, ${how}`, async () => {
  if (await page.locator(item).count() === 0) return true;
  await page.reload();
  return false;
});

// By the demo's past, K5 showed 95210 km on 13 November.  Its inspection is every
// ten weeks: week 49 of 2026, which has 53, leads to week 6 of 2027, and the
// workshop's last day in that is Friday 12 February.
async function refusals() {
  const page = await window(360, { javaScriptEnabled: false });
  const before = records();
  await page.goto(person);
  const item = due("K5", "safety-inspection");
  await page.locator(`${item} summary`).focus();
  await page.keyboard.press("Enter");
  await press(page, "[value=completed]", "Space");
  await type(page, "on", "12122026");
  await type(page, "reading", "95000");
  await type(page, "initials", "  ");
  await type(page, "note", "pipes \"wiped\" & dry");
  await refused(page, "the field initials is missing", before);
  await type(page, "initials", "SE <b>");
  await refused(page, "Sat 2026-12-12 is still to come (today is Wed " +
    "2026-12-02)", before);
  await page.screenshot({ fullPage: true,
    path: `${SHOTS}/daemon-refused-360.png` });
  await type(page, "on", "12022026");
  await refused(page, "so 95000 on Wed 2026-12-02 is backwards", before);
  await type(page, "reading", "95,900");
  await refused(page, "reading: '95,900' is not a whole number", before);
  await type(page, "reading", "95900");
  await press(page, "button", "Enter");
  await heading(page, "Recorded").waitFor();
  const last = ostler("history", "K5").trim().split("\n").pop();
  check(records() === before + 1 &&
    last.includes("completed safety-inspection") && last.includes("at 95900 ")
    && last.includes("by Harbour workshop, SE <b>")
    && last.includes("pipes \"wiped\" & dry"),
  "put right, it is in the history", last);
  await press(page, ".back", "Enter");
  await gone(page, item, "on the page that Back leads to");
  await until("in the feed it has its next day", async () =>
    await feed("K5 - Safety inspection") === "20270212");
  await page.context().close();
}

// K1 is twelve on 10 December: six weeks after week 49 is week 2.
async function withScript() {
  const page = await window(1280);
  const before = records();
  check(await feed("K1 - Safety inspection") === "20261210",
    "in the feed before", await feed("K1 - Safety inspection"));
  await page.goto(person);
  const item = due("K1", "safety-inspection");
  await page.locator(`${item} summary`).focus();
  await page.keyboard.press("Enter");
  await press(page, "[value=completed]", "Space");
  await type(page, "reading", "86100");
  await type(page, "initials", "RT");
  await press(page, "button", "Enter");
  await heading(page, "Recorded").waitFor();
  check(records() === before + 1 && ostler("history", "K1")
    .includes("at 86100 km  by Harbour workshop, RT"),
  "with scripts it is in the history as well", ostler("history", "K1"));
  await look(page, "what says so");
  await page.getByRole("link", { name: "Back" }).press("Enter");
  await gone(page, item, "with scripts as well");
  await until("and another day in the feed", async () =>
    await feed("K1 - Safety inspection") === "20270115");
  await page.context().close();
}

// --- Sent more than once ------------------------------------------------------

// A page with the form of that due filled in.
async function filled(subject, job) {
  const page = await window(1280);
  await page.goto(person);
  const form = page.locator(due(subject, job));
  await form.locator("summary").click();
  await form.getByLabel("completed").check();
  await form.locator("[name=initials]").fill("RT");
  return page;
}
const again = (before, what) => check(records() === before + 1,
  `${what}: one record`, records() - before);

async function twice() {
  let before = records();
  let page = await filled("V3", "salt-wash");
  await page.locator(`${due("V3", "salt-wash")} button`).dblclick();
  await page.getByRole("heading", { name: "Recorded" }).waitFor();
  again(before, "the button is pressed twice");
  await page.context().close();

  before = records();
  const item = due("V3", "brake-test");
  page = await filled("V3", "brake-test");
  const other = await filled("V3", "brake-test");
  await page.locator(`${item} button`).click();
  await heading(page, "Recorded").waitFor();
  const sent = page.waitForRequest((r) => r.method() === "POST");
  await page.reload();
  await sent;
  await heading(page, "Recorded before").waitFor();
  again(before, "the answer is loaded anew");
  await page.goBack();
  await gone(page, item, "by the button Back");
  await other.locator(`${item} button`).click();
  await heading(other, "Recorded before").waitFor();
  again(before, "the same form is sent from another window");
  await page.context().close();
  await other.context().close();
}

// --- A page that is out of date -----------------------------------------------

// Somebody else records it while the form is open; there is a way to insist when
// another time is to come, which after the check of the nuts there is not.
async function overtaken() {
  for (const [job, insist] of [["wheel-retorque", 0], ["salt-wash", 1]]) {
    const subject = insist ? "T1" : "K6";
    const page = await filled(subject, job);
    await record(person, subject, job);
    const before = records();
    await page.locator(`${due(subject, job)} button`).click();
    await heading(page, "Not recorded").waitFor();
    check(/since this page was made/.test(await told(page)) &&
      records() === before,
    `${job}, which somebody else recorded, is refused`, await told(page));
    check(/tick/.test(await told(page)) === insist > 0 &&
      await page.getByLabel("yes, really").count() === insist,
    "it says how to insist, or there is no way", await told(page));
    if (insist)
      check(await page.locator("[name=initials]").inputValue() === "RT",
        "and what was typed is kept");
    await look(page, "it");
    await page.context().close();
  }
}

async function restarted() {
  const page = await filled("T1", "brake-test");
  const before = records();
  await end();
  await begin();
  await page.locator(`${due("T1", "brake-test")} button`).click();
  await heading(page, "Not recorded").waitFor();
  check((await told(page)).includes("look it over and send it again"),
    "a form from before a restart is to be looked over", await told(page));
  check(records() === before, "nothing is recorded until then");
  await page.locator("button").click();
  await heading(page, "Recorded").waitFor();
  again(before, "sent again");
  await page.context().close();
}

// --- A wall, and what is wrong ------------------------------------------------

const MINUTE = 61000;

async function wall() {
  const page = await window(1920);
  await page.clock.install();
  const asked = page.waitForResponse((r) =>
    r.request().resourceType() === "fetch");
  await page.goto(fleet);
  await asked;
  const extinguisher = page.locator(".board").getByText("EX-3");
  check(await extinguisher.count() === 1, "what is overdue is on the wall");
  await page.evaluate(() => { document.title = "untouched"; });
  await page.clock.runFor(MINUTE);
  await sleep(200);
  check(await page.title() === "untouched", "a page that is new stays");
  await record(fleet, "EX-3", "extinguisher-service");
  const loaded = page.waitForNavigation();
  await page.clock.runFor(MINUTE);
  await loaded;
  check(await extinguisher.count() === 0,
    "what the command line records is off it, and nobody touched it");
  await end();
  await page.clock.runFor(MINUTE);
  await page.getByText("the server does not answer").waitFor();
  await begin();
  await page.clock.runFor(MINUTE);
  await page.locator("#stale").waitFor({ state: "hidden" });
  check(true, "while the daemon is away it says so");
  await page.context().close();
}

async function halfFilled() {
  const page = await window(360);
  await page.clock.install();
  const asked = page.waitForResponse((r) =>
    r.request().resourceType() === "fetch");
  await page.goto(person);
  await asked;
  const form = page.locator(due("FA-V4", "first-aid-check"));
  await form.locator("summary").click();
  await form.locator("[name=note]").fill("plasters are");
  await record(person, "L1", "lift-examination");
  const answered = page.waitForResponse((r) =>
    r.request().resourceType() === "fetch");
  await page.clock.runFor(MINUTE);
  await answered;
  await sleep(200);
  check(await form.locator("[name=note]").inputValue() === "plasters are" &&
    await page.locator(due("L1", "lift-examination")).count() === 1,
  "a form that is half filled in is not taken away");
  await form.locator("summary").click();
  const loaded = page.waitForNavigation();
  await page.clock.runFor(MINUTE);
  await loaded;
  check(await page.locator(due("L1", "lift-examination")).count() === 0,
    "once it is closed, the newer page comes");
  await page.context().close();
}

async function notice() {
  const page = await window(360, { colorScheme: "dark" });
  const shown = page.getByRole("region", { name: "Notice" });
  await page.goto(fleet);
  check(await shown.count() === 0, "all is well: no notice");
  copyFileSync("fleet.conf", "good.conf");
  appendFileSync("fleet.conf", "nonsense = yes\n");
  await until("a broken fleet file: a notice", async () => {
    await page.reload();
    return await shown.getByText("The fleet file is wrong").isVisible();
  });
  await look(page, "with a notice");
  await page.screenshot({ path: `${SHOTS}/daemon-notice-360.png` });
  copyFileSync("good.conf", "fleet.conf");
  await until("repaired, it is gone", async () => {
    await page.reload();
    return await shown.count() === 0;
  });
  await page.context().close();
}

// --- Who may what -------------------------------------------------------------

async function keys() {
  const page = await window(1280);
  await page.goto(fleet);
  check(await page.locator("form, input, button, details:has(form)").count()
    === 0 && await page.getByText("K2", { exact: true }).count() > 0,
  "a key to read has no forms");
  ostler("key", "--page", "--revoke");
  await until("a key that is revoked opens nothing", async () =>
    (await page.reload()).status() === 404);
  const text = await page.locator("body").innerText();
  check(!/Skerrow|K2|inspection/i.test(text), "and shows nothing", text);
  ostler("key", "--person", "workshop", "--revoke");
  const before = records();
  await page.goto(person);
  await until("nor does that of a person", async () =>
    (await page.reload()).status() === 404);
  check(records() === before, "nothing is recorded by it");
  await page.context().close();
}

await scenes([views, paper, refusals, withScript, twice, overtaken, restarted,
  wall, halfFilled, notice, keys, quiet], end);
