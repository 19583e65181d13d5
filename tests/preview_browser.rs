//! `miche preview` in a real browser: the card follows the file, and whoever else asks gets nothing.
//!
//! Without the tools these tests print that they were not run; under CI that is a failure.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "preview/client.rs"]
#[allow(dead_code)]
mod client;
#[path = "preview_browser/driver.rs"]
mod driver;
#[path = "cards_browser/tools.rs"]
#[allow(dead_code)]
mod tools;

use client::{Preview, save_by_rename};
use driver::{Browser, axe, browser};
use serde_json::json;
use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::net::TcpListener;
use std::path::Path;
use std::time::Instant;

const ROLLS: &str = "harbour-rolls.miche";
const BUNS: &str = "rhubarb-crumb-buns.miche";

fn at(preview: &Preview, query: &str) -> String {
    format!("http://127.0.0.1:{}/{query}", preview.port)
}

/// The text of an example with one thing in it changed.
fn changed(folder: &Path, file: &str, from: &str, to: &str) -> String {
    let text = fs::read_to_string(folder.join(file)).expect("readable");
    assert_eq!(text.matches(from).count(), 1, "{from} in {file}");
    text.replace(from, to)
}

#[test]
fn the_card_follows_the_file() {
    let Some(mut page) = browser() else { return };
    let folder = tools::examples();
    let path = folder.path().join(ROLLS);
    let preview = Preview::start(&path);
    page.desk();
    page.open(&preview.address);
    // 64 % of 4 kg.
    page.wait("sheet && weigh('caster sugar') === '120 g' && [...sheet.querySelectorAll('.weigh')].some((one) => one.textContent.includes('2560'))");
    page.fill("#pieces", "200");
    page.wait("weigh('caster sugar') === '240 g'");
    page.value("(window.mark = 'not loaded again', frame.contentWindow.scrollTo(0, 640), sheet.querySelector('.strip input').click())");
    let mut took = Vec::new();
    for round in 1..=10_u32 {
        let percent = f64::from(30 + round) / 10.0;
        let text = changed(
            folder.path(),
            ROLLS,
            "caster sugar .................. 3 %",
            &format!("caster sugar .. {percent} %"),
        );
        let began = Instant::now();
        if round % 2 == 0 {
            save_by_rename(&path, &text)
        } else {
            fs::write(&path, &text).expect("written")
        }
        // Of 8 kg of flour.
        page.wait(&format!("weigh('caster sugar') === '{} g'", (30 + round) * 8));
        took.push(began.elapsed());
        assert_eq!(page.value("frame.contentWindow.scrollY"), 640, "the place on the page is kept");
        let original = changed(
            folder.path(),
            ROLLS,
            &format!("caster sugar .. {percent} %"),
            "caster sugar .................. 3 %",
        );
        fs::write(&path, original).expect("written");
        page.wait("weigh('caster sugar') === '240 g'");
    }
    took.sort();
    println!("after a save the page shows the new figure in {took:?}");
    assert!(took.first().is_some_and(|best| best.as_secs() < 2), "{took:?}");
    assert_eq!(
        page.value("[window.mark, document.getElementById('pieces').value]"),
        json!(["not loaded again", "200"])
    );
    assert_eq!(page.value("frame.contentWindow.scrollY"), 640);
    assert_eq!(page.faults(), json!([]));
}

