//! Plans, comparisons, histories, labels, costs, stocks, sums and lists in a real browser: against an accessibility engine in light and
//! in dark with every contrast decided, and measured on a desk and on telephones of 390 and 360 pixels.
//!
//! Without the tools these tests print that they were not run; under CI that is a failure.

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "cards_browser/tools.rs"]
#[allow(dead_code, reason = "shared with the tests of cards, which ask more")]
mod tools;

use std::fs;
use std::path::Path;
use std::process::Command;
use tools::{ask_page, examples, miche, tools, with_script};

/// Every kind of page: its name and the page itself.
fn pages() -> Vec<(&'static str, String)> {
    let folder = examples();
    let buns = fs::read_to_string(folder.path().join("rhubarb-crumb-buns.miche")).expect("an example");
    let before = buns.replace("48 %, at 30 C", "52.5 %, at 30 C").replace("until smooth", "until quite smooth");
    assert_ne!(before, buns);
    fs::write(folder.path().join("before.miche"), before).expect("written");
    remember(folder.path());
    let kinds: [(&str, &[&str]); 10] = [
        ("history", &["history", "harbour-levain-loaf.miche"]),
        ("plan", &["plan", "market-day.miche"]),
        ("plan by person", &["plan", "market-day.miche", "--by", "person"]),
        ("plan by equipment", &["plan", "market-day.miche", "--by", "equipment"]),
        ("diff", &["diff", "before.miche", "rhubarb-crumb-buns.miche"]),
        ("label", &["label", "rhubarb-crumb-buns.miche"]),
        ("cost", &["cost", "rhubarb-crumb-buns.miche"]),
        ("stock", &["stock", "rhubarb-crumb-buns.miche", "--have", "strong white flour=4 kg"]),
        ("sums", &["sums", "harbour-levain-loaf.miche"]),
        ("list", &["list", "market-day.miche"]),
    ];
    let page = |(name, words): (&'static str, &[&str])| {
        let words: Vec<&str> = words.iter().copied().chain(["--format", "html"]).collect();
        (name, miche(folder.path(), &words))
    };
    kinds.into_iter().map(page).chain(site(folder.path())).collect()
}

/// Pages of a site, each with its style and its script inside, so that it can be looked at by itself.
fn site(folder: &Path) -> Vec<(&'static str, String)> {
    miche(folder, &["book", "harbour-ovens.miche", "-o", "site"]);
    let read =
        |name: &str| fs::read_to_string(folder.join("site").join(name)).unwrap_or_else(|why| panic!("{name}: {why}"));
    let (style, script) = (read("assets/site.css"), read("assets/site.js"));
    let index = read("assets/search-index.js");
    let kinds = [
        ("site", "index.html"),
        ("recipe of a site", "recipes/rhubarb-crumb-buns-12-buns-hand-sugar.html"),
        ("allergens of a site", "allergens.html"),
        ("ingredients of a site", "ingredients.html"),
        ("changes of a site", "changes.html"),
    ];
    let alone = |name: &str| {
        let page = read(name);
        let up = if name.contains('/') { "../" } else { "" };
        let link = format!("<link rel=\"stylesheet\" href=\"{up}assets/site.css\">");
        assert!(page.contains(&link), "{name}");
        let page = page.replace(&link, &format!("<style>{style}</style>"));
        let page = page.replace(&format!("<script src=\"{up}assets/site.js\" defer></script>"), "");
        let page = page.replace("<script src=\"assets/search-index.js\" defer></script>", "");
        page.replace("</body>", &format!("<script>{index}{script}</script></body>"))
    };
    kinds.into_iter().map(|(kind, name)| (kind, alone(name))).collect()
}

/// Three versions of a loaf in git, to look back on.
fn remember(folder: &Path) {
    let loaf = folder.join("harbour-levain-loaf.miche");
    let now = fs::read_to_string(&loaf).expect("an example");
    let git = |words: &[&str]| {
        let names = ["-c", "user.name=a", "-c", "user.email=a@b", "-c", "init.defaultBranch=main"];
        let done = Command::new("git").args(names).args(words).current_dir(folder).output().expect("git starts");
        assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    };
    git(&["init"]);
    for (share, day) in [("68 %", "2027-01-10"), ("70 %", "2027-02-20"), ("72 %", "2027-04-02")] {
        fs::write(&loaf, now.replace("72 %", share)).expect("written");
        git(&["add", "-A"]);
        git(&["commit", "--allow-empty", "-m", share, "--date", &format!("{day}T06:00:00")]);
    }
}

/// The standards validator of the W3C finds no error and warns of nothing.
#[test]
fn the_standards_validator_finds_nothing() {
    let Some(tools) = tools() else { return };
    let folder = tempfile::tempdir().expect("a folder");
    let files = pages().into_iter().map(|(name, page)| {
        let path = folder.path().join(format!("{name}.html"));
        fs::write(&path, page).expect("written");
        path
    });
    let output = Command::new("java")
        .arg("-jar")
        .arg(&tools.validator)
        // The validator does not know hashes of styles; the browser does, and `list` is laid out in it.
        .args(["--filterpattern", ".*violates Content Security Policy.*"])
        .args(files.collect::<Vec<_>>())
        .output()
        .expect("java starts");
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success() && said.trim().is_empty(), "{said}");
}

