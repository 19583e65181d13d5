//! Texts that are made to be slow or large to work on: each is of one kind and as long as asked.

/// A kind of hostile text.
pub struct Trap {
    /// What it is.
    pub name: &'static str,
    /// Makes one of about so many bytes.
    pub make: fn(usize) -> String,
}

/// A piece of text again and again, numbered where it says `#`, up to so many bytes.
fn again(piece: &str, bytes: usize) -> String {
    let mut text = String::with_capacity(bytes + piece.len());
    let mut number = 0;
    while text.len() < bytes {
        text.push_str(&piece.replace('№', &number.to_string()));
        number += 1;
    }
    text
}

fn head(rest: &str) -> String {
    format!("recipe Trap\n{rest}\n")
}

/// A dough with a step whose prose is `prose`.
fn in_prose(prose: &str) -> String {
    head(&format!("flour .. 1 kg\nwater .. 60 %\nmix: hands 5 min\n    Mix {{flour}} and {{water}}. {prose}"))
}

/// A dough with a line of flour whose amount is `amount`.
fn amount(amount: &str) -> String {
    head(&format!("flour .. {amount}\nwater .. 60 %\nmix: hands 5 min\n    Mix {{flour}} and {{water}}."))
}

/// Notes of a list, one line of which says `piece` again and again.
fn in_notes(piece: &str, size: usize) -> String {
    format!("Bread\n500 g flour\n{}\n", again(piece, size))
}

