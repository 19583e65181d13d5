//! What is asked for on the command line and cannot be: each is answered with what to write, and not with what the program makes of it.

use super::*;

const BUNS: &str = "recipe Buns\nmakes 24 buns\npart dough\nstrong white flour .. 1 kg\nwater .. 600 g\nsalt .. 20 g\ndivide 24 x 67 g, loss 0.8 %\nmix: hands 10 min\n    \
                    Mix {strong white flour}, {water} and {salt}.\n    until smooth\nbake: tend 36 min, using oven at 220 C, 12 at a time\n    until gold\n";

#[test]
fn what_cannot_be_asked_for_is_answered_with_its_mend() {
    let bench = Bench::of(&[("buns.miche", BUNS)]);
    for (arguments, mend) in [
        (&["--pieces", "-3"][..], "nothing is less than nothing"),
        (&["--pieces", "99999999999999999999"], "more than anybody makes"),
        (&["--total", "1,5 kg"], "a decimal has a point: `1.5 kg`"),
        // One bun was made where a thousand were wanted.
        (&["--pieces", "1,000"], "a thousand has no comma: `1000`"),
        (&["--total", "1,500 kg"], "write `1500 kg` or, of a decimal, `1.500 kg`"),
        (&["--have", "water=1,5 kg"], "a decimal has a point: `1.5 kg`"),
        (&["--use-up", "dough=3 kg"], "`dough` is a part of the recipe, and is made"),
    ] {
        let (code, _, why) = bench.run(&[&["card", "buns.miche"], arguments].concat());
        assert!(code == 2 && why.contains(mend), "{arguments:?}: {code}: {why}");
    }
}

/// As an editor saves it that is set to Unicode: every other byte is nothing, and nothing says so at the beginning.
#[test]
fn text_of_two_bytes_a_letter_is_said_to_be_that() {
    let bench = Bench::of(&[]);
    for wide in [u16::to_le_bytes, u16::to_be_bytes] {
        let bytes: Vec<u8> = BUNS.encode_utf16().flat_map(wide).collect();
        std::fs::write(bench.0.path().join("wide.miche"), bytes).unwrap();
        let (code, out, why) = bench.run(&["check", "wide.miche"]);
        assert!(code != 0 && (out.clone() + &why).contains("UTF-16 text"), "{out}{why}");
        assert!((out + &why).lines().count() < 5, "{why}");
    }
}
