// page_browser.mjs TREE BUILD NODE_MODULES: see page/chromium-shows-the-page.  Serves the page of
// the fleet in the current folder on a free port of 127.0.0.1, as ostlerd does.
import { createServer } from "node:http";
import { SHOTS, TODAY, browser, check, look, open, openSome, ostler,
  records, run, scenes, tabTo } from "./browser_lib.mjs";

// The start of TODAY, and one more for each version of the page.
let made = Date.parse(`${TODAY}T00:00:00Z`) / 1000;
let version = 0;
let down = false;
const desk = (words, input) =>
  run("tests/http/record_form", ["fleet.conf", TODAY, String(made), ...words], input);
// As ostlerd sends it: with a wrong hash the script does not run.
const POLICY = String(desk(["policy"])).trim();

function answer(path, body) {
  if (body !== null) return desk(["post"], body);
  made++;
  if (path === "/read") return ostler("page");
  if (path === "/north") return ostler("page", "--depot", "north-end");
  return desk(path === "/notice"
    ? ["page", "The last pass was on Wed 2 Dec at 04:17; the fleet file has " +
        "had errors since Tue 1 Dec at 16:02."] : ["page"]);
}

const server = createServer((request, response) => {
  if (down) return request.socket.destroy();
  const parts = [];
  request.on("data", (part) => parts.push(part));
  request.on("end", () => {
    const body = request.method === "POST" ? Buffer.concat(parts) : null;
    response.writeHead(200, { "content-type": "text/html; charset=utf-8",
      "content-security-policy": POLICY, etag: `"${version}"` });
    response.end(answer(request.url, body));
  });
});
await new Promise((done) => server.listen(0, "127.0.0.1", done));
const base = `http://127.0.0.1:${server.address().port}`;

// Each width, and each page in both lights.
const VIEWS = [["read", 360, "light"], ["read", 1280, "dark"],
  ["read", 1920, "light"], ["desk", 360, "dark"], ["desk", 1280, "light"]];

async function views() {
  for (const [path, width, colorScheme] of VIEWS) {
    const context = await open(width, { colorScheme });
    const page = await context.newPage();
    await page.goto(`${base}/${path}`);
    const shot = `${SHOTS}/${path}-${width}-${colorScheme}.png`;
    await page.screenshot({ fullPage: true, path: shot });
    await openSome(page);
    await look(page, `${path} at ${width}, ${colorScheme}`);
    if (path === "desk")
      await page.screenshot({ fullPage: true,
        path: shot.replace(".png", "-open.png") });
    await context.close();
  }
}

// At 320 a page that is zoomed to 400 % is read (WCAG 1.4.10).
async function small() {
  const context = await open(320);
  const page = await context.newPage();
  await page.goto(`${base}/notice`);
  await look(page, "with a notice at 320");
  check(await page.getByRole("region", { name: "Notice" })
    .getByText("the fleet file has had errors").isVisible(),
  "a notice is a region of its own");
  await page.goto(`${base}/north`);
  check(await page.getByText("K1", { exact: true }).count() === 0 &&
    await page.getByText("K8", { exact: true }).count() > 0,
  "the page of a depot has its vehicles alone");
  await context.close();
}

async function paper() {
  const page = await browser.newPage();
  await page.goto(`${base}/read`);
  const pdf = await page.pdf({ preferCSSPageSize: true,
    path: `${SHOTS}/paper.pdf` });
  const sheets = String(pdf).match(/\/Type\s*\/Page\b/g).length;
  check(sheets === 2, "on paper it takes two sheets", sheets);
  await page.close();
}