/// All of them.
pub const TRAPS: &[Trap] = &[
    // Names.
    Trap { name: "one long name", make: |size| head(&format!("{} .. 1 kg", "flour ".repeat(size / 6))) },
    Trap { name: "one long word", make: |size| head(&format!("{} .. 1 kg", "f".repeat(size))) },
    Trap { name: "a long title", make: |size| format!("recipe {}\nflour .. 1 kg\n", "t".repeat(size)) },
    Trap { name: "names of a kilobyte", make: |size| head(&again(&format!("{}№ .. 1 g\n", "n".repeat(1000)), size)) },
    Trap {
        name: "names that differ at the end",
        make: |size| head(&again("buckwheat flour of number № .. 1 g\n", size)),
    },
    Trap { name: "one name again and again", make: |size| head(&again("flour .. 1 g\n", size)) },
    Trap { name: "dotted words", make: |size| head(&again("a.b.", size)) },
    Trap {
        name: "one letter in every alphabet",
        make: |size| head(&again("fl\u{43e}ur № .. 1 g\nflour № .. 1 g\n", size)),
    },
    Trap { name: "marks over one letter", make: |size| head(&format!("e{} .. 1 kg", "\u{301}".repeat(size / 2))) },
    // Lines.
    Trap { name: "stray lines", make: |size| head(&again("what is this №?\n", size)) },
    Trap { name: "empty lines", make: |size| head(&"\n".repeat(size)) },
    Trap { name: "carriage returns", make: |size| head(&"\r".repeat(size)) },
    Trap { name: "blanks", make: |size| head(&" ".repeat(size)) },
    Trap { name: "hidden characters", make: |size| head(&"\u{200b}".repeat(size / 3)) },
    Trap { name: "zero bytes", make: |size| head(&"\0".repeat(size)) },
    Trap { name: "comments in one line", make: |size| head(&again(" # x", size)) },
    Trap { name: "comment lines", make: |size| head(&again("# x\n", size)) },
    Trap { name: "a long leader", make: |size| head(&format!("flour {} 1 kg", ".".repeat(size))) },
    Trap { name: "notes", make: |size| head(&again("note Number № of the notes.\n", size)) },
    // Numbers and clauses.
    Trap { name: "digits", make: |size| amount(&format!("{} g", "7".repeat(size))) },
    Trap { name: "digits behind the point", make: |size| amount(&format!("0.{} g", "7".repeat(size))) },
    Trap { name: "a long fraction", make: |size| amount(&format!("1/{} g", "7".repeat(size))) },
    Trap { name: "grouped digits", make: |size| amount(&format!("1{} g", ",000".repeat(size / 4))) },
    Trap { name: "added terms", make: |size| amount(&again("1 g ", size)) },
    Trap { name: "the same again", make: |size| amount(&format!("1 g{}", " = 1 g".repeat(size / 6))) },
    Trap { name: "clauses", make: |size| amount(&format!("1 g{}", ", at 20 C".repeat(size / 9))) },
    Trap { name: "commas", make: |size| amount(&format!("1 g{}", ",".repeat(size))) },
    Trap { name: "conditions in one line", make: |size| head(&format!("flour .. 1 g [{}a]", "a, ".repeat(size / 3))) },
    Trap { name: "brackets", make: |size| head(&format!("flour .. 1 g {}", "[".repeat(size))) },
    Trap { name: "condition upon condition", make: |size| head(&format!("note x {}", "[a] ".repeat(size / 4))) },
    Trap { name: "quotation marks", make: |size| head(&format!("use {}", "\"".repeat(size))) },
    Trap { name: "backslashes in a note", make: |size| head(&format!("note {}", "\\".repeat(size))) },
    // Choices.
    Trap { name: "choices", make: |size| head(&again("choose c№: a№ or b№\n", size)) },
    Trap { name: "options", make: |size| head(&format!("choose c: {}z", again("o№ or ", size).replace('\n', " "))) },
    Trap { name: "conditions on no choice", make: |size| head(&again("salt № .. 1 g [option №]\n", size)) },
    Trap {
        name: "lines under a choice",
        make: |size| head(&format!("choose c: a or b\n{}", again("salt № .. 1 g [a]\nsalt № .. 1 g [b]\n", size))),
    },
    // Parts and steps.
    Trap {
        name: "parts in a chain",
        make: |size| {
            let part = |number: usize| format!("part p{}\np{number} .. all\nsalt .. 1 g\n\n", number + 1);
            head(&format!("part p0\nflour .. 1 kg\n\n{}", (0..size / 32).map(part).collect::<String>()))
        },
    },
    Trap {
        name: "parts in a chain, last first",
        make: |size| {
            let part = |number: usize| format!("part p{}\np{number} .. all\nsalt .. 1 g\n\n", number + 1);
            head(&format!("{}part p0\nflour .. 1 kg\n", (0..size / 32).rev().map(part).collect::<String>()))
        },
    },
    Trap {
        name: "parts in a ring",
        make: |size| {
            let count = size / 24;
            let part = |number: usize| format!("part p{}\np{number} .. 50 %\n\n", (number + 1) % count.max(1));
            head(&(0..count).map(part).collect::<String>())
        },
    },
    Trap {
        name: "a ladder of parts",
        make: |size| {
            // Every rung can be reached over either side of all rungs below it.
            let rung = |number: usize| {
                let below = number;
                format!(
                    "part a{0}\na{below} .. 10 g\nb{below} .. 10 g\n\npart b{0}\na{below} .. 10 g\nb{below} .. 10 g\n\n",
                    number + 1
                )
            };
            let rungs: String = (0..size / 64).map(rung).collect();
            head(&format!(
                "part a0\nplain flour .. 1 kg\nmix: hands 5 min\n    Mix {{plain flour}}.\n\npart b0\negg .. 1 kg\nkeeps 1 day, chilled\n\n{rungs}"
            ))
        },
    },
    Trap { name: "empty parts", make: |size| head(&again("part p№\n", size)) },
    Trap { name: "one part again and again", make: |size| head(&again("part p\nflour .. 1 g\n", size)) },
    Trap {
        name: "preferments",
        make: |size| {
            let parts = again("part p№, from dough\nflour .. 1 %\n", size);
            head(&format!("{parts}part dough\nflour .. 1 kg\nwater .. 60 %\n"))
        },
    },
    Trap { name: "steps", make: |size| head(&format!("flour .. 1 kg\n{}", again("rest №: wait 5 min\n", size))) },
    Trap {
        name: "steps after steps",
        make: |size| head(&format!("flour .. 1 kg\nrest: wait 1 min\n{}", again("x№: wait 5 min, after rest\n", size))),
    },
    Trap { name: "steps after no step", make: |size| head(&again("x№: wait 5 min, after rest №\n", size)) },
    Trap {
        name: "steps in a ring",
        make: |size| {
            let count = size / 28;
            let step = |number: usize| format!("x{number}: wait 5 min, after x{}\n", (number + 1) % count.max(1));
            head(&format!("flour .. 1 kg\n{}", (0..count).map(step).collect::<String>()))
        },
    },
    Trap {
        name: "steps beside a step",
        make: |size| head(&format!("flour .. 1 kg\nrest: wait 1 h\n{}", again("x№: wait 5 min, during rest\n", size))),
    },
    Trap {
        name: "unknown names in a step",
        make: |size| head(&format!("flour .. 1 kg\nmix: hands 5 min\n{}", again("    Mix {flur №}.\n", size))),
    },
    Trap {
        name: "unknown names in steps",
        make: |size| head(&format!("flour .. 1 kg\n{}", again("mix №: hands 5 min\n    Mix {flur №}.\n", size))),
    },
    Trap {
        name: "ingredients and their uses",
        make: |size| {
            let (lines, uses) = (again("thing № .. 1 g\n", size / 2), again("    Add {thing №}.\n", size / 2));
            head(&format!("{lines}mix: hands 5 min\n{uses}"))
        },
    },
    Trap {
        name: "ingredients that are never used",
        make: |size| {
            head(&format!("{}what is this?\nmix: hands 5 min\n    Mix {{flur}}.\n", again("thing № .. 1 g\n", size)))
        },
    },
    Trap { name: "allowances", make: |size| head(&again("# allow odd-percent: as it is\nsalt № .. 1 g\n", size)) },
    Trap { name: "allowances of one line", make: |size| head(&again("# allow odd-percent: as it is\n", size)) },
    Trap {
        name: "conflicts",
        make: |size| head(&again("<<<<<<< ours\nsalt № .. 1 g\n=======\nsalt № .. 2 g\n>>>>>>> theirs\n", size)),
    },
    Trap {
        name: "parts that draw on one",
        make: |size| head(&format!("part p\nflour .. 100 %\n\n{}", again("part q№\np .. 10 g\nsalt .. 1 g\n\n", size))),
    },
    Trap {
        name: "a part that draws on all",
        make: |size| {
            let parts = again("part q№\nflour .. 100 %\n\n", size * 2 / 3);
            let count = parts.matches("part").count();
            let lines: String = (0..count).map(|number| format!("q{number} .. 10 g\n")).collect();
            head(&format!("{parts}part p\n{lines}"))
        },
    },
    Trap { name: "steps of one name", make: |size| head(&again("rest: wait 5 min\n", size)) },
    // Prose.
    Trap { name: "open braces", make: |size| in_prose(&"{".repeat(size)) },
    Trap { name: "closed braces", make: |size| in_prose(&"}".repeat(size)) },
    Trap { name: "empty braces", make: |size| in_prose(&"{}".repeat(size / 2)) },
    Trap { name: "braces of nothing known", make: |size| in_prose(&again("{what № is}", size)) },
    Trap { name: "braces of flour", make: |size| in_prose(&"{flour} ".repeat(size / 8)) },
    Trap { name: "rests", make: |size| in_prose(&"{rest of flour} ".repeat(size / 16)) },
    Trap { name: "shares", make: |size| in_prose(&"{1 g of flour} ".repeat(size / 15)) },
    Trap { name: "measures", make: |size| in_prose(&"{4 min} ".repeat(size / 8)) },
    Trap { name: "stars", make: |size| in_prose(&"*a **b ".repeat(size / 7)) },
    Trap { name: "underscores", make: |size| in_prose(&"_a __b ".repeat(size / 7)) },
    Trap { name: "open links", make: |size| in_prose(&"[".repeat(size)) },
    Trap { name: "links in links", make: |size| in_prose(&"[a](b".repeat(size / 5)) },
    Trap { name: "backticks", make: |size| in_prose(&again("`a``", size)) },
    Trap { name: "tags", make: |size| in_prose(&"<a ".repeat(size / 3)) },
    Trap { name: "entities", make: |size| in_prose(&"&amp".repeat(size / 4)) },
    Trap { name: "quotes in quotes", make: |size| head(&format!("note {}", "> ".repeat(size / 2))) },
    Trap { name: "lists in lists", make: |size| head(&format!("note {}x", "* ".repeat(size / 2))) },
    Trap { name: "one long step", make: |size| in_prose(&again("\n    Fold and turn, number №.", size)) },
    Trap {
        name: "steps deeper and deeper",
        make: |size| {
            let lines = (size as f64).sqrt() as usize;
            in_prose(&(0..lines).map(|depth| format!("\n    {}x", " ".repeat(depth * 2))).collect::<String>())
        },
    },
    // Kitchens, larders, days.
    Trap { name: "ingredients of a larder", make: |size| again("ingredient thing №\nwater 10 %\n\n", size) },
    Trap {
        name: "other names", make: |size| format!("ingredient thing\nalso called {}z\n", again("name №, ", size))
    },
    Trap { name: "equipment", make: |size| format!("kitchen K\n{}", again("oven № x 1\n", size)) },
    Trap { name: "the same equipment", make: |size| format!("kitchen K\n{}", again("oven x 1\n", size)) },
    Trap { name: "orders", make: |size| format!("day D\n{}", again("make № of \"no.miche\"\n", size)) },
    Trap { name: "uses of nothing", make: |size| head(&again("use \"no-№.miche\"\n", size)) },
    // Notes.
    Trap { name: "amounts and names in a row", make: |size| in_notes("a 1 g ", size) },
    Trap { name: "halves in a row", make: |size| in_notes("1/2 ", size) },
    Trap { name: "ranges in a row", make: |size| in_notes("1-2 ", size) },
    Trap { name: "eggs in a row", make: |size| in_notes("1 egg; ", size) },
    Trap { name: "times in a row", make: |size| in_notes("for 1 h ", size) },
    Trap { name: "work in a row", make: |size| in_notes("mix 5 min, ", size) },
];
