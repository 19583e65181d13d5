//! The HTML cards in a real browser: on every paper, against an accessibility engine and a standards validator, and
//! figure by figure against the JSON.
//!
//! Without the tools these tests print that they were not run; under CI that is a failure.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "cards_browser/tools.rs"]
mod tools;

use base64::Engine;
use serde_json::Value;
use sha2::Digest;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::atomic::{AtomicUsize, Ordering};
use tools::{ask_page, dump, examples, miche, print_to_pdf, recipes, tools, with_script};

/// Paper, its width and height in points as it lies.
const PAPERS: [(&str, f64, f64); 4] =
    [("a4", 595.28, 841.89), ("a5", 419.53, 595.28), ("letter", 612.0, 792.0), ("index", 432.0, 288.0)];

/// Runs jobs two at a time: a browser takes a second or two to start.
fn in_parallel<T: Sync>(jobs: &[T], run: impl Fn(&T) + Sync) {
    let next = AtomicUsize::new(0);
    std::thread::scope(|scope| {
        for _ in 0..2 {
            scope.spawn(|| {
                while let Some(job) = jobs.get(next.fetch_add(1, Ordering::Relaxed)) {
                    run(job);
                }
            });
        }
    });
}

fn card_file(folder: &Path, recipe: &str, more: &[&str]) -> PathBuf {
    let name = format!("{recipe}{}.html", more.join(""));
    let mut arguments = vec!["card", recipe, "--date", "2027-04-17", "-o", &name];
    arguments.extend(more);
    miche(folder, &arguments);
    folder.join(name)
}

/// A printed page as an independent reader sees it, in points.
struct Page {
    width: f64,
    height: f64,
    words: Vec<Word>,
}

/// A word and its box.
struct Word {
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
    text: String,
}

fn pages_of(pdf: &Path) -> Vec<Page> {
    let output = Command::new("pdftotext").arg("-bbox").arg(pdf).arg("-").output().expect("the reader starts");
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    let attribute = |line: &str, name: &str| -> f64 {
        let rest = line.split_once(&format!("{name}=\"")).expect("the attribute is there").1;
        rest.split('"').next().and_then(|value| value.parse().ok()).expect("a number")
    };
    let mut pages: Vec<Page> = Vec::new();
    for line in text.lines() {
        if line.contains("<page ") {
            pages.push(Page { width: attribute(line, "width"), height: attribute(line, "height"), words: Vec::new() });
        } else if line.contains("<word ") {
            let text = line.split_once('>').and_then(|(_, rest)| rest.split_once('<')).map_or("", |(word, _)| word);
            let [left, top, right, bottom] = ["xMin", "yMin", "xMax", "yMax"].map(|name| attribute(line, name));
            let page = pages.last_mut().expect("a word stands on a page");
            page.words.push(Word { left, top, right, bottom, text: text.to_owned() });
        }
    }
    pages
}

/// Nothing lies outside its sheet, every sheet says which of how many it is, and no line of a strip is torn apart.
#[test]
fn every_example_prints_on_every_paper() {
    if tools().is_none() {
        return;
    }
    let folder = examples();
    let mut jobs: Vec<(String, usize, &str)> = Vec::new();
    for recipe in recipes(folder.path()) {
        for paper in 0..PAPERS.len() {
            // One way to cut a recipe up for each paper, so that all are printed.
            jobs.push((recipe.clone(), paper, ["recipe", "part", "station", "part"][paper]));
        }
    }
    assert!(jobs.len() >= 40, "only {} prints", jobs.len());
    in_parallel(&jobs, |(recipe, paper, by)| {
        let (name, width, height) = PAPERS[*paper];
        let html = card_file(folder.path(), recipe, &["--paper", name, "--by", by]);
        let pdf = html.with_extension("pdf");
        print_to_pdf(&html, &pdf);
        let pages = pages_of(&pdf);
        let what = format!("{recipe} on {name} by {by}");
        // A day of ten recipes, a part on a card, is the longest.
        assert!(!pages.is_empty() && pages.len() < 80, "{what}: {} pages", pages.len());
        for (at, page) in pages.iter().enumerate() {
            let is_the_paper = (page.width - width).abs() < 1.5 && (page.height - height).abs() < 1.5;
            assert!(is_the_paper, "{what}: {} x {}", page.width, page.height);
            for word in &page.words {
                let across = word.left >= 0.0 && word.right <= page.width + 0.5;
                let down = word.top >= 0.0 && word.bottom <= page.height + 0.5;
                assert!(across && down, "{what}: `{}` lies outside page {}", word.text, at + 1);
            }
            let text: Vec<&str> = page.words.iter().map(|word| word.text.as_str()).collect();
            let foot = format!("page {} of {}", at + 1, pages.len());
            assert!(text.join(" ").contains(&foot), "{what}: page {} does not say `{foot}`", at + 1);
            assert!(text.len() > 12, "{what}: page {} is empty", at + 1);
        }
    });
}

