//! Headings and lines about the whole recipe, told from everything else.

use super::amount::Unit;
use super::measure::{Measure, measure};
use super::words;
use crate::language::no_name::is_of_the_whole;
use crate::language::syntax::Key;
use crate::measure::noun;
use crate::model::larder::Larder;

/// What a line is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Kind {
    /// `Ingredients:`
    Ingredients,
    /// `Method:`
    Method,
    /// `Notes:`
    Notes,
    /// `For the filling:`, and what stands in brackets behind the name.
    Part(String, Option<String>),
    /// `Makes 12 buns`, as the language says it, and what was guessed.
    Makes(String, Option<String>),
    /// `TOTAL 1970 g`, `Hydration 64 %`: a figure about the whole, and nothing that goes in.
    Sum,
    /// Anything else.
    Words,
}

/// What begins at the first figure of a text.
fn tail(text: &str) -> &str {
    text.find(char::is_numeric).and_then(|at| text.get(at..)).unwrap_or("")
}

/// Tells a line's kind. `in_method`: what is done is being told, where a short line ending in a colon is often a sentence.
pub(super) fn of(line: &str, bare: &str, in_method: bool) -> Kind {
    if let Some(makes) = makes(bare) {
        return makes;
    }
    if (!in_method || bare.split_whitespace().count() <= 4) && is_sum(bare) {
        return Kind::Sum;
    }
    let marked = line.starts_with('#')
        || (line.starts_with("**") && (line.ends_with("**") || line.contains("** (")))
        || line.starts_with("__")
        || ["--", "==", "~~"].iter().any(|rule| line.starts_with(rule) && line.ends_with(rule));
    let signs = |c: char| matches!(c, '#' | '*' | '_' | '=' | '-' | '~') || c.is_whitespace();
    let text = bare.trim_matches(signs);
    let colon = text.ends_with(':');
    let text = text.trim_end_matches(':').trim();
    let (text, aside) = with_aside(text);
    // `**Base** (makes 1 tray)`.
    let text = text.trim_matches(signs);
    let lower = text.to_lowercase();
    let letters = text.chars().filter(|c| c.is_alphabetic()).count();
    let shouted = letters >= 4 && !text.chars().any(char::is_lowercase);
    match lower.as_str() {
        "ingredients" | "zutaten" | "ingr\u{e9}dients" | "ingredienti" | "ingredientes" | "you need"
        | "you will need" | "you'll need" | "what you need" | "shopping" => {
            return Kind::Ingredients;
        }
        "method" | "directions" | "instructions" | "preparation" | "steps" | "procedure" | "what to do" | "to make"
        | "making" | "how to make it" | "how" | "zubereitung" | "pr\u{e9}paration" | "preparazione"
        | "procedimento" | "preparaci\u{f3}n" | "elaboraci\u{f3}n" => return Kind::Method,
        "notes" | "note" | "tips" | "tip" | "variations" | "storage" | "ps" | "p.s." => return Kind::Notes,
        _ => {}
    }
    // `## Dough 2` is a heading; `## 500 g flour` and `Step 2:` are none.
    let numbered = text.contains(char::is_numeric);
    let of_steps = ["step", "stage", "day"].iter().any(|word| lower.starts_with(word));
    let heads = line.starts_with('#')
        && !text.starts_with(char::is_numeric)
        && !of_steps
        && measure(tail(text)).is_none_or(|(end, _)| end.unit.is_none());
    if text.is_empty() || (numbered && !heads) || text.split_whitespace().count() > 6 {
        return Kind::Words;
    }
    let for_the = lower.starts_with("for the ") || (lower.starts_with("for ") && colon);
    let sentence = in_method && !for_the && text.split_whitespace().count() > 3;
    if (marked || colon || shouted || (for_the && !text.ends_with('.'))) && !sentence && !text.contains(',') {
        let name = if for_the {
            let rest = text.get(4..).unwrap_or(text).trim();
            rest.strip_prefix("the ").or_else(|| rest.strip_prefix("The ")).unwrap_or(rest)
        } else {
            text
        };
        let name = words::name(name);
        if !name.is_empty() {
            return Kind::Part(if shouted { name.to_lowercase() } else { name }, aside);
        }
    }
    Kind::Words
}

