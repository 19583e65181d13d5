//! What a recipe makes, for one and for several: `12 cakes`, `1 cake`, `1 loaf`.

use crate::measure::number::Number;
use crate::measure::show::count_of;

/// Nouns that end otherwise in the singular than by a letter less.
const OTHERWISE: &[(&str, &str)] = &[
    ("loaves", "loaf"),
    ("halves", "half"),
    ("leaves", "leaf"),
    ("pasties", "pasty"),
    ("pastries", "pastry"),
    ("patties", "patty"),
    ("jellies", "jelly"),
    ("brioches", "brioche"),
    ("quiches", "quiche"),
    ("bûches", "bûche"),
    ("ganaches", "ganache"),
    ("half-loaves", "half-loaf"),
    ("gateaux", "gateau"),
    ("gâteaux", "gâteau"),
    ("fours", "four"),
    ("calzoni", "calzone"),
    ("panini", "panino"),
    ("cannoli", "cannolo"),
    ("men", "man"),
    ("women", "woman"),
    ("mice", "mouse"),
    ("geese", "goose"),
    ("people", "person"),
];

/// What is baked or sold in pieces, by the last word of its name where it is written for one: `makes 1 cake`. Only such a word is put for
/// several, since names in other languages (`8 naan`) and of what is not counted stay as they are.
#[rustfmt::skip]
const ONE: &[&str] = &[
    "bagel", "baguette", "bap", "bar", "base", "batch", "batard", "bâtard", "biscuit", "bloomer", "boule", "bowl", "box", "braid", "brioche",
    "bun", "cake", "cheesecake", "cob", "cookie", "cracker", "croissant", "crumpet", "cup", "cupcake", "custard", "doughnut", "dumpling",
    "eclair", "éclair", "finger", "flan", "flatbread", "fruitcake", "galette", "gateau", "gâteau", "gingerbread", "gugelhupf", "half-loaf",
    "jar", "jelly", "knot", "loaf", "log", "meringue", "muffin", "pan", "pancake", "pasty", "pastry", "patty", "pavlova", "person", "pie",
    "piece", "pizza", "plait", "portion", "pot", "pretzel", "pudding", "quiche", "ring", "roll", "roulade", "round", "scone", "serving",
    "sheet", "slab", "slice", "sponge", "square", "stick", "strudel", "tart", "tartlet", "terrine", "tin", "torte", "tray", "traybake",
    "trifle", "turnover", "twist", "waffle", "wreath", "bottle", "bag",
];

/// Numbers that stand in a noun: what follows them is several, however many of them there are.
const SEVERAL: &[&str] = &["dozen", "half-dozen", "score"];

/// So many of a noun that is written for several. A noun in another language stays as it is written.
pub fn counted(count: Number, noun: &str) -> String {
    format!("{} {}", count_of(count), agreeing(count, noun))
}

/// A noun that is written for several as it stands behind a number: one `loaves` is a `loaf`.
pub fn agreeing(count: Number, noun: &str) -> String {
    let one = count.is_positive() && count <= Number::ONE;
    if one { singular(noun) } else { plural(noun).unwrap_or_else(|| noun.to_owned()) }
}

/// Several of what is written for one: the loaves of `makes 1 loaf`.
fn plural(noun: &str) -> Option<String> {
    if let Some((one, of_what)) = noun.split_once(" of ") {
        return Some(format!("{} of {of_what}", plural(one)?));
    }
    let (before, last) = noun.rsplit_once(' ').map_or(("", noun), |(before, last)| (before, last));
    if !ONE.contains(&last) || noun.split(' ').next().is_some_and(|first| SEVERAL.contains(&first)) {
        return None;
    }
    let many = match OTHERWISE.iter().find(|(_, one)| *one == last) {
        Some((many, _)) => (*many).to_owned(),
        None if ["ch", "sh", "s", "x"].iter().any(|end| last.ends_with(end)) => format!("{last}es"),
        None => format!("{last}s"),
    };
    Some(if before.is_empty() { many } else { format!("{before} {many}") })
}

/// So many of something counted by the program itself, days or problems: `1 day`, `2 days`.
pub fn so_many(count: usize, noun: &str) -> String {
    format!("{count} {}", if count == 1 { singular(noun) } else { noun.to_owned() })
}

