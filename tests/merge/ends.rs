//! How lines end, whether the last one does, and what an editor puts before the first make no change of a formula and no conflict.

use super::{BAKE, FOLD, ROLLS, both_ways};
use miche::language::merge::merge;

/// Some lines of a file that went through two editors end in CRLF, the others in LF.
fn mixed(text: &str) -> String {
    text.split_inclusive('\n')
        .enumerate()
        .map(|(at, line)| if at % 2 == 0 { line.replace('\n', "\r\n") } else { line.to_owned() })
        .collect()
}

#[test]
fn mixed_line_ends_make_no_conflict_and_stay_as_they_are() {
    let base = format!("{ROLLS}{FOLD}{BAKE}");
    let (wetter, saltier) = (base.replace("600 g", "650 g"), base.replace("20 g", "22 g"));
    let wanted = merge(&base, &wetter, &saltier).text;
    assert!(wanted.contains("650 g") && wanted.contains("22 g"));
    let windows = |text: &str| text.replace('\n', "\r\n");
    for (base, ours, theirs) in [
        (mixed(&base), mixed(&wetter), saltier.clone()),
        (base.clone(), mixed(&wetter), windows(&saltier)),
        (mixed(&base), wetter.clone(), mixed(&saltier)),
        (windows(&base), mixed(&wetter), saltier.clone()),
        (base.replace('\n', "\r"), mixed(&wetter), windows(&saltier)),
    ] {
        let merged = merge(&base, &ours, &theirs);
        assert_eq!(merged.conflicts, Vec::<String>::new(), "{}", merged.text);
        assert_eq!(merged.text.replace("\r\n", "\n"), wanted);
        // Each line ends as it does in ours.
        let ends = |text: &str| text.split_inclusive('\n').map(|line| line.ends_with("\r\n")).collect::<Vec<bool>>();
        assert_eq!(ends(&merged.text), ends(&ours));
    }
    // What only theirs has ends as most lines of ours do.
    let more = merge(&base, &mixed(&wetter), &windows(&format!("{base}note One.\n")));
    assert!(
        more.conflicts.is_empty() && more.text.ends_with("note One.\r\n") || more.text.ends_with("note One.\n"),
        "{:?}",
        more.text
    );
}

#[test]
fn the_end_of_the_last_line_and_a_mark_before_the_first_are_no_change() {
    let base = format!("{ROLLS}{FOLD}{BAKE}");
    let bare = base.trim_end().to_owned();
    let wetter = base.replace("600 g", "650 g");
    // Who took the last line's end away did so; who left it alone has nothing against it.
    for merged in both_ways(&base, &bare, &wetter) {
        assert_eq!((merged.conflicts.len(), merged.text.as_str()), (0, wetter.trim_end()));
    }
    let last = bare.rsplit_once('\n').map(|(before, _)| format!("{before}\n    Bake and cool.\n")).expect("lines");
    for merged in both_ways(&base, &bare, &last) {
        assert!(merged.conflicts.is_empty() && merged.text.ends_with("    Bake and cool."), "{:?}", merged);
    }
    let marked = format!("\u{FEFF}{base}");
    let renamed = wetter.replacen("recipe ", "recipe New ", 1);
    for merged in both_ways(&base, &marked, &renamed) {
        assert_eq!((merged.conflicts.len(), merged.text), (0, format!("\u{FEFF}{renamed}")));
    }
    let merged = merge(&marked, &base, &format!("\u{FEFF}{renamed}"));
    assert_eq!((merged.conflicts.len(), merged.text), (0, renamed));
}