/// Whether a line gives a figure about the whole: what all weighs, how long all takes, how wet a dough is.
fn is_sum(bare: &str) -> bool {
    let words: Vec<String> = words::all_of(bare.split(char::is_numeric).next().unwrap_or_default()).collect();
    let has = |known: &[&str]| words.iter().any(|word| known.contains(&word.as_str()));
    let is_known = |word: &String| is_of_the_whole(word) || WHOLE.contains(&word.as_str());
    let of_weight = has(&["weight", "wt"]) && has(&["dough", "batch", "unit", "piece", "scaling", "flour"]);
    bare.contains(char::is_numeric)
        && words.iter().all(is_known)
        && (has(&["total", "subtotal", "sum", "hydration"])
            || of_weight
            // Below a column of shares the weight of a piece is none.
            || words == ["dough", "piece"] && bare.ends_with('%')
            || words == ["in", "all"]
            || words == ["pieces"]
            || words == ["date"])
}

/// What a figure about the whole may be of, beside words that name nothing.
#[rustfmt::skip]
const WHOLE: [&str; 15] = [
    "all", "date", "dough", "final", "flour", "grand", "ingredients", "liquid", "mix", "recipe", "the", "time", "water", "wt",
    "scaling",
];

/// A heading, and what stands in brackets behind it: `Condiment (keeps 2 weeks)`.
pub(super) fn with_aside(text: &str) -> (&str, Option<String>) {
    match text.strip_suffix(')').and_then(|text| text.rsplit_once('(')) {
        Some((name, aside)) if !name.trim().is_empty() => {
            (name.trim().trim_end_matches(':'), Some(aside.trim().to_owned()))
        }
        _ => (text, None),
    }
}

/// A heading without the day that stands before it: `Dough` of `Day 1 - Dough`, `Day two: dough`.
pub(super) fn behind_day(text: &str) -> &str {
    if let Some(name) = behind_weekday(text) {
        return name;
    }
    let behind = text.split_once(' ').filter(|(first, _)| first.eq_ignore_ascii_case("day"));
    let Some((_, rest)) = behind else { return text };
    let which = rest.split(|c: char| !c.is_alphanumeric()).next().unwrap_or_default();
    let is_day = which.len() <= 2 && which.parse::<u8>().is_ok()
        || ["one", "two", "three", "four"].iter().any(|word| which.eq_ignore_ascii_case(word));
    let name = rest.get(which.len()..).unwrap_or_default();
    let bare = name.trim_start_matches([' ', '-', '\u{2013}', '\u{2014}', ':', ',']);
    if is_day && bare.len() < name.len() && !bare.is_empty() { bare } else { text }
}

/// `starter` of `FRIDAY EVENING - starter`, `second dough` of `Sunday second dough`.
fn behind_weekday(text: &str) -> Option<&str> {
    const DAYS: [&str; 7] = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
    const HOURS: [&str; 6] = ["morning", "noon", "afternoon", "evening", "night", "early"];
    let (day, rest) = text.split_once(' ')?;
    let plain = |word: &str| word.trim_matches(|c: char| !c.is_alphabetic()).to_lowercase();
    if !DAYS.contains(&plain(day).as_str()) {
        return None;
    }
    let (hour, behind) = rest.split_once(' ').unwrap_or((rest, ""));
    let name = if HOURS.contains(&plain(hour).as_str()) { behind } else { rest };
    let name = name.trim_start_matches([' ', '-', '\u{2013}', '\u{2014}', ':', ',']);
    // `Sunday rolls` are rolls of a Sunday: only a part is told of like that.
    (names_a_part(name) && !name.is_empty()).then_some(name)
}

/// What the pieces of a batch are called, by the last word in one number.
#[rustfmt::skip]
const PRODUCTS: &[&str] = &[
    "bun", "roll", "loaf", "loave", "biscuit", "cookie", "cake", "cupcake", "muffin", "scone", "tart", "tartlet", "pie", "pasty", "pastie",
    "pastrie", "pastry", "croissant", "bagel", "pretzel", "doughnut", "donut", "pizza", "flatbread", "baguette", "stick", "bar", "slice",
    "square", "ball", "cracker", "oatcake", "waffle", "pancake", "crumpet", "ring", "plait", "tin", "tray", "jar", "bottle", "portion",
    "serving", "piece", "people", "person", "guest", "helping", "bread", "boule", "wrap", "tortilla", "dumpling", "pc", "pâton",
];

/// Whether a word in small letters is what the pieces of a batch are called.
pub(super) fn is_product(word: &str) -> bool {
    PRODUCTS.iter().any(|product| noun::is_one_or_several(word, product))
}

