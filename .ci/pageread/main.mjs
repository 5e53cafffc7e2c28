// Opens pages of HTML in headless Chromium, as somebody does on a telephone, on a
// small screen and on a desk, and prints them on A4 and Letter. It says one line a
// check and ends with 1 where one fails. For each page it leaves beside it what was
// seen (PAGE-seen.json: every text, in order), and the two prints.
//
//	node main.mjs CHROMIUM PAGE.html...
import { readFile, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname, basename, join } from "node:path";
import { pathToFileURL } from "node:url";
import { HtmlValidate } from "html-validate";
import puppeteer from "puppeteer-core";

const axe = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const [chromium, ...pages] = process.argv.slice(2);

let failed = 0;
function check(name, faults) {
  const good = faults.length === 0;
  failed += !good;
  console.log(`${good ? "ok  " : "FAIL"} ${name}`);
  for (const fault of faults.slice(0, 12)) console.log(`     ${fault}`);
  if (faults.length > 12) console.log(`     and ${faults.length - 12} more`);
}

// What is in a page, by its own geometry. Runs in the page.
function look() {
  const width = document.documentElement.clientWidth;
  const named = (e) => `<${e.tagName.toLowerCase()}${e.id ? ` id=${e.id}` : ""}${typeof e.className === "string" && e.className ? ` class=${e.className}` : ""}> ${(e.textContent ?? "").trim().replace(/\s+/g, " ").slice(0, 60)}`;
  const seen = { sideways: [], cut: [], texts: [], over: [] };
  if (document.documentElement.scrollWidth > width) seen.sideways.push(`the page is ${document.documentElement.scrollWidth} wide`);

  // Only for those who listen: one dot, clipped.
  const hidden = (e) => {
    if (!e.checkVisibility({ visibilityProperty: true })) return true; // folded away
    for (let p = e; p && p !== document.body; p = p.parentElement) {
      const s = getComputedStyle(p);
      if (s.visibility === "hidden" || (s.position === "absolute" && s.overflow === "hidden" && p.clientWidth <= 1)) return true;
    }
    return false;
  };
  for (const e of document.body.querySelectorAll("*")) {
    if (e.closest("svg") !== null && e.tagName.toLowerCase() !== "svg") continue;
    const box = e.getBoundingClientRect();
    if (box.width === 0 || box.height === 0 || hidden(e)) continue;
    if (box.right > width + 0.5 || box.left < -0.5) seen.sideways.push(`${Math.round(box.left)} to ${Math.round(box.right)} of ${width}: ${named(e)}`);
    const s = getComputedStyle(e);
    if (/auto|scroll/.test(s.overflowX) && e.scrollWidth > e.clientWidth + 1) seen.sideways.push(`scrolls by itself: ${named(e)}`);
    if (/hidden|clip/.test(s.overflowX + s.overflowY) && e.tagName.toLowerCase() !== "svg" && (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1)) seen.cut.push(named(e));
    if (s.textOverflow === "ellipsis" && e.scrollWidth > e.clientWidth) seen.cut.push(named(e));
  }

  // Each line of each text, as high as its letters: 0.72 of the size over the line
  // that they stand on.
  const marks = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  for (let node = walk.nextNode(), number = 0; node; node = walk.nextNode(), number++) {
    const text = node.data.trim();
    const e = node.parentElement;
    if (!text || !e || e.closest("script, style, title, desc, metadata")) continue;
    range.selectNodeContents(node);
    const boxes = [...range.getClientRects()].filter((r) => r.width > 0.5 && r.height > 0.5);
    if (!boxes.length || hidden(e)) continue;
    const svg = e.closest("svg");
    seen.texts.push({ text: text.replace(/\s+/g, " "), tag: e.tagName.toLowerCase(), svg: svg ? [...document.querySelectorAll("svg")].indexOf(svg) : -1 });
    for (const r of boxes) {
      const upright = !svg || r.width >= r.height || text.length < 3;
      const [h, w] = upright ? [r.height * 0.2, 0] : [0, r.width * 0.2];
      marks.push({ number, text, left: r.left + w, right: r.right - w, top: r.top + h, bottom: r.bottom - h });
      if (svg) {
        const paper = svg.getBoundingClientRect();
        if (r.left < paper.left - 1 || r.right > paper.right + 1 || r.top < paper.top - 1 || r.bottom > paper.bottom + 1) seen.cut.push(`outside its picture: ${text}`);
      }
    }
  }
  marks.sort((a, b) => a.top - b.top);
  for (let i = 0; i < marks.length; i++) {
    for (let k = i + 1; k < marks.length && marks[k].top < marks[i].bottom; k++) {
      const a = marks[i], b = marks[k];
      const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const high = Math.min(a.bottom, b.bottom) - b.top;
      if (a.number !== b.number && wide > 1 && high > 1) seen.over.push(`"${a.text.slice(0, 50)}" and "${b.text.slice(0, 50)}", ${wide.toFixed(1)} by ${high.toFixed(1)}`);
    }
  }
  return seen;
}

