// Drives one page of the system's Chromium for a test: a line of JSON in, a line of JSON out.
// Arguments: the folder of node modules, a folder for the browser's profile.
import { createRequire } from "node:module";
import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";
import { createInterface } from "node:readline";

const [modules, profile] = process.argv.slice(2);
const puppeteer = createRequire(join(modules, "x.js"))("puppeteer-core");

const browser = await puppeteer.launch({
  executablePath: process.env.PATH.split(delimiter).map((folder) => join(folder, "chromium")).find(existsSync),
  userDataDir: profile,
  args: ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-sync", "--disable-dev-shm-usage"],
});
const page = (await browser.pages())[0] ?? (await browser.newPage());
page.setDefaultTimeout(120000);

// Everything that went wrong on the page since it was last asked.
let faults = [];
page.on("console", (said) => {
  if (["error", "warn", "assert"].includes(said.type())) faults.push(`${said.type()}: ${said.text()} ${said.location().url ?? ""}`);
});
page.on("pageerror", (error) => faults.push(`not caught: ${error}`));
page.on("requestfailed", (request) => {
  // A page that is left, or that lets go of what it no longer shows, ends requests itself.
  if (request.failure()?.errorText !== "net::ERR_ABORTED") faults.push(`${request.url()}: ${request.failure()?.errorText}`);
});
await page.exposeFunction("testFault", (words) => void faults.push(words));
await page.evaluateOnNewDocument(() => {
  document.addEventListener("securitypolicyviolation", (event) => {
    (window.top ?? window).testFault(`against the policy: ${event.violatedDirective} ${event.blockedURI} in ${location.pathname}`);
  });
});

const pause = (time) => new Promise((done) => setTimeout(done, time));
const does = {
  open: async ({ url }) => void (await page.goto(url, { waitUntil: "domcontentloaded" })),
  eval: ({ js }) => page.evaluate(js),
  // Asks until the answer is true; gives the milliseconds that took.
  wait: async ({ js, limit }) => {
    const began = performance.now();
    for (;;) {
      if ((await page.evaluate(js)) === true) return performance.now() - began;
      if (performance.now() - began > limit) throw new Error(`it never came: ${js}`);
      await pause(4);
    }
  },
  click: async ({ at }) => void (await page.click(at)),
  fill: async ({ at, text }) => {
    await page.click(at, { count: 3 });
    await page.keyboard.press("Backspace");
    if (text) await page.keyboard.type(text);
  },
  press: async ({ key }) => void (await page.keyboard.press(key)),
  select: async ({ at, value }) => void (await page.select(at, value)),
  window: async ({ width, height, phone }) => void (await page.setViewport({ width, height, isMobile: phone, hasTouch: phone })),
  scheme: async ({ value }) => void (await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value }])),
  // Puts a script into the page and everything framed in it, past its policy.
  inject: async ({ js }) => void (await Promise.all(page.frames().map((frame) => frame.evaluate(js)))),
  // The text of what is framed in the page, also of what the page itself may not read.
  framed: () => Promise.all(page.frames().slice(1).map((frame) => frame.evaluate("document.body?.innerText ?? ''"))),
  picture: async ({ path }) => void (await page.screenshot({ path })),
  faults: async () => faults.splice(0),
};

for await (const line of createInterface({ input: process.stdin })) {
  const asked = JSON.parse(line);
  let answer;
  try {
    answer = { ok: (await does[asked.do](asked)) ?? null };
  } catch (error) {
    answer = { error: `${asked.do}: ${error.message}` };
  }
  process.stdout.write(`${JSON.stringify(answer)}\n`);
}
await browser.close();
