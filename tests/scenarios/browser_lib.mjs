// browser_lib.mjs: what the scripts in a browser share, which browser.sh runs in
// the folder of a fleet as SCRIPT TREE BUILD NODE_MODULES.
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

export const [TREE, BUILD, MODULES] = process.argv.slice(2);
export const TODAY = "2026-12-02";
export const SHOTS = `${BUILD}/page-shots`;
const { chromium } = createRequire(`${MODULES}/`)("playwright-core");
const AXE = readFileSync(`${MODULES}/axe-core/axe.min.js`, "utf8");
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
let failed = 0;

export function check(ok, what, ...seen) {
  console.log(ok ? "ok" : "not ok", "-", what);
  if (ok) return;
  failed = 1;
  for (const s of seen) console.log("#", JSON.stringify(s).slice(0, 600));
}

export function run(program, words, input) {
  const done = spawnSync(`${BUILD}/${program}`, words, { input });
  if (done.status) console.log("#", program, String(done.stderr));
  return String(done.stdout);
}

export const ostler = (...words) =>
  run("ostler", ["-c", "fleet.conf", "--today", TODAY, ...words]);
export const records = () => ostler("history").trim().split("\n").length;

export const browser = await chromium.launch({
  executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });

// A window of its own, in which look() can look.
export async function open(width, options) {
  const context = await browser.newContext({
    viewport: { width, height: width <= 360 ? 740 : 1080 }, ...options });
  await context.addInitScript(AXE);
  return context;
}

// What axe-core finds, and what spills over the side.
export async function look(page, what) {
  const errors = await page.evaluate(async (rules) => {
    const found = await globalThis.axe.run({ runOnly: rules });
    return found.violations.map((v) => [v.id, v.nodes.length,
      v.nodes[0].html.slice(0, 120), v.nodes[0].failureSummary]);
  }, RULES);
  check(errors.length === 0, `${what}: axe-core finds nothing`, ...errors);
  const wide = await page.evaluate(() =>
    document.documentElement.scrollWidth - innerWidth);
  check(wide <= 0, `${what}: nothing spills over the side`, wide);
}

// Open every fifth form, and the first ones.
export const openSome = (page) => page.evaluate(() =>
  document.querySelectorAll("details")
    .forEach((d, n) => { d.open = n % 5 === 0 || n < 3; }));

// Press Tab until the focus is on what @wanted selects; how often that took.
export async function tabTo(page, wanted) {
  for (let n = 1; n <= 200; n++) {
    await page.keyboard.press("Tab");
    const here = page.locator(":focus");
    if (await here.count() && await here.evaluate(
      (e, w) => e.matches(w), wanted)) return n;
  }
  return 0;
}

// Do these one after the other, then end, and leave.
export async function scenes(all, end) {
  for (const scene of all) {
    try {
      await scene();
    } catch (error) {
      check(false, `${scene.name} goes on to its end`, error.message);
    }
  }
  await browser.close();
  await end();
  process.exit(failed);
}