/// In a column as wide as the paper nothing sticks out and nothing is cut off.
#[test]
fn nothing_overflows_the_width_of_the_paper() {
    if tools().is_none() {
        return;
    }
    let folder = examples();
    // Printable widths in CSS pixels: paper less margins.
    let widths: [(&str, f64); 4] = [("a4", 182.0), ("a5", 128.0), ("letter", 187.9), ("index", 138.4)];
    let jobs = recipes(folder.path());
    in_parallel(&jobs, |recipe| {
        let mut frames = String::new();
        for (paper, millimetres) in widths {
            let html = card_file(folder.path(), recipe, &["--paper", paper, "--units", "both"]);
            let page = fs::read_to_string(&html).expect("written");
            let print = page.replace("@media print", "@media all").replace("@media screen", "@media not all");
            let probe = format!(
                "var all=[];document.querySelectorAll('main *').forEach(function(one){{\
                 var box=one.getBoundingClientRect();\
                 if(box.width>0&&box.right>document.documentElement.clientWidth+1.5&&!one.closest('svg'))\
                 {{all.push('{paper} '+one.className+': '+one.textContent.slice(0,60))}}}});\
                 parent.postMessage(all.slice(0,5),'*')"
            );
            let inner = with_script(&print, &probe).replace('&', "&amp;").replace('"', "&quot;");
            let pixels = (millimetres / 25.4 * 96.0).floor();
            frames.push_str(&format!(
                "<iframe style=\"width:{pixels}px;height:3000px;border:0\" srcdoc=\"{inner}\"></iframe>"
            ));
        }
        let outer = format!(
            "<!DOCTYPE html><meta charset=\"utf-8\"><title>x</title><body><script>var all=[],count=0;onmessage=function(event){{\
             all=all.concat(event.data);if(++count<{}){{return}}var out=document.createElement('pre');\
             out.id='result';out.textContent=JSON.stringify(all);document.body.appendChild(out)}}</script>{frames}</body>",
            widths.len()
        );
        assert_eq!(ask_page(&outer, false), "[]", "{recipe}");
    });
}

/// axe-core finds nothing, in light and in dark.
#[test]
fn the_accessibility_engine_finds_nothing() {
    let Some(tools) = tools() else { return };
    let folder = examples();
    let mut pages: Vec<(String, String)> = Vec::new();
    for recipe in ["rhubarb-crumb-buns.miche", "harbour-levain-loaf.miche", "market-day.miche"] {
        for by in ["recipe", "station"] {
            let html = card_file(folder.path(), recipe, &["--by", by]);
            pages.push((format!("{recipe} by {by}"), fs::read_to_string(html).expect("written")));
        }
    }
    let list = miche(folder.path(), &["list", "market-day.miche", "--format", "html", "--date", "2027-04-17"]);
    pages.push(("the list".to_owned(), list));
    let script = format!(
        "{}\naxe.run().then(function(found){{report(found.violations.map(function(one){{return one.id+': '+one.nodes[0].html}}))}})",
        tools.axe.replace("</script", "<\\/script")
    );
    let jobs: Vec<(&(String, String), bool)> = pages.iter().flat_map(|page| [(page, false), (page, true)]).collect();
    in_parallel(&jobs, |((name, page), dark)| {
        assert_eq!(ask_page(&with_script(page, &script), *dark), "[]", "{name}");
    });
}