/// Whether a line says so many of what a batch makes and nothing else: `2 loaves`, `8 small rolls`, and not `2 eggs per tart`.
pub(super) fn is_only_product(line: &str) -> bool {
    let words: Vec<String> = words::all_of(without_each(line)).collect();
    let size = |word: &String| ["small", "large", "medium", "big", "mini"].contains(&word.as_str());
    words.split_last().is_some_and(|(noun, before)| is_product(noun) && before.iter().all(size))
}

/// What joins the weight of one piece to their number.
const EACH: [&str; 8] = ["@", " at ", " of ", " x ", "\u{d7}", " de ", " à ", " von "];

/// Words for pieces without what each weighs: `8 balls` of `8 balls @ 270 g`, `10 pieces` of `10 pieces of 350 g`.
fn without_each(text: &str) -> &str {
    let cut = EACH.iter().filter_map(|joint| text.find(joint).map(|at| (at, joint.len()))).min();
    let is_weight = |from: usize| text.get(from..).is_some_and(|each| each.trim_start().starts_with(char::is_numeric));
    match cut {
        Some((at, length)) if is_weight(at + length) => text.get(..at).unwrap_or(text).trim_end(),
        _ => text,
    }
}

/// `16 buns`, `3 dozen biscuits`, `for 6 people`: what it makes, said without a word for it.
pub(super) fn bare_makes(bare: &str) -> Option<Kind> {
    let text = bare.trim_end_matches(['.', ':']);
    let text = text.strip_prefix("for ").or_else(|| text.strip_prefix("For ")).unwrap_or(text);
    let (count, rest) = measure(text).filter(|(count, _)| count.has_figure)?;
    // Slices and pieces are a measure of what goes in, too.
    let jars = count.unit == Some(Unit::Loose) && is_product(&count.word.to_lowercase()) && rest.trim().is_empty();
    let counted = count.unit.is_none() || count.unit == Some(Unit::Counted) || jars;
    let noun = format!("{}{rest}", count.word);
    let noun = without_each(noun.trim());
    let last = noun.split_whitespace().last().unwrap_or("").to_lowercase();
    let known = is_product(&last);
    // `For 10` alone is so many people.
    let for_so_many = noun.is_empty() && text.len() < bare.len() && bare.to_lowercase().starts_with("for ");
    let known = known || for_so_many;
    // `3 doz` alone says how many, too.
    let dozens = noun.is_empty() && count.look.iter().any(|why| why.contains("dozen"));
    if !counted || !(known || dozens) || noun.split_whitespace().count() > 4 || noun.contains([',', '(']) {
        return None;
    }
    let mut look = vec!["is this what it makes?".to_owned()];
    look.extend(count.look.iter().cloned());
    Some(Kind::Makes(
        format!("makes {} {}", count.shown, noun_of(noun, if for_so_many { "serves" } else { "" })),
        Some(look.join("; ")),
    ))
}

/// What brackets behind a title say that it makes.
pub(super) fn says_makes(aside: &str) -> Option<(String, Option<String>)> {
    match makes(aside).or_else(|| bare_makes(aside))? {
        Kind::Makes(makes, look) => Some((makes, look)),
        _ => None,
    }
}

/// What a recipe makes, where it is pieces without a name those that its title ends with: `12 rolls` of `Cinnamon rolls`.
pub(super) fn of_title(makes: &str, title: &str) -> String {
    let last = title.split_whitespace().last().unwrap_or_default().to_lowercase();
    let product = last.strip_suffix('s').filter(|product| PRODUCTS.contains(product)).map(|_| last.as_str());
    let named = makes.strip_suffix(" pieces").zip(product).map(|(count, product)| format!("{count} {product}"));
    named.unwrap_or_else(|| makes.to_owned())
}

/// A noun for the pieces, from the words behind their number.
fn noun_of(words: &str, key: &str) -> String {
    let words = words.trim().strip_prefix("of ").unwrap_or(words);
    // `one 23 cm tart`, `2 x 900 g loaves`: the noun is what stands last.
    let noun = match words.contains(char::is_numeric) {
        true => {
            words.split_whitespace().last().filter(|word| !word.contains(char::is_numeric)).unwrap_or("").to_owned()
        }
        false => words.to_owned(),
    };
    // `80-90 of 4 g`: the last word is a unit.
    let lower = noun.to_lowercase();
    let is_jar = super::amount::is_container(&lower) && is_product(&lower);
    let noun = words::name(if super::amount::is_unit(&lower) && !is_jar { "" } else { &noun });
    match (noun.is_empty(), key) {
        (true, "serves" | "servings" | "portions" | "feeds") => "portions".to_owned(),
        (true, _) => "pieces".to_owned(),
        (false, _) => noun,
    }
}

