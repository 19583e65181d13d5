//! Files as careless hands write them: generated from nothing, and made from tidy ones.

use proptest::prelude::*;
use proptest::sample::select;

fn blanks(least: usize) -> impl Strategy<Value = String> {
    let most = least + 3;
    prop_oneof![
        4 => (least..=most).prop_map(|count| " ".repeat(count)),
        1 => Just("\t".to_owned()),
        1 => Just("\u{A0}".to_owned()),
    ]
}

fn name() -> impl Strategy<Value = String> {
    const WORDS: &[&str] = &[
        "strong white flour",
        "Salt",
        "70 % chocolate",
        "type 55 flour",
        "crème fraîche",
        "note",
        "day",
        "whole  milk",
        "St. Olaf's plums",
        "a name so long that no leader column could ever hold it",
        "2 x 4 biscuits",
        "until",
        "rest of the dough",
    ];
    select(WORDS).prop_map(str::to_owned)
}

fn number() -> impl Strategy<Value = String> {
    select(&["1", "0.50", ".5", "½", "1½", "2 ⅓", "1/2", "1  3/4", "007", "12.345", "0,5", "1/0", "−3", "2e3"][..])
        .prop_map(str::to_owned)
}

fn unit() -> impl Strategy<Value = String> {
    select(&["g", "KG", "%", "ml", "cups", "Cup", "fl  oz", "", "pieces", "°C", "f", "min", "H", "day", "cm", "parsecs"][..])
        .prop_map(str::to_owned)
}

fn quantity() -> impl Strategy<Value = String> {
    let dash = select(&["-", "–", " — ", " - "][..]);
    prop_oneof![
        6 => (number(), blanks(0), unit()).prop_map(|(number, gap, unit)| format!("{number}{gap}{unit}")),
        1 => (number(), dash, number(), unit()).prop_map(|(low, dash, high, unit)| format!("{low}{dash}{high} {unit}")),
        1 => (number(), number()).prop_map(|(hours, minutes)| format!("{hours} h {minutes}min")),
        1 => select(&["1 h – 2 h", "90-120min", "-5–2 °C", "1 day 2 h", "15 ½ kg"][..]).prop_map(str::to_owned),
    ]
}

fn chain() -> impl Strategy<Value = String> {
    prop_oneof![
        5 => quantity(),
        1 => (quantity(), blanks(0), quantity()).prop_map(|(first, gap, second)| format!("{first}{gap}={gap}{second}")),
    ]
}

/// Any letter may be a capital.
fn shouted(text: &'static str) -> impl Strategy<Value = String> {
    any::<bool>().prop_map(move |loud| if loud { text.to_uppercase() } else { text.to_owned() })
}

fn tail() -> impl Strategy<Value = String> {
    prop_oneof![
        6 => Just(String::new()),
        1 => blanks(0).prop_map(|gap| format!("{gap}[ hand,two  ovens ]")),
        1 => blanks(1).prop_map(|gap| format!("{gap}# why, {{brace}} 5 g  ")),
        1 => blanks(1).prop_map(|gap| format!("{gap}[machine]{gap}#\tbecause")),
        1 => Just("  \t ".to_owned()),
    ]
}

fn listed(clause: BoxedStrategy<String>) -> impl Strategy<Value = String> {
    prop::collection::vec((blanks(0), clause, blanks(0)), 0..4).prop_map(|clauses| {
        clauses.into_iter().map(|(before, clause, after)| format!("{after},{before}{clause}")).collect()
    })
}

fn ingredient() -> impl Strategy<Value = String> {
    let leader = select(&["..", " ...... ", "…", " … ", "\t....\t", "........."][..]);
    let amount =
        prop_oneof![4 => chain(), 1 => select(&["all", "TO taste", "as  needed", "some"][..]).prop_map(str::to_owned)];
    let clause = prop_oneof![
        chain().prop_map(|at| format!("AT {at}")),
        quantity().prop_map(|share| format!("yield  {share}")),
        shouted("counts as flour"),
        shouted("not flour"),
        shouted("optional"),
        shouted("aside"),
        Just("cut  in 2 cm dice".to_owned()),
        Just("[not] a condition".to_owned()),
    ];
    (name(), leader, amount, listed(clause.boxed()))
        .prop_map(|(name, leader, amount, clauses)| format!("{name}{leader}{amount}{clauses}"))
}