/// Nothing is found, and no contrast is left for a person to judge; words in drawings, which the engine leaves open, are judged by
/// [`every_pair_of_colours_has_contrast`].
#[test]
fn the_accessibility_engine_finds_nothing_and_decides_every_contrast() {
    let Some(tools) = tools() else { return };
    let script = format!(
        "{}\naxe.run().then(function(found){{\
         var open=found.incomplete.filter(function(one){{return one.id==='color-contrast'&&\
         one.nodes.some(function(node){{return node.html.indexOf('<text')!==0}})}});\
         report(found.violations.concat(open).map(function(one){{return one.id+': '+one.nodes[0].html}}))}})",
        tools.axe.replace("</script", "<\\/script")
    );
    for (name, page) in pages() {
        for dark in [false, true] {
            assert_eq!(ask_page(&with_script(&page, &script), dark), "[]", "{name}, dark: {dark}");
        }
    }
}

/// Words and what they stand on, in light and in dark: at least 4.5 to 1 (WCAG 2.2, success criterion 1.4.3; its relative luminance).
#[test]
fn every_pair_of_colours_has_contrast() {
    let css = include_str!("../src/out/lettering/family.css");
    let (light, dark) = css.split_once("prefers-color-scheme:dark").expect("both schemes");
    for (name, scheme) in [("light", light), ("dark", dark)] {
        let luminance = |colour: &str| -> f64 {
            let after = scheme.split(&format!("--{colour}:#")).nth(1).expect("the colour");
            let hex: String = after.chars().take_while(char::is_ascii_hexdigit).collect();
            let two = if hex.len() == 3 { hex.chars().flat_map(|c| [c, c]).collect() } else { hex };
            let part = |at: usize| f64::from(u8::from_str_radix(&two[at..at + 2], 16).expect("hex")) / 255.0;
            let linear = |part: f64| if part <= 0.04045 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) };
            0.2126 * linear(part(0)) + 0.7152 * linear(part(2)) + 0.0722 * linear(part(4))
        };
        let pairs = [
            ("ink", "paper"),
            ("ink", "wash"),
            ("ink", "desk"),
            ("ink", "hair"),
            ("soft", "paper"),
            ("soft", "wash"),
            ("ink", "stair"),
            ("soft", "stair"),
            ("mark", "paper"),
            ("warn", "paper"),
            ("warn", "warn-wash"),
            ("tab-ink", "tab"),
        ];
        for (words, ground) in pairs {
            let (one, other) = (luminance(words), luminance(ground));
            let ratio = (one.max(other) + 0.05) / (one.min(other) + 0.05);
            assert!(ratio >= 4.5, "{name}: {words} on {ground} is {ratio:.2} to 1");
        }
    }
}

/// No word is cut off or lies outside, and none is smaller than 12 pixels. What is drawn scrolls in a frame of its own, which takes the
/// focus and says that it is a timeline.
#[test]
fn pages_are_whole_on_a_telephone() {
    if tools().is_none() {
        return;
    }
    let probe = "var all=[],wide=document.documentElement.clientWidth;\
        if(document.documentElement.scrollWidth>wide+1){all.push('scrolls: '+document.documentElement.scrollWidth)}\
        document.querySelectorAll('main *').forEach(function(one){\
        var box=one.getBoundingClientRect(),style=getComputedStyle(one);\
        if(one.closest('svg')||style.clipPath!=='none'||one.closest('thead')){return}\
        if(box.width>0&&(box.right>wide+1||box.left<-1)){all.push('cut: '+one.textContent.slice(0,60))}\
        if(one.childNodes.length&&parseFloat(style.fontSize)<12){all.push('small: '+one.textContent.slice(0,60))}});\
        parent.postMessage(all.slice(0,5),'*')";
    for (name, page) in pages() {
        let inner = with_script(&page, probe).replace('&', "&amp;").replace('"', "&quot;");
        let frames: String = [1280, 390, 360]
            .map(|width| {
                format!("<iframe style=\"width:{width}px;height:3000px;border:0\" srcdoc=\"{inner}\"></iframe>")
            })
            .concat();
        let outer = format!(
            "<!DOCTYPE html><meta charset=\"utf-8\"><title>x</title><body><script>var all=[],count=0;onmessage=function(event){{\
             all=all.concat(event.data);if(++count<3){{return}}var out=document.createElement('pre');\
             out.id='result';out.textContent=JSON.stringify(all);document.body.appendChild(out)}}</script>{frames}</body>"
        );
        assert_eq!(ask_page(&outer, false), "[]", "{name}");
    }
}