#[test]
fn a_mistake_is_shown_and_leads_to_its_line() {
    let Some(mut page) = browser() else { return };
    let folder = tools::examples();
    let path = folder.path().join(ROLLS);
    let good = fs::read_to_string(&path).expect("readable");
    let line = good.lines().position(|line| line.starts_with("mix: hands")).expect("a step") + 2;
    let preview = Preview::start(folder.path());
    page.desk();
    page.open(&at(&preview, &format!("?file={ROLLS}")));
    page.wait("sheet && weigh('caster sugar') === '120 g'");
    assert_eq!(page.value("document.getElementById('problems').hidden"), true);
    save_by_rename(&path, &good.replace("{caster sugar}", "{castor sugar}"));
    page.wait("document.querySelectorAll('#found li').length > 0");
    let said = page.value("document.getElementById('found').innerText");
    assert!(said.as_str().is_some_and(|said| said.contains("castor sugar")), "{said}");
    assert_eq!(
        page.value("document.getElementById('stale').hidden"),
        false,
        "the card is an old one, and that is said"
    );
    assert_eq!(page.value("weigh('caster sugar')"), "120 g", "the last good card stays");
    page.wait("document.querySelector('#recipes a[aria-current] b')?.textContent.includes('error')");
    page.value("document.querySelector('#found details').open = true");
    page.click("#found a");
    page.wait(&format!("sheet && sheet.querySelector('tr:target')?.id === 'L{line}'"));
    let place = page.value(
        "(()=>{const box=sheet.querySelector('tr:target').getBoundingClientRect();\
         return box.top >= 0 && box.bottom <= frame.contentWindow.innerHeight && sheet.querySelector('tr:target').textContent.includes('castor sugar')})()",
    );
    assert_eq!(place, true, "the line is in sight");
    // The text follows too, and stays where it was.
    let scrolled = page.value("frame.contentWindow.scrollY");
    save_by_rename(&path, &good.replace("{caster sugar}", "{cursed sugar}"));
    page.wait("sheet && sheet.body.innerText.includes('cursed sugar')");
    assert_eq!(page.value("frame.contentWindow.scrollY"), scrolled);
    assert_eq!(page.value("document.querySelector('#found details').open"), true, "what was opened stays open");
    page.value("history.back()");
    page.wait("sheet && weigh('caster sugar') === '120 g'");
    save_by_rename(&path, &good.replace("caster sugar .................. 3 %", "caster sugar .. 4 %"));
    page.wait("weigh('caster sugar') === '160 g'");
    assert_eq!(
        page.value("document.getElementById('problems').hidden && document.getElementById('stale').hidden"),
        true
    );
    assert_eq!(page.faults(), json!([]));
}

#[test]
fn pieces_choices_and_units_change_the_card() {
    let Some(mut page) = browser() else { return };
    let folder = tools::examples();
    let preview = Preview::start(folder.path());
    page.desk();
    page.open(&at(&preview, &format!("?file={BUNS}")));
    page.wait("sheet && sheet.querySelector('h1')");
    let written = page.value("document.getElementById('makes').textContent");
    let salt = page.value("weigh('salt')");
    page.fill("#pieces", "96");
    page.wait("sheet.body.innerText.includes('96 buns') && document.getElementById('makes').textContent === '96 buns'");
    assert_ne!(page.value("weigh('salt')"), salt);
    let machine = page.value("sheet.body.innerText");
    page.select("#choices select", "hand");
    page.wait(&format!(
        "sheet.body.innerText !== {machine} && new URLSearchParams(location.search).get('choose') === 'mixing=hand'"
    ));
    page.select("#units", "us");
    page.wait("/\\b(lb|oz)\\b/.test(sheet.body.innerText)");
    // Loaded again, it is the same page.
    let card = page.value("sheet.body.innerText");
    let here = page.value("location.href");
    page.open(here.as_str().expect("an address"));
    page.wait(&format!("sheet && sheet.body.innerText === {card}"));
    assert_eq!(page.value("document.querySelector('#choices select').value"), "hand");
    page.fill("#pieces", "lots");
    page.wait("!document.getElementById('said').hidden");
    let said = page.value("document.getElementById('said').innerText");
    assert!(said.as_str().is_some_and(|said| said.contains("lots")), "{said}");
    page.fill("#pieces", "");
    page.wait(&format!(
        "document.getElementById('makes').textContent === {written} && document.getElementById('said').hidden"
    ));
    page.select("#units", "metric");
    page.wait(&format!("weigh('salt') === {salt}"));
    assert_eq!(page.faults(), json!([]));
}

