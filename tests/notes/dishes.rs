//! Notes of dishes of several parts: what is told, what is divided, and how the parts come together.

use super::{draft, holds, sound};

#[test]
fn what_is_told_is_no_ingredient() {
    let notes = "Harbour loaves\nMakes 4 loaves\n\n2 kg strong white\n1.3 kg water\n40 g salt\n20 g fresh yeast\n\
        Mix in the mixer for 12 min\nDivide into 830 g pieces\nProve for 50 min\nBake at 230 C for 35 min\n\
        Will keep for up to 3 days.\nDry the crusts for 2 days.\n";
    let made = sound(notes);
    holds(
        &made,
        &[
            "strong white .. 2 kg",
            "divide 4 x 830 g",
            "keeps 3 days",
            "mix: hands 12 min, using mixer",
            "prove: wait 50 min",
            "bake: tend 35 min, using oven at 230 C",
            "dry: wait 2 days",
        ],
    );
    assert!(!made.text.contains("divide .."), "{}", made.text);
    // To keep something warm for a time is work, and no promise of how long it keeps.
    let warm = draft("Pot\n500 g peas\nKeep warm for 1 h before serving.\n", None, "x");
    holds(&warm, &["keep: hands 1 h"]);
    assert!(!warm.text.contains("keeps"), "{}", warm.text);
}

#[test]
fn parts_come_together_where_the_notes_put_them_together() {
    let notes = "Crab rolls\nMakes 10 rolls\n\nFor the dough:\n500 g strong flour\n330 g water\n\nFor the lemon mayonnaise:\n\
        200 g rape oil\n40 g egg yolk\n\nTo serve:\n30 g mayonnaise each\n40 g crab meat per roll\nlettuce, 10 leaves\n";
    let made = sound(notes);
    holds(&made, &["part to serve", "dough .. all", "lemon mayonnaise .. 300 g", "crab meat .. 400 g"]);
    assert_eq!(made.text.matches("\npart ").count(), 3, "{}", made.text);
    assert!(made.text.contains("30 g each, taken 10 times"), "{}", made.text);
    // Of two creams neither is meant for certain.
    let two = notes.replace("For the dough:", "For the garlic mayonnaise:");
    holds(&draft(&two, None, "x"), &["mayonnaise .. 300 g", "garlic mayonnaise .. all", "lemon mayonnaise .. all"]);
    // How many there are is not said: nothing is multiplied.
    let open = notes.replace("Makes 10 rolls\n", "");
    holds(&draft(&open, None, "x"), &["lemon mayonnaise .. 30 g"]);
}

#[test]
fn what_goes_in_is_named_by_its_last_word_too() {
    let notes = "Relish\n\n200 g cider vinegar\n100 g caster sugar\n50 g strong flour\n50 g rye flour\n\
        Bring the vinegar and sugar to the boil for 5 min, add the flour, the vinegar syrup is dark.\n";
    let made = draft(notes, None, "x");
    assert!(made.text.contains("Bring the {cider vinegar} and {caster sugar} to the boil"), "{}", made.text);
    assert!(made.text.contains("add the flour") && made.text.contains("the vinegar syrup"), "{}", made.text);
}

/// The same notes say the same with the line ends of Unix, of Windows and of old machines.
#[test]
fn lines_end_as_on_any_machine() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/notes");
    let mut seen = 0;
    for entry in std::fs::read_dir(folder).expect("notes") {
        let path = entry.expect("an entry").path();
        if path.extension().is_some_and(|ending| ending == "txt") {
            let text = std::fs::read_to_string(&path).expect("text");
            let unix = draft(&text, None, "x").text;
            for end in ["\r\n", "\r"] {
                assert_eq!(draft(&text.replace('\n', end), None, "x").text, unix, "{} with {end:?}", path.display());
            }
            seen += 1;
        }
    }
    assert!(seen > 3, "{seen}");
}

/// A share beside a bare number: 82 % is what butter for lamination holds, and 550 are grams. Invented sheet.
#[test]
fn a_number_without_a_unit_beside_a_share_is_marked() {
    for line in ["butter sheet 82% 550", "dry butter plate 82% 550", "flaky fat 82 % 12"] {
        let made = draft(&format!("Croissants 40 pcs @ 65 g\nT55 flour 1000 g\nmilk 300 g\n{line}\n"), None, "x");
        let written = made.text.lines().find(|one| one.contains(line)).unwrap_or_default();
        assert!(written.contains("# look (no unit is said"), "{line}\n{}", made.text);
    }
}

/// However many pieces a first file makes, what they weigh comes to the dough: no check says otherwise.
#[test]
fn a_first_file_of_any_number_of_pieces_adds_up() {
    let folder = tempfile::tempdir().expect("a folder");
    for pieces in (1..=40).chain([60, 100, 144]) {
        for flour in ["500 g", "1 kg", "1.35 kg"] {
            let (name, pieces) = (format!("P{pieces} of {flour}"), pieces.to_string());
            let made = super::miche(
                folder.path(),
                &["new", &name, "--yes", "--noun", "pieces", "--pieces", &pieces, "--flour", flour],
            );
            assert!(made.status.success(), "{name}: {}", String::from_utf8_lossy(&made.stderr));
        }
    }
    let checked = super::miche(folder.path(), &["check", "--strict", "--format", "short", "."]);
    let said = String::from_utf8_lossy(&checked.stdout).into_owned();
    assert!(!said.contains("yield-does-not-add-up") && said.contains("129 files"), "{said}");
}

/// Lines that tell how a dough is divided and how long it keeps are no ingredients, and belong to no step.
#[test]
fn lines_that_divide_and_keep_are_read_by_themselves() {
    let of = |line: &str| {
        let notes = format!("Buns\n\n1000 g flour\n600 g water\n20 g salt\nmix 10 min\n{line}\nbake 20 min at 220 C\n");
        draft(&notes, None, "x").text
    };
    for line in
        ["cut out 8 rounds of 140 g", "Cut into 8 squares of 140 g.", "Stamp out 8 rounds of 140 g", "divide 8 x 140 g"]
    {
        let made = of(line);
        assert!(made.contains("divide 8 x 140 g") && !made.contains(".. 140 g"), "{line}\n{made}");
    }
    for (line, keeps) in
        [("eat within 2 days", "keeps 2 days"), ("3 days in the fridge, freezes 3 months", "keeps 3 days, chilled")]
    {
        let made = of(line);
        assert!(made.contains(keeps), "{line}\n{made}");
    }
    assert!(!of("2 days in the fridge").contains("keeps"), "a slow dough rests there");
}