fn step() -> impl Strategy<Value = String> {
    let clause = prop_oneof![
        shouted("each"),
        number().prop_map(|count| format!("{count} at  a time")),
        chain().prop_map(|at| format!("using deck  oven at {at}")),
        Just("USING mixer".to_owned()),
        chain().prop_map(|at| format!("at {at}")),
        quantity().prop_map(|time| format!("Up to {time}")),
        Just("straight  after mix of  dough".to_owned()),
        Just("during rise".to_owned()),
        quantity().prop_map(|time| format!("within {time} after mix")),
        Just("station the  bench".to_owned()),
        number().prop_map(|count| format!("people {count}")),
        Just("whenever".to_owned()),
    ];
    let kind = select(&["hands", "TEND", "wait", "rest"][..]);
    (name(), blanks(0), kind, quantity(), listed(clause.boxed()))
        .prop_map(|(name, gap, kind, time, clauses)| format!("{name}{gap}:{gap}{kind} {time}{clauses}"))
}

fn prose() -> impl Strategy<Value = String> {
    prop_oneof![
        3 => select(&["Mix {salt} and  { 1/3  of whole  milk }.", "until  smooth {at} all", "UNTIL done", "- a list", "Wait... 5 min", "{rest OF salt}",
            "{Half of salt} at {190°C=375°F}", "A \\{plain} \\brace", "an {open brace", "{½ of salt}, {20% of salt} and {5 – 6CM}", "trailing \\"][..]).prop_map(str::to_owned),
        1 => ingredient(),
        1 => step(),
    ]
}

fn key_line() -> impl Strategy<Value = String> {
    prop_oneof![
        select(
            &[
                "recipe  Pier  rolls",
                "KITCHEN Skerrow",
                "day Market",
                "ingredient whole milk",
                "use  \"a  b.miche\"",
                "choose x :a OR b",
                "measures us",
                "part  top",
                "Part poolish ,from  dough",
                "percent of FLOUR",
                "percent  of total",
                "percent of oat meal",
                "per  piece",
                "credit",
                "Note  two   words",
                "caution  Hot {5 cm} of {salt}",
                "note ends in \\[this]",
                "Cooks 02",
                "open 7:5-24:00",
                "also called a ,b",
                "contains  Milk",
                "source  As  on the can",
                "section x",
                "ready 2027-4-7t9:05",
                "ready to  EAT",
                "raw egg",
                "water 88%",
                "energy 64 KCAL",
                "costs 1.20  EUR per 2kg",
                "weighs 245g per cup us",
                "weighs 1 kg per 2 ½ l",
                "one weighs ½ kg"
            ][..]
        )
        .prop_map(str::to_owned),
        (number(), name()).prop_map(|(count, noun)| format!("makes {count} {noun}")),
        (chain(), quantity()).prop_map(|(mass, loss)| format!("Makes {mass},loss {loss}")),
        (number(), chain()).prop_map(|(count, each)| format!("divide {count}×{each}")),
        quantity().prop_map(|time| format!("keeps {time}, Chilled")),
        (quantity(), chain()).prop_map(|(time, at)| format!("keeps {time}, at {at}")),
        chain().prop_map(|mass| format!("spare {mass}")),
        chain().prop_map(|at| format!("desired  temperature {at}")),
        quantity().prop_map(|most| format!("deck  oven X 2,friction 3 C,holds {most}")),
        quantity().prop_map(|step| format!("fine scale {step}, up to 200 g")),
        quantity().prop_map(|much| format!("make {much} of \"x.miche\",ready 2027-04-07 08:00,choose a=b")),
    ]
}

fn line() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => ingredient(),
        4 => step(),
        6 => prose(),
        4 => key_line(),
        2 => Just(String::new()),
        1 => Just("# a comment  of its own ".to_owned()),
        1 => "[ -~½°…é\u{3000}]{0,30}",
    ]
}

/// A whole file, most of it readable.
pub fn messy_file() -> impl Strategy<Value = String> {
    let indent = prop_oneof![
        4 => Just(String::new()),
        4 => (1_usize..9).prop_map(|count| " ".repeat(count)),
        1 => (1_usize..4).prop_map(|count| "\t".repeat(count)),
    ];
    let head = select(&["recipe Generated", "kitchen Generated", "day Generated", "# only a comment"][..]);
    let line_break = prop_oneof![6 => Just("\n"), 1 => Just("\r\n")];
    let lines = prop::collection::vec((indent, line(), tail(), line_break), 0..24);
    (head, lines).prop_map(|(head, lines)| {
        let mut text = format!("{head}\n");
        for (indent, line, tail, line_break) in lines {
            text.push_str(&format!("{indent}{line}{tail}{line_break}"));
        }
        text
    })
}