#[test]
fn the_list_is_searched() {
    let Some(mut page) = browser() else { return };
    let folder = tools::examples();
    let preview = Preview::start(folder.path());
    page.desk();
    page.open(&preview.address);
    page.wait("document.querySelectorAll('#recipes a').length > 8");
    let all = page.value("document.querySelectorAll('#recipes a').length");
    page.fill("#search", "HARBOUR loaf");
    page.wait("document.querySelectorAll('#recipes a').length === 1");
    assert_eq!(page.value("document.querySelector('#recipes a span').firstChild.textContent"), "Harbour levain loaf");
    page.fill("#search", "no such thing");
    page.wait("document.querySelectorAll('#recipes a').length === 0 && !document.getElementById('none').hidden");
    page.fill("#search", "rolls");
    // The recipe, and behind it the log of its bakes.
    page.wait("document.querySelectorAll('#recipes a').length === 2");
    page.press("Enter");
    page.wait("sheet && weigh('caster sugar') === '120 g'");
    page.fill("#search", "");
    page.wait(&format!("document.querySelectorAll('#recipes a').length === {all}"));
    // A new file comes into the list by itself, and goes from it.
    let new = folder.path().join("pier-rolls.miche");
    fs::write(&new, changed(folder.path(), ROLLS, "recipe Harbour rolls", "recipe Pier rolls")).expect("written");
    page.wait("document.getElementById('recipes').innerText.includes('Pier rolls')");
    fs::remove_file(&new).expect("removed");
    page.wait("!document.getElementById('recipes').innerText.includes('Pier rolls')");
    // On a telephone the list is there before anything is chosen, and gives way to what was.
    page.phone();
    page.open(&preview.address);
    page.wait(
        "document.querySelectorAll('#recipes a').length > 8 && document.getElementById('search').checkVisibility()",
    );
    page.click("#recipes li:nth-child(3) a");
    page.wait("sheet && !document.getElementById('search').checkVisibility()");
    page.click("#menu");
    page.wait("document.getElementById('search').checkVisibility()");
    page.press("Escape");
    page.wait("!document.getElementById('search').checkVisibility()");
    assert_eq!(page.faults(), json!([]));
}

/// Every view on a desk and on a telephone, light and dark: nothing against the rules of access or of the page's own
/// policy, and nothing to be scrolled sideways.
#[test]
fn every_view_can_be_read_by_everybody() {
    let Some(mut page) = browser() else { return };
    let folder = tools::examples();
    let broken = changed(folder.path(), ROLLS, "{caster sugar}", "{castor sugar}");
    fs::write(folder.path().join("broken.miche"), broken).expect("written");
    let preview = Preview::start(folder.path());
    let axe = axe();
    let views = [
        ("", "document.querySelectorAll('#recipes a').length > 8"),
        ("?file=rhubarb-crumb-buns.miche&view=card", "sheet && weigh('salt')"),
        ("?file=market-day.miche", "sheet && sheet.querySelector('.strip')"),
        ("?file=milk-honey-tin-loaf.miche&view=plan", "sheet && sheet.querySelector('tr.wait')"),
        ("?file=harbour-rolls.miche&view=plan&ready=nonsense", "sheet && sheet.querySelector('.message')"),
        ("?file=larder.miche", "sheet && sheet.querySelector('.text')"),
        ("?file=broken.miche", "document.querySelectorAll('#found li').length > 0"),
        ("?file=broken.miche&view=text&text=broken.miche&line=20", "sheet && sheet.querySelector('tr:target')"),
    ];
    for phone in [false, true] {
        for scheme in ["light", "dark"] {
            if phone {
                page.phone()
            } else {
                page.desk()
            }
            page.scheme(scheme);
            for (query, ready) in views {
                let which = format!("{query} {scheme} {}", if phone { "on a telephone" } else { "on a desk" });
                page.open(&at(&preview, query));
                page.wait(&format!("{ready} && document.getElementById('live').className === 'on' && !document.querySelector('iframe.coming')"));
                page.inject(&axe);
                let found = page.violations();
                assert_eq!(found, json!([]), "{which}");
                let wide = page.value(
                    "[document, sheet].filter(Boolean).map((one) => one.documentElement).filter((one) => one.scrollWidth > one.clientWidth).map((one) => [one.scrollWidth, one.clientWidth])",
                );
                assert_eq!(wide, json!([]), "{which} is wider than the window");
                let dark = page.value("getComputedStyle(sheet ? sheet.body : document.body).backgroundColor");
                let sum: u32 = dark
                    .as_str()
                    .expect("a colour")
                    .split(|digit: char| !digit.is_ascii_digit())
                    .filter_map(|one| one.parse::<u32>().ok())
                    .take(3)
                    .sum();
                assert_eq!(sum < 200, scheme == "dark", "{which}: {dark}");
                assert_eq!(page.faults(), json!([]), "{which}");
            }
        }
    }
}