fn makes(bare: &str) -> Option<Kind> {
    let plain = bare.replace("**", "").replace("__", "");
    let bare = plain.as_str();
    let lower = bare.to_lowercase();
    let keys = ["makes", "yields", "yield", "serves", "servings", "portions", "gives", "fills", "feeds"];
    let figure = |rest: &str| measure(rest.trim_start_matches([':', ' '])).is_some();
    let key = keys.into_iter().find(|key| {
        lower
            .strip_prefix(key)
            .is_some_and(|rest| rest.starts_with([' ', ':']) && (rest.contains(char::is_numeric) || figure(rest)))
    })?;
    let rest = bare.get(key.len()..)?.trim_start_matches([':', ' ']);
    let rest = rest.strip_prefix("enough for ").unwrap_or(rest);
    let (count, rest) = measure(rest)?;
    let words = rest.split(['.', ',', ';', '(', '@', '|']).next().unwrap_or("");
    // `2 large or 4 small`.
    let words = words.split(" or ").next().filter(|_| words.contains(char::is_numeric)).unwrap_or(words);
    // `2 loaves at 985 g`: what each weighs is told apart.
    let each = [" at ", " of ", " x "].iter().filter_map(|joint| words.find(joint)).min();
    let words = each
        .and_then(|at| words.split_at_checked(at))
        .filter(|(noun, each)| noun.chars().any(char::is_alphabetic) && each.contains(char::is_numeric))
        .map_or(words, |(noun, _)| noun);
    let mut look = count.look.clone();
    let lost = rest.trim_end_matches(['.', ' ']).len() > words.trim_end().len() || words.contains(char::is_numeric);
    look.extend(lost.then(|| "only the number is taken".to_owned()));
    let said = match count.known() {
        Some(_) if count.is_mass() => {
            look.extend((!words.trim().is_empty()).then(|| "only the weight is taken".to_owned()));
            format!("makes {}", count.shown)
        }
        _ if !count.word.is_empty() => {
            format!("makes {} {}", count.value?.to_whole()?, noun_of(&format!("{}{words}", count.word), key))
        }
        _ => format!("makes {} {}", count.shown, noun_of(words, key)),
    };
    Some(Kind::Makes(said, (!look.is_empty()).then(|| look.join("; "))))
}

/// What each of so many weighs, behind `at`, `of` or `x`: `2 loaves at 985 g`.
pub(super) fn each_weighs(line: &str) -> Option<String> {
    let figure = line.find(char::is_numeric)?;
    let behind = line.get(figure..)?;
    let joints = EACH.into_iter();
    let each =
        joints.filter_map(|joint| behind.find(joint).and_then(|at| behind.get(at + joint.len()..))).find_map(measure);
    let each = each.filter(|(each, _)| each.is_mass()).or_else(|| weight_by_number(behind).map(|(each, _)| (each, "")));
    each.filter(|(each, _)| each.is_mass() && each.value.is_some() && each.look.is_empty()).map(|(each, _)| each.shown)
}

/// `800 g x 6`: what each weighs, and how many there are.
fn weight_by_number(text: &str) -> Option<(Measure, i64)> {
    let (each, rest) = measure(text).filter(|(each, _)| each.is_mass())?;
    let (count, rest) = measure(rest.trim_start().strip_prefix(['x', '×'])?)?;
    let whole =
        count.value.filter(|_| count.unit.is_none() && rest.trim_matches([')', '.', ' ']).is_empty())?.to_whole()?;
    Some((each, whole))
}