const browser = await puppeteer.launch({
  executablePath: chromium,
  headless: true,
  args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--font-render-hinting=none"],
});
const validator = new HtmlValidate({
  root: true,
  extends: ["html-validate:recommended", "html-validate:document"],
  rules: {
    "void-style": ["error", { style: "selfclosing" }], // the page is XML as well
    "no-inline-style": "off", // the widths of pictures
    "long-title": "off", // an engine has the name that it has
    "require-sri": "off", // nothing is loaded
  },
});

for (const path of pages) {
  const name = join(basename(dirname(path)), basename(path));
  const source = await readFile(path, "utf8");
  const url = pathToFileURL(path).href;

  const report = await validator.validateString(source);
  check(`${name}: HTML by structure`, report.results.flatMap((r) => r.messages.map((m) => `${m.line}:${m.column} ${m.ruleId}: ${m.message}`)));

  const page = await browser.newPage();
  const said = [];
  page.on("console", (m) => said.push(`console: ${m.text()}`));
  page.on("pageerror", (e) => said.push(`error: ${e.message}`));
  page.on("dialog", (d) => (said.push(`dialog: ${d.message()}`), d.dismiss()));
  page.on("request", (r) => {
    if (r.url() !== url && !r.url().startsWith("data:")) said.push(`asks for ${r.url()}`);
  });

  let whole;
  for (const width of [390, 1024, 1440]) {
    await page.setViewport({ width, height: 844, deviceScaleFactor: width < 600 ? 3 : 1, isMobile: width < 600, hasTouch: width < 600 });
    await page.goto(url, { waitUntil: "load" });
    for (const unfolded of [false, true]) {
      if (unfolded) await page.$$eval("details", (all) => all.forEach((d) => (d.open = true)));
      const seen = await page.evaluate(look);
      const at = `${name} at ${width}${unfolded ? ", unfolded" : ""}`;
      check(`${at}: nothing sideways`, seen.sideways);
      check(`${at}: nothing cut off`, seen.cut);
      check(`${at}: no text over text`, seen.over);
      if (unfolded && width === 1440) whole = seen.texts;
    }
    if (width !== 1024) {
      await page.$$eval("details", (all) => all.forEach((d) => (d.open = true)));
      await page.setBypassCSP(true);
      await page.evaluate(axe);
      const found = await page.evaluate(async () => {
        const result = await window.axe.run(document, { resultTypes: ["violations"], runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"], rules: { "target-size": { enabled: true } } });
        return result.violations.flatMap((v) => v.nodes.map((n) => `${v.id} (${v.impact}): ${v.help}: ${n.html.slice(0, 100)}`));
      });
      check(`${name} at ${width}: for those who listen, axe-core`, found);
    }
  }
  const tree = await page.evaluate(() => ({
    pictures: [...document.querySelectorAll("svg")].map((s) => ({ role: s.getAttribute("role"), title: s.querySelector("title")?.textContent ?? "", label: s.getAttribute("aria-labelledby") ?? "" })),
    scripts: document.querySelectorAll("script").length,
    heading: document.querySelector("h1")?.textContent ?? "",
    headings: [...document.querySelectorAll("h1,h2,h3,h4,h5,h6")].map((h) => h.textContent.trim().replace(/\s+/g, " ")),
    contents: [...document.querySelectorAll("nav a")].map((a) => a.textContent).join(" "),
    language: document.documentElement.lang,
    ids: [...document.querySelectorAll("[id]")].map((e) => e.id),
  }));
  const twice = tree.ids.filter((id, i) => tree.ids.indexOf(id) !== i);
  check(`${name}: no script, a language, every id once`, [...(tree.scripts ? [`${tree.scripts} scripts`] : []), ...(tree.language ? [] : ["no lang"]), ...twice.map((id) => `id ${id} twice`)]);
  check(`${name}: ${tree.pictures.length} pictures with a role and a title`, tree.pictures.flatMap((p, i) => (p.role === "img" && p.title.trim() ? [] : [`picture ${i + 1}: role ${p.role}, title "${p.title}"`])));

  const print = await browser.newPage(); // as it is sent: folded, on no screen
  await print.goto(url, { waitUntil: "load" });
  for (const format of ["A4", "Letter"]) {
    await print.pdf({ path: path.replace(/\.html$/, `-${format}.pdf`), format, printBackground: false, preferCSSPageSize: false, timeout: 120_000 });
  }
  await print.close();
  await page.emulateMediaType("print");
  const printed = await page.evaluate(look);
  check(`${name}: no console message, nothing asked for outside the page`, said);
  await writeFile(path.replace(/\.html$/, "-seen.json"), JSON.stringify({ texts: whole, print: printed.texts, headings: tree.headings, heading: tree.heading, contents: tree.contents, pictures: tree.pictures.length }));
  await page.close();
}
await browser.close();
process.exit(failed ? 1 : 0);