async function keyboard(page) {
  await page.goto(`${base}/`);
  await page.keyboard.press("Tab");
  check(await page.locator(".skip:focus").isVisible(),
    "the first stop is a link past the top, which then can be seen");
  await page.keyboard.press("Enter");
  check(await page.locator("main:focus").count() === 1, "and it leads there");
  const item = "li.due:has-text('K6'):has-text('Wheel nuts') ";
  await page.locator(`${item} summary`).focus();
  await page.keyboard.press("Enter");
  check(await page.locator(`${item} form`).isVisible(), "a form opens");
  check(await tabTo(page, "[type=radio]") === 1, "it begins with the result");
  await page.keyboard.press("Space");
  check(await page.locator(`${item} [name=on]`).inputValue() === TODAY,
    "and has today for the day");
  await tabTo(page, "[name=reading]");
  await page.keyboard.type("6");
  await tabTo(page, "[name=initials]");
  await page.keyboard.type("RT <b>");
  await tabTo(page, "button");
  const before = records();
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Not recorded" }).waitFor();
  check(records() === before, "a reading that goes backwards is refused");
  check((await page.getByRole("status").innerText())
    .includes('K6 showed 63610 on Tue 2026-12-01 (record 39), so 6 on Wed ' +
      '2026-12-02 is backwards'), "in the words of the command line");
  return before;
}

// After a refusal: the form is as it was filled in, with a way to insist.
async function insist(page, before) {
  check(await page.locator("[name=initials]").inputValue() === "RT <b>" &&
    await page.locator("[value=completed]").isChecked(),
  "the form keeps what was written");
  await page.getByLabel("yes, really").focus();
  await page.keyboard.press("Space");
  await page.locator("button").focus();
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Recorded" }).waitFor();
  const last = ostler("history", "K6").trim().split("\n").pop();
  check(records() === before + 1 && last.includes("completed wheel-retorque")
    && last.includes("at 6 ") && last.includes("by R. Teal, RT <b>"),
  "who insists records it, and signs", last);
  await page.reload();
  check(await page.getByRole("heading", { name: "Recorded before" }).isVisible()
    && records() === before + 1, "sent twice, it is recorded once");
  await page.getByRole("link", { name: "Back" }).click();
  check(await page.locator("li.due:has-text('Wheel nuts')").count() === 0,
    "and is gone from the page");
}

async function record() {
  const context = await open(360, { javaScriptEnabled: false });
  const page = await context.newPage();
  const before = await keyboard(page);
  await insist(page, before);
  await context.close();
}

async function refusal() {
  const context = await open(360);
  const page = await context.newPage();
  await page.goto(`${base}/`);
  const item = page.locator("li.due:has-text('K5')").first();
  await item.locator("summary").click();
  await item.getByLabel("failed").check();
  await item.locator("[name=reading]").fill("12");
  await item.locator("[name=initials]").fill("RT");
  await item.locator("button").click();
  await page.getByRole("heading", { name: "Not recorded" }).waitFor();
  await look(page, "a refusal at 360");
  await page.screenshot({ fullPage: true,
    path: `${SHOTS}/refused-360.png` });
  await context.close();
}

// A wall, where nobody reloads, under the policy that goes with the page.
async function wall() {
  const page = await browser.newPage();
  await page.clock.install();
  const asked = page.waitForResponse((r) => r.request().method() === "GET"
    && r.request().resourceType() === "fetch");
  await page.goto(`${base}/desk`);
  await asked;
  down = true;
  await page.clock.runFor(61000);
  await page.getByText("the server does not answer").waitFor();
  check(true, "a server that is gone is said on the wall");
  down = false;
  await page.clock.runFor(61000);
  await page.locator("#stale").waitFor({ state: "hidden" });
  await page.locator("summary").first().click();
  version++;
  await page.clock.runFor(61000);
  check(await page.locator("form").first().isVisible(),
    "a form that is open is not taken away");
  await page.locator("summary").first().click();
  const again = page.waitForNavigation();
  await page.clock.runFor(61000);
  await again;
  check(true, "without one, a newer page is shown by itself");
  await page.close();
}

await scenes([views, small, paper, refusal, record, wall], () => server.close());