/// The policy lets in the card's own styles and script: their hashes are right, and the script has run.
#[test]
fn the_policy_lets_in_what_the_card_brings() {
    if tools().is_none() {
        return;
    }
    let folder = examples();
    let html = card_file(folder.path(), "harbour-rolls.miche", &[]);
    let page = fs::read_to_string(&html).expect("written");
    let policy = page.split_once("http-equiv=\"Content-Security-Policy\" content=\"").expect("a policy").1;
    let policy = policy.split('"').next().expect("it ends").replace("&#39;", "'");
    let mut inline = 0;
    for tag in ["style", "script"] {
        for piece in page.split(&format!("<{tag}>")).skip(1) {
            let text = piece.split(&format!("</{tag}>")).next().expect("it ends");
            let hash =
                format!("'sha256-{}'", base64::engine::general_purpose::STANDARD.encode(sha2::Sha256::digest(text)));
            assert!(policy.contains(&hash), "{tag} is not let in: {}", text.chars().take(60).collect::<String>());
            inline += 1;
        }
    }
    assert_eq!(inline, 5);
    assert!(!policy.contains("unsafe"), "{policy}");
    assert!(dump(&html).contains("class=\"timer\""), "the script did not run under the card's own policy");
}

/// The standards validator of the W3C finds no error and warns of nothing, also for a recipe that means harm.
#[test]
fn the_standards_validator_finds_nothing() {
    let Some(tools) = tools() else { return };
    let folder = examples();
    fs::write(folder.path().join("hostile.miche"), include_str!("cards/hostile.miche")).expect("written");
    let mut files: Vec<PathBuf> = Vec::new();
    for recipe in recipes(folder.path()) {
        files.push(card_file(folder.path(), &recipe, &[]));
        files.push(card_file(folder.path(), &recipe, &["--by", "station", "--paper", "a5"]));
        let name = format!("{recipe}.list.html");
        miche(folder.path(), &["list", &recipe, "-o", &name]);
        files.push(folder.path().join(name));
    }
    let output = Command::new("java")
        .arg("-jar")
        .arg(&tools.validator)
        // It knows that a policy can name hashes but does not compare them; the test above does.
        .args(["--filterpattern", ".*violates Content Security Policy.*"])
        .args(&files)
        .output()
        .expect("java starts");
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success() && said.trim().is_empty(), "{said}");
}

/// What stands in the strips is what stands in the JSON.
#[test]
fn figures_on_the_page_are_those_of_the_json() {
    if tools().is_none() {
        return;
    }
    let folder = examples();
    let script = "report(Array.prototype.map.call(document.querySelectorAll('.strip tbody tr'),function(row){\
        var text=function(what){var cell=row.querySelector(what);return cell?cell.textContent.trim().replace(/\\s+/g,' '):''};\
        return [text('.what b'),text('.weigh'),text('.shows')]}))";
    let jobs = recipes(folder.path());
    in_parallel(&jobs, |recipe| {
        let html = fs::read_to_string(card_file(folder.path(), recipe, &["--by", "part"])).expect("written");
        let rows: Vec<[String; 3]> = serde_json::from_str(&ask_page(&with_script(&html, script), false)).expect("rows");
        let json: Value =
            serde_json::from_str(&miche(folder.path(), &["card", recipe, "--format", "json"])).expect("JSON");
        let cards = json.as_array().cloned().unwrap_or_else(|| vec![json.clone()]);
        let mut expected = Vec::new();
        for part in cards.iter().flat_map(|card| card["parts"].as_array().expect("parts")) {
            for line in part["lines"].as_array().expect("lines") {
                let text = |key: &str| plain(line[key].as_str().unwrap_or_default());
                expected.push([text("ingredient"), text("final_mix_shown"), text("running_shown")]);
            }
        }
        assert!(expected.len() > 1, "{recipe} has no lines");
        let mut rows = rows.into_iter();
        for line in &expected {
            // Preferments have rows of their own among the lines.
            let found = rows.find(|row| row[0] == line[0]);
            assert_eq!(found.as_ref().map(|row| row.map_plain()), Some(line.clone()), "{recipe}");
        }
    });
}