/// A small generator of its own, so that a spoilt example is the same in every run with the same seed.
struct Dice(u64);

impl Dice {
    fn below(&mut self, sides: u64) -> u64 {
        // Marsaglia, Xorshift RNGs, 2003 (the 13-7-17 triple).
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % sides
    }
}

/// Spoils the layout of a tidy text and nothing else.
pub fn spoil(text: &str, seed: u64) -> String {
    let mut dice = Dice(seed | 1);
    let mut out = String::new();
    let mut prose_indent = 4;
    for line in text.lines() {
        let words = line.trim_start();
        let depth = line.len() - words.len();
        let spoilt = if words.is_empty() {
            "\n".repeat(dice.below(3) as usize)
        } else if words.starts_with('#') {
            line.to_owned()
        } else if depth > 0 {
            // Deeper lines of a block move together.
            format!("{}{}", " ".repeat(prose_indent + depth - 4), spoil_braces(words, &mut dice))
        } else {
            prose_indent = 1 + dice.below(9) as usize;
            spoil_head(words, &mut dice)
        };
        out.push_str(&spoilt);
        out.push_str(&" ".repeat(if words.starts_with('#') { 0 } else { dice.below(3) as usize }));
        out.push('\n');
    }
    out
}

fn spoil_head(line: &str, dice: &mut Dice) -> String {
    // What is said of a mark or a verdict is somebody's words: `crumb: 3 of 5, even, a little tight`.
    if let Some((judged, words)) = line.split_once(", ")
        && (judged.starts_with("verdict ") || is_marked(judged))
    {
        return format!("{judged}{}{words}", [",", " ,  ", ", "][dice.below(3) as usize]);
    }
    let (said, condition) = line.split_once(" [").map_or((line, None), |(said, rest)| (said.trim_end(), Some(rest)));
    let mut out = match said.split_once(" ..") {
        Some((name, rest)) => {
            let gap = " ".repeat(dice.below(3) as usize);
            let dots = ".".repeat(2 + dice.below(30) as usize);
            let amount = rest.trim_start_matches('.').trim_start();
            let amount = amount.replace(" = ", ["=", "  = ", " ="][dice.below(3) as usize]);
            format!("{name}{gap}{dots}{gap}{}", amount.replace(" %", ["%", "  %"][dice.below(2) as usize]))
        }
        None => said.to_owned(),
    };
    let is_text = [
        "note ",
        "caution ",
        "credit ",
        "source ",
        "story ",
        "by ",
        "picture ",
        "business ",
        "store ",
        "origin ",
        "directions ",
        "consists of ",
        "listed as ",
        "may contain ",
    ]
    .iter()
    .any(|word| said.starts_with(word));
    if !is_text {
        out = out.replace(", ", [",", " ,  ", ", "][dice.below(3) as usize]);
        // `per kg` needs its blank.
        if !said.starts_with("costs ") {
            out = out.replace(" kg", [" KG", "kg"][dice.below(2) as usize]);
        }
        out = out
            .replace(" 1/2", ["½", "  1/2"][dice.below(2) as usize])
            .replace(" min", ["min", "  MIN"][dice.below(2) as usize]);
    }
    match condition {
        Some(rest) => {
            format!("{out}{}[{}{rest}", " ".repeat(dice.below(4) as usize), " ".repeat(dice.below(2) as usize))
        }
        None => out,
    }
}

/// Whether a line of a log gives a mark: `crumb: 3 of 5`.
fn is_marked(line: &str) -> bool {
    let mark = line.split_once(": ").and_then(|(_, mark)| mark.split_once(" of "));
    mark.is_some_and(|(mark, of)| mark.parse::<f64>().is_ok() && of.parse::<f64>().is_ok())
}

fn spoil_braces(prose: &str, dice: &mut Dice) -> String {
    let gap = " ".repeat(dice.below(2) as usize);
    prose.replace('{', &format!("{{{gap}")).replace('}', &format!("{gap}}}"))
}