/// A name of what is made, and how many there are: `Seeded tin loaf - 2 x 900 g`, `Tin rolls x 24`, `Seed bars, 40 pcs`.
pub(super) fn with_pieces(bare: &str) -> Option<(&str, String, Option<String>)> {
    let at = bare.find(char::is_numeric)?;
    let (name, behind) = bare.split_at_checked(at)?;
    let joints = |c: char| matches!(c, '-' | '–' | '—' | ':' | ',' | '(' | '×');
    let joined = name.trim_end();
    if let Some((_, count)) = weight_by_number(behind).filter(|_| name.chars().any(char::is_alphabetic)) {
        let name = joined.trim_end_matches(|c: char| c.is_whitespace() || joints(c));
        return Some((name, format!("makes {count} pieces"), None));
    }
    // `T65 baguettes` and `Cake for 6` say no number behind a joint.
    if !(joined.ends_with(joints) || joined.ends_with(" x")) {
        return None;
    }
    let times = joined.strip_suffix(" x").or_else(|| joined.strip_suffix('×'));
    let name = joined.trim_end_matches(|c: char| c.is_whitespace() || joints(c));
    let counted =
        |count: &Measure| matches!(count.unit, None | Some(Unit::Counted)) || is_product(&count.word.to_lowercase());
    let (count, rest) = measure(behind).filter(|(count, _)| counted(count))?;
    let whole = count.value?.to_whole()?;
    let ends = |rest: &str| rest.trim_matches([')', ' ', '.']).is_empty();
    let named = name.chars().any(char::is_alphabetic);
    let of_weight = || {
        let rest = rest.trim_start();
        let each = rest.strip_prefix(['x', '×', '@']).or_else(|| rest.strip_prefix("at "))?;
        let (each, rest) = measure(each)?;
        (each.is_mass() && ends(rest)).then_some("pieces")
    };
    let name = times.unwrap_or(name).trim_end();
    let plain = of_weight().or_else(|| times.filter(|_| ends(rest)).map(|_| "pieces"));
    if !named || count.look.iter().any(|look| look.contains("dozen")) {
        return None;
    }
    if let Some(noun) = plain {
        return Some((name, format!("makes {whole} {noun}"), None));
    }
    match bare_makes(behind.trim_end_matches([')', '.']))? {
        Kind::Makes(makes, look) => Some((name, makes.replace(" pcs", " pieces").replace(" pc", " pieces"), look)),
        _ => None,
    }
}

/// A heading over what is made to go into a dough, and how long that takes behind it: `Levain build (night before) 12 h at 22 C`.
pub(super) fn timed_part(bare: &str) -> Option<(&str, Option<String>, &str)> {
    let at = bare.find(|c: char| c.is_numeric() || c == '(')?;
    let (name, behind) = bare.split_at_checked(at)?;
    let name = name.trim_end_matches(|c: char| c.is_whitespace() || matches!(c, '-' | '–' | '—' | ':' | ','));
    let (aside, time) = match behind.strip_prefix('(').and_then(|behind| behind.split_once(')')) {
        Some((aside, time)) => (Some(aside.trim().to_owned()), time.trim()),
        None => (None, behind),
    };
    let last = name.split_whitespace().last()?.to_lowercase();
    (INTO_A_DOUGH.contains(&last.as_str()) && super::times::durations(time) == 1).then_some((name, aside, time))
}

/// A heading over a part with the day or the hour at which it is made behind it: `SOUR day 1, 18:00`.
pub(super) fn dated_part(bare: &str) -> Option<&str> {
    const DAYS: [&str; 12] =
        ["day", "at", "on", "the", "before", "night", "evening", "morning", "noon", "am", "pm", "afternoon"];
    let lower = bare.to_lowercase();
    let at = [lower.find(" day "), lower.find(char::is_numeric)].into_iter().flatten().min()?;
    let (name, when) = bare.split_at_checked(at)?;
    let name = name.trim_end_matches(|c: char| c.is_whitespace() || matches!(c, '-' | '–' | '—' | ':' | ',' | '('));
    let is_when = |word: &str| {
        let word = word.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
        let clock = word.contains(':') && word.chars().all(|c| c.is_ascii_digit() || c == ':');
        let day = word.parse::<u8>().is_ok_and(|day| day <= 12);
        let hour =
            ["am", "pm", "h"].iter().any(|end| word.strip_suffix(end).is_some_and(|hour| hour.parse::<u8>().is_ok()));
        word.is_empty() || clock || day || hour || DAYS.contains(&word.as_str())
    };
    let dated = when.contains(':') || when.to_lowercase().contains("day ") || when.to_lowercase().ends_with(['m', 'h']);
    (names_a_part(name) && dated && when.split_whitespace().all(is_when)).then_some(name)
}

/// Last words of the names of what is made to go into a dough.
#[rustfmt::skip]
pub(super) const INTO_A_DOUGH: [&str; 23] = [
    "poolish", "biga", "levain", "leaven", "preferment", "pre-ferment", "starter", "sour", "soaker", "scald", "tangzhong", "yudane",
    "sourdough", "sauerteig", "vorteig", "brühstück", "quellstück", "kochstück", "altbrot", "build", "feed", "refreshment",
    "autolyse",
];