trait Plain {
    fn map_plain(&self) -> [String; 3];
}

impl Plain for [String; 3] {
    fn map_plain(&self) -> [String; 3] {
        [plain(&self[0]), plain(&self[1]), plain(&self[2])]
    }
}

/// Thin spaces in figures are white space to one reader and not to another.
fn plain(text: &str) -> String {
    text.replace(['\u{2009}', '\u{a0}', '\u{200b}'], " ").split_whitespace().collect::<Vec<&str>>().join(" ")
}

/// The page's own policy lets its own script run and no other: ticks work, what a recipe smuggles in does not.
#[test]
fn a_hostile_recipe_runs_nothing() {
    if tools().is_none() {
        return;
    }
    let folder = examples();
    fs::write(folder.path().join("hostile.miche"), include_str!("cards/hostile.miche")).expect("written");
    let html = fs::read_to_string(card_file(folder.path(), "hostile.miche", &[])).expect("written");
    let script = "report({pwned:String(window.pwned),scripts:document.scripts.length,\
        frames:document.querySelectorAll('iframe,img,object,embed,[onerror],[onload],[onclick]').length,\
        links:Array.prototype.map.call(document.links,function(one){return one.protocol}),\
        timers:document.querySelectorAll('.timer').length>0})";
    let found: Value = serde_json::from_str(&ask_page(&with_script(&html, script), false)).expect("JSON");
    assert_eq!(found["pwned"], "undefined");
    assert_eq!(found["scripts"], 2, "the card's and this test's");
    assert_eq!(found["frames"], 0);
    assert_eq!(found["timers"], true, "the card's own script did not run");
    let links = found["links"].as_array().expect("links");
    assert!(links.iter().all(|one| matches!(one.as_str(), Some("https:" | "http:" | "mailto:"))), "{links:?}");
}