/// A server of somebody else's pages on this machine.
fn other_origin() -> u16 {
    let listener = TcpListener::bind(("127.0.0.1", 0)).expect("a port");
    let port = listener.local_addr().expect("an address").port();
    std::thread::spawn(move || {
        for mut stream in listener.incoming().flatten() {
            let mut line = String::new();
            let mut reader = BufReader::new(stream.try_clone().expect("the same"));
            while reader.read_line(&mut line).is_ok_and(|read| read > 2) {}
            let body = "<!DOCTYPE html><title>elsewhere</title><p>elsewhere";
            let head = format!(
                "HTTP/1.1 200 OK\r\ncontent-type: text/html\r\ncontent-length: {}\r\nconnection: close\r\n\r\n",
                body.len()
            );
            let _ = stream.write_all(format!("{head}{body}").as_bytes());
        }
    });
    port
}

/// Everything that a page can try; gives what was got.
fn tries(target: &str, port: u16) -> String {
    format!(
                "(async () => {{
                   const here = 'http://{target}:{}';
                   const got = [];
                   for (const path of ['/recipes', '/state?file={ROLLS}', '/card?file={ROLLS}', '/source?file={ROLLS}', '/events', '/preview.js', '/']) {{
                     for (const mode of ['cors', 'no-cors']) {{
                       try {{
                         const stop = new AbortController();
                         setTimeout(() => stop.abort(), 3000);
                         const answer = await fetch(here + path, {{ mode, signal: stop.signal }});
                         const text = await answer.text();
                         if (answer.type !== 'opaque' || text) got.push(mode + ' ' + path + ' ' + answer.status + ' ' + text.slice(0, 80));
                       }} catch (error) {{ }}
                     }}
                   }}
                   got.push(...await new Promise((done) => {{
                     const ears = new EventSource(here + '/events');
                     ears.onopen = () => done(['the events are open']);
                     ears.addEventListener('state', (event) => done([event.data]));
                     ears.onerror = () => done([]);
                   }}));
                   got.push(...await new Promise((done) => {{
                     const script = document.createElement('script');
                     script.src = here + '/preview.js';
                     script.onload = () => done(['the script ran']);
                     script.onerror = () => done([]);
                     document.head.append(script);
                   }}));
                   const frame = document.createElement('iframe');
                   frame.src = here + '/card?file={ROLLS}';
                   const loaded = new Promise((done) => {{ frame.onload = done; setTimeout(done, 3000); }});
                   document.body.append(frame);
                   await loaded;
                   try {{ if (frame.contentDocument.body.innerText.trim()) got.push('read: ' + frame.contentDocument.body.innerText); }} catch (error) {{ }}
                   return got;
                 }})()",
                port
            )
}