/// Last words of headings over a part, where no colon and no sign marks them.
#[rustfmt::skip]
const PARTS: &[&str] = &[
    "dough", "pastry", "sponge", "filling", "topping", "toppings", "icing", "glaze", "crumble", "crust", "base", "syrup", "sauce",
    "frosting", "poolish", "biga", "levain", "leaven", "preferment", "soaker", "scald", "streusel", "garnish", "dressing",
    "marinade", "brine", "compote", "batter", "condiment", "finish", "ganache", "meringue", "frangipane", "custard", "wash", "beurrage",
    "détrempe", "drizzle", "mixture", "block", "roll-in", "slurry", "roux", "cure", "rub", "remonce",
];

/// Last words of what is made as well as bought: a heading over a list where more words stand before it.
const MADE: [&str; 14] = [
    "curd",
    "jam",
    "porridge",
    "relish",
    "pesto",
    "puree",
    "purée",
    "cream",
    "mayonnaise",
    "praline",
    "caramel",
    "paste",
    "pickle",
    "chutney",
];

/// A part's name on a line by itself: `Pastry`, `Sponge`. `after_gap`: a blank line stands above it, or nothing at all.
/// `aside`: what stands in brackets behind it.
pub(super) fn bare_part(bare: &str, aside: Option<&str>, after_gap: bool) -> bool {
    let words = bare.split_whitespace().count();
    let last = bare.split_whitespace().last().unwrap_or("").to_lowercase();
    let plain = words <= 4 && !bare.contains(char::is_numeric) && !bare.contains([',', '.', '!', '?', ';', ':', '(']);
    let known = PARTS.contains(&last.as_str()) || INTO_A_DOUGH.contains(&last.as_str());
    let article = ["a ", "an ", "some "].iter().any(|word| bare.to_lowercase().starts_with(word));
    let ingredient = Larder::new().find(&Key::new(&words::name(bare))).is_some();
    // `Pickled beetroot (day before)` is made, whatever else is bought under that name.
    let made = aside.is_some_and(|aside| {
        let lower = aside.to_lowercase();
        ["keep", "before", "ahead", "make", "made", "prepare"].iter().any(|word| lower.contains(word))
    });
    plain
        && !article
        && bare.starts_with(char::is_alphabetic)
        // `Lemon curd` above a list is made, though it can be bought; `Salt` is not.
        && (known || (after_gap && words <= 3 && (made || !ingredient || words > 1 && MADE.contains(&last.as_str()))))
}

/// Whether words are few, and nothing but a name: `Cherries`, `Poached pears`.
pub(super) fn is_short_name(bare: &str) -> bool {
    bare.split_whitespace().count() <= 3
        && bare.starts_with(char::is_uppercase)
        && bare.chars().all(|c| c.is_alphabetic() || matches!(c, ' ' | '-' | '\''))
}

/// Whether a name is one of a part and of nothing that is bought: `Filling`, `Pasta dough per person`.
pub(super) fn names_a_part(name: &str) -> bool {
    let named =
        |word: &str| PARTS.contains(&word) || INTO_A_DOUGH.contains(&word) || ["cross", "crosses"].contains(&word);
    let for_one = name.split(" per ").next().unwrap_or(name);
    let last = words::all_of(for_one).last().unwrap_or_default();
    for_one.split_whitespace().count() <= 4 && named(&last)
}

/// Words before a colon with which a line tells something about the recipe, whatever amounts it holds.
#[rustfmt::skip]
const REMARKS: [&str; 22] = [
    "note", "notes", "variation", "variations", "option", "optional", "alternative", "alternatives", "swap", "or", "if", "tip", "tips", "nb",
    "per", "nutrition", "cost", "total", "makes", "yield", "serves", "instead",
];

/// Whether a name before a list of several may be a part's, though no word of it is one: `Remonce`, `Spice mix`.
pub(super) fn may_name_a_part(name: &str) -> bool {
    may_be_bought_or_made(name) && Larder::new().find(&Key::new(&words::name(name))).is_none()
}

/// Whether a name before a list may be that of what is made of it, though it can be bought, too: `Beef stock`.
pub(super) fn may_be_bought_or_made(name: &str) -> bool {
    let remark = |word: String| REMARKS.contains(&word.as_str());
    name.split_whitespace().count() <= 3
        && !name.contains(char::is_numeric)
        && !words::all_of(name).any(remark)
        && !words::all_of(name).any(|word| super::verbs::is_verb(&word))
}