/// One of what is written for several, as far as its last word is English.
pub fn singular(noun: &str) -> String {
    // One of `bags of rolls` is a bag of rolls, and one dozen of `dozen cookies` is twelve.
    if let Some((many, of_what)) = noun.split_once(" of ") {
        return format!("{} of {of_what}", singular(many));
    }
    if noun.split(' ').next().is_some_and(|first| SEVERAL.contains(&first)) {
        return noun.to_owned();
    }
    // One of `rolls (small)` is a small roll all the same.
    if let Some((many, behind)) = noun.split_once(" (") {
        return format!("{} ({behind}", singular(many));
    }
    let (before, last) = noun.rsplit_once(' ').map_or(("", noun), |(before, last)| (before, last));
    let one = match OTHERWISE.iter().find(|(many, _)| *many == last) {
        Some((_, one)) => one,
        None if ["ss", "us", "is"].iter().any(|end| last.ends_with(end)) => last,
        None if ["ches", "shes", "xes", "sses", "toes", "goes"].iter().any(|end| last.ends_with(end)) => {
            last.strip_suffix("es").unwrap_or(last)
        }
        None => last.strip_suffix('s').filter(|one| one.len() > 2).unwrap_or(last),
    };
    if before.is_empty() { one.to_owned() } else { format!("{before} {one}") }
}

/// How far something is made where little is there of what goes into it: `as far as the flour goes`, `as far as the walnuts go`.
pub fn as_far_as(what: &str) -> String {
    // Couscous, asparagus and molasses are not several.
    let is_several = what.ends_with('s') && !["ss", "us", "is", "molasses"].iter().any(|end| what.ends_with(end));
    format!("as far as the {what} {}", if is_several { "go" } else { "goes" })
}

/// A word in small letters and in the singular, by which words of a title, a line and a step are compared: `plum` of plums, `cherry` of cherries,
/// `tomato` of tomatoes.
pub fn stem(word: &str) -> String {
    let word = word.to_lowercase();
    if let Some(stem) = word.strip_suffix("ies").filter(|stem| stem.len() > 2) {
        return format!("{stem}y");
    }
    let with_e = ["oes", "ches", "shes", "xes", "sses"].iter().any(|end| word.ends_with(end));
    let one = if with_e { word.strip_suffix("es") } else { word.strip_suffix('s').filter(|one| !one.ends_with('s')) };
    one.map_or_else(|| word.clone(), str::to_owned)
}

/// Whether a word in small letters is a noun that is written for one, or several of it: `roll` and `rolls`, `berries`, `leaves`.
pub fn is_one_or_several(word: &str, one: &str) -> bool {
    if word == one {
        return true;
    }
    // Whatever is put behind a noun, it begins as it did; it is asked of long lists.
    if word.as_bytes().first() != one.as_bytes().first() {
        return false;
    }
    let is_behind = |end: &str, of: &str| word.strip_suffix(end) == Some(of);
    is_behind("s", one)
        || is_behind("es", one) && ["ch", "sh", "s", "x", "o"].iter().any(|end| one.ends_with(end))
        || one.strip_suffix('y').is_some_and(|stem| is_behind("ies", stem))
        || OTHERWISE.contains(&(word, one))
}

/// What a recipe makes by its name, where its last word is English and for several: the rolls of `Pier rolls`.
pub fn made_by(name: &str) -> Option<String> {
    let last = name.rsplit(' ').next()?.to_lowercase();
    (last.chars().all(char::is_alphabetic) && singular(&last) != last).then_some(last)
}

/// What comes in pieces, by the last word of its name, and several of it where that is no `s` more.
#[rustfmt::skip]
const PIECES: &[(&str, &str)] = &[
    ("pod", ""), ("leaf", "leaves"), ("stick", ""), ("sheet", ""), ("clove", ""), ("sprig", ""), ("bulb", ""), ("head", ""), ("slice", ""),
    ("fillet", ""), ("rasher", ""), ("packet", ""), ("sachet", ""), ("tin", ""), ("can", ""), ("bag", ""), ("bunch", "bunches"), ("bottle", ""),
    ("jar", ""), ("ball", ""), ("star", ""), ("peppercorn", ""), ("nutmeg", ""), ("stalk", ""), ("quill", ""), ("root", ""), ("cube", ""),
    ("bar", ""), ("strip", ""), ("tablet", ""), ("capsule", ""), ("egg", ""), ("yolk", ""), ("lemon", ""), ("orange", ""), ("lime", ""),
    ("apple", ""), ("berry", "berries"), ("onion", ""), ("shallot", ""), ("chilli", "chillies"),
];