#[test]
fn another_page_gets_nothing() {
    let Some(mut page) = browser() else { return };
    let folder = tools::examples();
    let preview = Preview::start(folder.path());
    let other = other_origin();
    for host in ["127.0.0.1", "localhost"] {
        page.open(&format!("http://{host}:{other}/"));
        for target in ["127.0.0.1", "localhost"] {
            let tries = tries(target, preview.port);
            assert_eq!(page.value(&tries), json!([]), "from {host} to {target}");
            let framed = page.framed();
            assert!(!framed.to_string().contains("caster sugar"), "{framed}");
        }
    }
    // The same from the preview's own page gets everything, so the tries are worth something.
    page.open(&at(&preview, ""));
    let got = page.value(&tries("127.0.0.1", preview.port));
    let got: Vec<&str> = got.as_array().expect("a list").iter().filter_map(|one| one.as_str()).collect();
    for wanted in ["cors /recipes 200", "no-cors /card", "the events are open", "the script ran", "read: "] {
        assert!(got.iter().any(|one| one.contains(wanted)), "{wanted} is not in {got:?}");
    }
}

#[test]
fn nothing_outside_the_root_is_shown() {
    let Some(mut page) = browser() else { return };
    let folder = tools::examples();
    let inside = folder.path().join("inside");
    fs::create_dir(&inside).expect("made");
    fs::rename(folder.path().join("shore-biscuits.miche"), inside.join("shore-biscuits.miche")).expect("moved");
    let preview = Preview::start(&inside);
    page.desk();
    for file in ["../harbour-rolls.miche", "..%2Fharbour-rolls.miche", "%2Fetc%2Fpasswd"] {
        page.open(&at(&preview, &format!("?file={file}")));
        page.wait("!document.getElementById('said').hidden");
        let seen = page.value("document.body.innerText + (sheet ? sheet.body.innerText : '')");
        let seen = seen.as_str().expect("text");
        assert!(seen.contains("There is no such recipe in this folder") && !seen.contains("caster"), "{file}: {seen}");
        let got = page.value(&format!(
            "Promise.all(['/source', '/card', '/plan', '/state'].map((path) => fetch(path + '?file={file}').then((answer) => answer.status)))"
        ));
        assert_eq!(got, json!([404, 404, 404, 404]), "{file}");
    }
    page.open(&at(&preview, ""));
    page.wait("document.getElementById('live').className === 'on'");
    let seen = page.value("document.body.innerText");
    assert!(!seen.to_string().contains("Harbour"), "{seen}");
}

#[test]
fn a_page_outlives_the_program_and_follows_the_next() {
    let Some(mut page) = browser() else { return };
    let folder = tools::examples();
    let path = folder.path().join(ROLLS);
    let mut preview = Preview::start(&path);
    page.desk();
    page.open(&preview.address);
    page.wait("sheet && weigh('caster sugar') === '120 g' && document.getElementById('live').className === 'on'");
    assert_eq!(preview.interrupt().0, Some(0));
    page.wait("document.getElementById('live').className === ''");
    assert_eq!(page.value("document.getElementById('live').textContent"), "miche preview has ended");
    assert_eq!(page.value("weigh('caster sugar')"), "120 g", "the card stays");
    fs::write(&path, changed(folder.path(), ROLLS, "caster sugar .................. 3 %", "caster sugar .. 5 %"))
        .expect("written");
    let _again = Preview::start_at(&path, preview.port);
    page.wait("document.getElementById('live').className === 'on' && weigh('caster sugar') === '200 g'");
}

impl Browser {
    /// What the accessibility engine finds, in the page and in its frames.
    fn violations(&mut self) -> serde_json::Value {
        self.value(
            "axe.run({ resultTypes: ['violations'] }).then((found) => found.violations.map((one) => one.id + ': ' + one.nodes.map((node) => node.html.slice(0, 200)).join(' | ')))",
        )
    }
}
