// Renders every kind of page at every size it is read at into one contact sheet, to be looked at by a person after a change of design:
// desk, dark desk, telephone, A4, A5, index card, terminal. Nothing is compared: type is drawn a little differently on every machine.
//
//     node tests/scripts/review_pages.mjs [--miche target/debug/miche] [--to FOLDER] [--only WORD]
//
// Needs chromium, pdftoppm (poppler-utils), script (bsdutils) and `npm ci --ignore-scripts --prefix tests/tools`. Writes FOLDER/contact.png and, for a
// closer look, every picture by itself.
import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { delimiter, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

const root = resolve(fileURLToPath(import.meta.url), "../../..");
const option = (name, otherwise) => {
  const at = process.argv.indexOf(name);
  return at < 0 ? otherwise : process.argv[at + 1];
};
const miche = resolve(option("--miche", join(root, "target/debug/miche")));
const to = resolve(option("--to", join(root, "target/pages")));
const only = option("--only", "");

// A history to look back on and a version to compare with, made from an example.
const work = mkdtempSync(join(tmpdir(), "pages"));
process.on("exit", () => rmSync(work, { recursive: true, force: true }));
cpSync(join(root, "examples"), work, { recursive: true });
const git = (...words) =>
  execFileSync("git", ["-c", "user.name=a", "-c", "user.email=a@b", "-c", "init.defaultBranch=main", ...words], { cwd: work, stdio: "ignore" });
const loaf = join(work, "harbour-levain-loaf.miche");
const now = readFileSync(loaf, "utf8");
git("init");
const then = [
  [now.replace("72 %", "68 %"), "2027-01-10T06:00:00", "A first loaf"],
  [now.replace("72 %", "70 %"), "2027-02-20T06:00:00", "A little softer"],
  [now, "2027-04-02T06:00:00", "Softer again, for the spring flour"],
];
for (const [text, date, words] of then) {
  writeFileSync(loaf, text);
  git("add", "-A");
  process.env.GIT_AUTHOR_DATE = process.env.GIT_COMMITTER_DATE = date;
  git("commit", "--allow-empty", "-m", words);
}
const before = readFileSync(join(work, "rhubarb-crumb-buns.miche"), "utf8");
writeFileSync(join(work, "before.miche"), before.replace(/(milk \.+ )(\d+) %/, "$168 %"));

const kinds = [
  ["buns", ["card", "rhubarb-crumb-buns.miche"], ["--date", "2027-04-17"]],
  ["buns-360", ["card", "rhubarb-crumb-buns.miche", "--pieces", "360"], ["--date", "2027-04-17"]],
  ["loaf-stations", ["card", "harbour-levain-loaf.miche", "--by", "station"], ["--date", "2027-04-17"]],
  ["day", ["card", "market-day.miche"], ["--date", "2027-04-17"]],
  ["list", ["list", "market-day.miche"], ["--date", "2027-04-17"]],
  ["plan", ["plan", "market-day.miche"], []],
  ["diff", ["diff", "before.miche", "rhubarb-crumb-buns.miche"], []],
  ["history", ["history", "harbour-levain-loaf.miche"], []],
  ["label", ["label", "rhubarb-crumb-buns.miche"], []],
  ["label-report", ["label", "rhubarb-crumb-buns.miche", "--report"], []],
  ["plan-person", ["plan", "market-day.miche", "--by", "person"], []],
  ["cost", ["cost", "rhubarb-crumb-buns.miche"], []],
  ["stock", ["stock", "rhubarb-crumb-buns.miche", "--have", "strong white flour=4 kg"], []],
  ["sums", ["sums", "harbour-levain-loaf.miche"], []],
].filter(([name]) => name.includes(only));

// name, width and height in pixels, dark, and for papers how the card is asked for and what the browser prints on
const sizes = [
  ["desk", { width: 1280, height: 1700 }],
  ["dark", { width: 1280, height: 1700, dark: true }],
  ["telephone", { width: 390, height: 1700, scale: 2 }],
  ["a4", { paper: "a4" }],
  ["a5", { paper: "a5" }],
  ["index", { paper: "index" }],
  ["terminal", {}],
];
const takesPaper = ["card", "list"];

mkdirSync(to, { recursive: true });
const puppeteer = createRequire(join(root, "tests/tools/node_modules/x.js"))("puppeteer-core");
const browser = await puppeteer.launch({
  executablePath: process.env.PATH.split(delimiter).map((folder) => join(folder, "chromium")).find(existsSync),
  userDataDir: join(work, "profile"),
  args: ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-sync", "--disable-dev-shm-usage"],
});
const page = (await browser.pages())[0] ?? (await browser.newPage());
const run = (words) => {
  const done = spawnSync(miche, words, { cwd: work, encoding: "utf8", env: process.env });
  if (done.status !== 0) console.error(`miche ${words.join(" ")}: ${done.stderr.trim().split("\n").slice(0, 3).join(" / ")}`);
  return done.stdout;
};
// What a terminal of 80 columns shows: `script` is one.
const onTerminal = (words) => {
  const quoted = [miche, ...words].map((word) => `'${word.replaceAll("'", "'\\''")}'`).join(" ");
  const done = spawnSync("script", ["-qec", `stty cols 80; NO_COLOR=1 ${quoted} 2>/dev/null`, "/dev/null"], { cwd: work, encoding: "utf8" });
  return done.stdout.replaceAll("\r\n", "\n").replaceAll(/\x1b\[[0-9;?]*[A-Za-z]/g, "");
};
const escaped = (text) => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;");

const rows = [];
for (const [name, words, more] of kinds) {
  const cells = [];
  for (const [size, how] of sizes) {
    const picture = join(to, `${name}-${size}.png`);
    const isPaper = "paper" in how;
    if (isPaper && how.paper !== "a4" && !takesPaper.includes(words[0])) {
      cells.push(null);
      continue;
    }
    let note = "";
    if (size === "terminal") {
      const text = onTerminal([...words, ...more]);
      await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: "light" }]);
      await page.setViewport({ width: 760, height: 1700 });
      await page.setContent(`<pre style="font:15px/1.25 monospace;margin:12px">${escaped(text)}</pre>`);
      await page.screenshot({ path: picture });
      note = `${text.split("\n").length} lines`;
    } else {
      const html = join(work, `${name}-${size}.html`);
      const paper = isPaper && takesPaper.includes(words[0]) ? ["--paper", how.paper] : [];
      writeFileSync(html, run([...words, ...more, ...paper, "--format", "html"]));
      await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: how.dark ? "dark" : "light" }]);
      await page.setViewport({ width: how.width ?? 1000, height: how.height ?? 1700, deviceScaleFactor: how.scale ?? 1, isMobile: size === "telephone" });
      await page.goto(`file://${html}`);
      await page.evaluate("document.fonts.ready");
      if (isPaper) {
        const pdf = join(work, `${name}-${size}.pdf`);
        await page.pdf({ path: pdf, preferCSSPageSize: true, format: "a4", printBackground: false });
        execFileSync("pdftoppm", ["-r", how.paper === "a4" ? "80" : "110", "-png", pdf, join(to, `${name}-${size}`)]);
        const count = Number(/Pages:\s+(\d+)/.exec(execFileSync("pdfinfo", [pdf], { encoding: "utf8" }))[1]);
        const digits = String(count).length;
        note = `${count} pages`;
        const pages = Array.from({ length: Math.min(count, 2) }, (_, at) => join(to, `${name}-${size}-${String(at + 1).padStart(digits, "0")}.png`));
        cells.push({ size, pictures: pages, note });
        continue;
      }
      const high = await page.evaluate("document.documentElement.scrollHeight");
      const wide = await page.evaluate("document.documentElement.scrollWidth");
      await page.screenshot({ path: picture, clip: { x: 0, y: 0, width: how.width, height: Math.min(high, 6000) }, captureBeyondViewport: true });
      note = `${high} px high${wide > how.width ? `, ${wide} WIDE` : ""}`;
    }
    cells.push({ size, pictures: [picture], note });
  }
  rows.push([name, cells]);
  console.log(name, cells.filter(Boolean).map((cell) => `${cell.size}: ${cell.note}`).join("; "));
}

const image = (path) => `<img src="data:image/png;base64,${readFileSync(path).toString("base64")}">`;
const cell = (one) => (one ? `<td><p>${one.size}, ${one.note}</p><div>${one.pictures.map(image).join("")}</div></td>` : "<td></td>");
const sheet = `<!DOCTYPE html><style>body{font:14px sans-serif;margin:8px}td{vertical-align:top;padding:4px;border:1px solid #888}
p{margin:0 0 4px}div{height:330px;overflow:hidden;display:flex;gap:2px;align-items:flex-start}img{width:230px;flex:none;border:1px solid #ccc}</style>
<table>${rows.map(([name, cells]) => `<tr><th>${name}</th>${cells.map(cell).join("")}</tr>`).join("")}</table>`;
await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: "light" }]);
await page.setViewport({ width: 2500, height: 1000 });
await page.setContent(sheet);
// A very tall picture may be too much for the browser at once; the sheet is made without it.
await page.evaluate("Promise.allSettled(Array.from(document.images, (one) => one.decode()))");
await page.screenshot({ path: join(to, "contact.png"), fullPage: true });
await browser.close();
console.log(join(to, "contact.png"));