/// So many of an ingredient that is counted and named as one: 2⅔ of a `vanilla pod` are `vanilla pods`. Up to one stays one, as do
/// names that are for several already, and those in another language.
pub fn several(count: Number, name: &str) -> String {
    let (before, last) = name.rsplit_once(' ').map_or(("", name), |(before, last)| (before, last));
    let many = PIECES.iter().find(|(one, _)| *one == last).filter(|_| count > Number::ONE);
    match many {
        Some((_, "")) => format!("{name}s"),
        Some((_, many)) if before.is_empty() => (*many).to_owned(),
        Some((_, many)) => format!("{before} {many}"),
        None => name.to_owned(),
    }
}

/// `3 dozen buns`, `2 1/2 dozen`: twelve times as many, of what stands behind it. `None` for any other noun.
pub fn dozens(count: Number, noun: &str) -> Option<(Number, &str)> {
    let mut words = noun.splitn(2, ' ');
    let word = words.next().map(str::to_lowercase)?;
    let is_dozen = matches!(word.as_str(), "dozen" | "dozens" | "doz" | "doz.");
    let of = words.next().map_or("pieces", |rest| rest.strip_prefix("of ").unwrap_or(rest));
    let many = is_dozen.then(|| count.times(Number::whole(12)).ok())??;
    Some((many, of))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_and_several_are_one_noun() {
        for (word, one) in [
            ("roll", "roll"),
            ("rolls", "roll"),
            ("berries", "berry"),
            ("leaves", "leaf"),
            ("dishes", "dish"),
            ("tomatoes", "tomato"),
            ("boxes", "box"),
        ] {
            assert!(is_one_or_several(word, one), "{word}");
        }
        for (word, one) in
            [("rolled", "roll"), ("roes", "rose"), ("tines", "tin"), ("berrys", "cherry"), ("ros", "roes")]
        {
            assert!(!is_one_or_several(word, one), "{word}");
        }
    }

    #[test]
    fn a_name_says_what_is_made() {
        for (name, made) in [
            ("Pier rolls", Some("rolls")),
            ("Keeper's Pasties", Some("pasties")),
            ("Buns", Some("buns")),
            ("Harbour loaf", None),
            ("Skerrow brioche", None),
            ("Lemon molasses", Some("molasses")),
            ("Rolls no. 2s", None),
            ("Couscous", None),
        ] {
            assert_eq!(made_by(name).as_deref(), made, "{name}");
        }
    }

    #[test]
    fn more_than_one_are_several() {
        let third = Number::fraction(7, 3).expect("a number");
        for (count, name, said) in [
            (third, "vanilla pod", "vanilla pods"),
            (Number::ONE, "vanilla pod", "vanilla pod"),
            (Number::whole(4), "bay leaf", "bay leaves"),
            (Number::whole(4), "leaf", "leaves"),
            (Number::whole(4), "bay leaves", "bay leaves"),
            (Number::whole(2), "Vanilleschote", "Vanilleschote"),
            (Number::whole(2), "egg white", "egg white"),
        ] {
            assert_eq!(several(count, name), said);
        }
    }

    #[test]
    fn what_is_written_for_one_is_several() {
        let two = |noun| counted(Number::whole(2), noun);
        for (noun, several) in [
            ("cake", "2 cakes"),
            ("tin loaf", "2 tin loaves"),
            ("pastry", "2 pastries"),
            ("quiche", "2 quiches"),
            ("tray of buns", "2 trays of buns"),
            ("cakes", "2 cakes"),
            ("naan", "2 naan"),
            ("dozen cookies", "2 dozen cookies"),
            ("box", "2 boxes"),
            ("gateau", "2 gateaux"),
        ] {
            assert_eq!(two(noun), several);
        }
        for one in ONE {
            assert_eq!(singular(&plural(one).expect("several")), *one);
        }
    }

    #[test]
    fn one_is_one() {
        let one = |noun| counted(Number::ONE, noun);
        let said = [
            "cakes",
            "loaves",
            "slices",
            "tin loaves",
            "cookies",
            "pasties",
            "batches",
            "rolls (small)",
            "bûches",
            "gingerbread men",
            "hot cross buns",
            "glasses",
            "Brötchen",
        ]
        .map(one);
        let right = [
            "1 cake",
            "1 loaf",
            "1 slice",
            "1 tin loaf",
            "1 cookie",
            "1 pasty",
            "1 batch",
            "1 roll (small)",
            "1 bûche",
            "1 gingerbread man",
            "1 hot cross bun",
            "1 glass",
            "1 Brötchen",
        ];
        assert_eq!(said, right);
        assert_eq!(counted(Number::constant(1, 2), "cakes"), "½ cake");
        assert_eq!(counted(Number::whole(2), "cakes"), "2 cakes");
        assert_eq!(counted(Number::ZERO, "cakes"), "0 cakes");
    }
}