/// On telephones of 390 and 360 pixels no word of a card is cut off and nothing scrolls sideways, on every example and on a batch that
/// fills the mixer three times; the weight to weigh stands on the line of its name.
#[test]
fn cards_are_whole_on_a_telephone() {
    if tools().is_none() {
        return;
    }
    let folder = examples();
    // Until its type is there a page is set in another, which is wider; a face that nothing asked for yet is not waited for.
    let probe = "Promise.all(Array.from(document.fonts,function(one){return one.load()})).then(function(){var all=[],wide=document.documentElement.clientWidth;\
        if(document.documentElement.scrollWidth>wide+1){all.push('scrolls: '+document.documentElement.scrollWidth)}\
        document.querySelectorAll('main *').forEach(function(one){\
        var box=one.getBoundingClientRect();\
        if(one.closest('svg')||one.closest('thead')||one.closest('.leader')){return}\
        if(box.width>0&&(box.right>wide+1||box.left<-1)){all.push('cut: '+one.className+' '+one.textContent.slice(0,60))}});\
        document.querySelectorAll('.strip tbody tr').forEach(function(row){\
        var name=row.querySelector('.name'),weigh=row.querySelector('.weigh');\
        if(name&&weigh&&weigh.textContent&&Math.abs(name.getBoundingClientRect().top-weigh.getBoundingClientRect().top)>24)\
        {all.push('apart: '+row.textContent.slice(0,60))}});\
        var walk=document.createTreeWalker(document.querySelector('main'),4),range=document.createRange(),node,found;\
        while((node=walk.nextNode())){\
        if(node.parentElement.closest('svg,thead,script')){continue}\
        var words=/[^ \\t\\n\\u200b]{2,}/g;\
        while((found=words.exec(node.data))){\
        if(/[-–—\\/]/.test(found[0])){continue}\
        range.setStart(node,found.index);range.setEnd(node,found.index+found[0].length);\
        var tops=Array.prototype.map.call(range.getClientRects(),function(box){return Math.round(box.top)});\
        if(tops.some(function(top){return Math.abs(top-tops[0])>4})){all.push('broken: '+found[0])}}}\
        parent.postMessage(all.slice(0,5),'*')})";
    let mut jobs: Vec<(String, Vec<&str>)> =
        recipes(folder.path()).into_iter().map(|recipe| (recipe, vec![])).collect();
    jobs.push(("rhubarb-crumb-buns.miche".to_owned(), vec!["--pieces", "360"]));
    jobs.push(("harbour-levain-loaf.miche".to_owned(), vec!["--units", "both"]));
    jobs.push(("rhubarb-crumb-buns.miche".to_owned(), vec!["--by", "station"]));
    in_parallel(&jobs, |(recipe, more)| {
        let page = fs::read_to_string(card_file(folder.path(), recipe, more)).expect("written");
        let inner = with_script(&page, probe).replace('&', "&amp;").replace('"', "&quot;");
        let frames: String = [390, 360]
            .map(|width| {
                format!("<iframe style=\"width:{width}px;height:3000px;border:0\" srcdoc=\"{inner}\"></iframe>")
            })
            .concat();
        let outer = format!(
            "<!DOCTYPE html><meta charset=\"utf-8\"><title>x</title><body><script>var all=[],count=0;onmessage=function(event){{\
             all=all.concat(event.data);if(++count<2){{return}}var out=document.createElement('pre');\
             out.id='result';out.textContent=JSON.stringify(all);document.body.appendChild(out)}}</script>{frames}</body>"
        );
        assert_eq!(ask_page(&outer, false), "[]", "{recipe} {more:?}");
    });
}

/// The card of four parts is half as long on a telephone as it was when everything stood on it (6940 pixels at 390 wide): what is not
/// needed at the bench is behind a fold, and all of it is there when the folds are opened.
#[test]
fn a_card_is_short_on_a_telephone_and_unfolds() {
    if tools().is_none() {
        return;
    }
    let folder = examples();
    let page = fs::read_to_string(card_file(folder.path(), "rhubarb-crumb-buns.miche", &[])).expect("written");
    let probe = "var main=document.querySelector('main'),shown=function(what){\
        return Array.prototype.filter.call(document.querySelectorAll(what),function(one){return one.getClientRects().length>0}).length};\
        var count=function(){return [shown('.facts .sum'),shown('.sources'),shown('.line figcaption'),shown('footer')]};\
        var folded=[main.scrollHeight].concat(count());\
        document.querySelectorAll('details').forEach(function(one){one.open=true});\
        parent.postMessage(folded.concat([main.scrollHeight]).concat(count()),'*')";
    let inner = with_script(&page, probe).replace('&', "&amp;").replace('"', "&quot;");
    let outer = format!(
        "<!DOCTYPE html><meta charset=\"utf-8\"><title>x</title><body><script>onmessage=function(event){{var out=document.createElement('pre');\
         out.id='result';out.textContent=JSON.stringify(event.data);document.body.appendChild(out)}}</script>\
         <iframe style=\"width:390px;height:300px;border:0\" srcdoc=\"{inner}\"></iframe></body>"
    );
    let found: Vec<i64> = serde_json::from_str(&ask_page(&outer, false)).expect("figures");
    assert!(found[0] <= 3470, "{found:?}");
    assert_eq!(found[1..5], [0, 0, 0, 0], "{found:?}");
    assert!(found[5] > found[0] && found[6..].iter().all(|count| *count > 0), "{found:?}");
}
