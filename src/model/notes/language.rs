//! Notes in another language: which one it seems to be, and what its commonest ingredients are called in English.
//!
//! Such notes are not translated. Names stay as they are written and what is done stays a note; but it is said so, and no English
//! word is put for a name only because its letters are near.

use super::words;

/// A language, and words of it that no English notes have: of lists, of what is done, and what joins them.
type Language = (&'static str, &'static [&'static str]);

#[rustfmt::skip]
const LANGUAGES: [Language; 4] = [
    ("German", &[
        "und", "mit", "oder", "f\u{fc}r", "bei", "nach", "dann", "alles", "zutaten", "zubereitung", "ergibt", "mehl", "weizenmehl", "roggenmehl",
        "dinkelmehl", "wasser", "salz", "hefe", "zucker", "milch", "eier", "honig", "sahne", "quark", "teig", "sauerteig", "kneten", "backen",
        "anbacken", "ruhen", "gehen", "lassen", "r\u{fc}hren", "verr\u{fc}hren", "mischen", "vermischen", "formen", "falten", "dehnen", "stunden",
        "stunde", "std", "tage", "ofen", "w\u{fc}rfel", "prise", "abdecken", "aufgehen", "ausrollen", "schneiden", "kochen", "braten",
    ]),
    ("French", &[
        "et", "avec", "puis", "pendant", "ingr\u{e9}dients", "pr\u{e9}paration", "farine", "eau", "sel", "levure", "beurre", "sucre", "lait",
        "\u{153}ufs", "oeufs", "\u{153}uf", "oeuf", "miel", "cr\u{e8}me", "p\u{e2}te", "four", "p\u{e9}trir", "petrir", "cuire", "laisser", "reposer",
        "pousser", "m\u{e9}langer", "melanger", "fa\u{e7}onner", "enfourner", "lever", "heures", "heure", "jours", "ajouter", "verser", "bouillir", "rabattre",
    ]),
    ("Italian", &[
        "ingredienti", "preparazione", "procedimento", "farina", "acqua", "sale", "lievito", "burro", "zucchero", "latte", "uova", "uovo",
        "olio", "miele", "impastare", "infornare", "lievitare", "cuocere", "lasciare", "riposare", "impasto", "forno", "ore", "minuti", "far",
        "poi", "aggiungere", "mescolare", "stendere", "formare", "giorni", "bollire", "friggere",
    ]),
    ("Spanish", &[
        "ingredientes", "preparaci\u{f3}n", "elaboraci\u{f3}n", "harina", "agua", "levadura", "mantequilla", "az\u{fa}car", "leche", "huevos", "huevo",
        "aceite", "miel", "amasar", "hornear", "horno", "dejar", "reposar", "masa", "minutos", "horas", "hora", "d\u{ed}as", "mezclar", "a\u{f1}adir",
        "cocer", "hervir", "fre\u{ed}r", "formar", "sal",
    ]),
];

/// Words that English notes have as well: alone they tell nothing.
const ENGLISH_TOO: [&str; 7] = ["four", "far", "sale", "ore", "latte", "lever", "masa"];

/// So many different words of a language in the whole of the notes tell that they are in it.
const TELLS: usize = 3;

/// What something of everyday is called in English.
#[rustfmt::skip]
const IN_ENGLISH: [(&[&str], &str); 20] = [
    (&["roggenmehl", "farine de seigle", "farina di segale", "harina de centeno"], "rye flour"),
    (&["dinkelmehl", "farine d'\u{e9}peautre", "farina di farro"], "spelt flour"),
    (&["weizenmehl", "mehl", "farine", "farina", "harina"], "flour"),
    (&["wasser", "eau", "acqua", "agua"], "water"),
    (&["salz", "sel", "sale", "sal"], "salt"),
    (&["hefe", "levure", "lievito", "levadura"], "yeast"),
    (&["sauerteig", "anstellgut", "lievito madre", "pasta madre", "masa madre"], "levain"),
    (&["zucker", "sucre", "zucchero", "az\u{fa}car"], "sugar"),
    (&["beurre", "burro", "mantequilla"], "butter"),
    (&["milch", "lait", "latte", "leche"], "milk"),
    (&["ei", "eier", "\u{153}uf", "\u{153}ufs", "oeuf", "oeufs", "uovo", "uova", "huevo", "huevos"], "egg"),
    (&["sahne", "rahm", "cr\u{e8}me", "panna", "nata"], "cream"),
    (&["\u{f6}l", "huile", "olio", "aceite"], "oil"),
    (&["honig", "miel", "miele"], "honey"),
    (&["mandeln", "amandes", "mandorle", "almendras"], "almonds"),
    (&["haseln\u{fc}sse", "noisettes", "nocciole", "avellanas"], "hazelnuts"),
    (&["waln\u{fc}sse", "noix", "noci", "nueces"], "walnuts"),
    (&["sesam", "s\u{e9}same", "sesamo", "s\u{e9}samo"], "sesame seeds"),
    (&["senf", "moutarde", "senape", "mostaza"], "mustard"),
    (&["sellerie", "c\u{e9}leri", "sedano", "apio"], "celery"),
];

/// The language of which most words stand in a text, and how many different ones.
fn most(text: &str) -> Option<(&'static str, usize)> {
    let said: Vec<String> = words::all_of(text).collect();
    let count = |known: &[&str]| {
        let found: Vec<&&str> = known.iter().filter(|word| said.iter().any(|said| said == *word)).collect();
        // What is English too counts beside a word that is not.
        if found.iter().all(|word| ENGLISH_TOO.contains(word)) { 0 } else { found.len() }
    };
    let counted = LANGUAGES.iter().map(|(name, known)| (*name, count(known))).filter(|(_, count)| *count > 0);
    counted.max_by_key(|(_, count)| *count)
}

/// In which language notes are, where not in English.
pub(super) fn of_notes(lines: &[String]) -> Option<&'static str> {
    most(&lines.join(" ")).filter(|(_, count)| *count >= TELLS).map(|(name, _)| name)
}

/// In which other language something is told that has no English verb in it; the caller asks that first.
pub(super) fn of_told(text: &str) -> Option<&'static str> {
    most(text).map(|(name, _)| name)
}

/// What an ingredient of everyday is called in English.
pub(super) fn in_english(name: &str) -> Option<&'static str> {
    let lower = name.to_lowercase().replace('\u{2019}', "'");
    let joints = ["di ", "de la ", "de ", "du ", "d'", "l'"];
    let bare = joints.iter().find_map(|joint| lower.strip_prefix(joint)).unwrap_or(&lower);
    let said = |known: &&str| {
        bare.strip_prefix(*known).is_some_and(|rest| !rest.starts_with(|c: char| c.is_alphanumeric()))
            || bare.strip_suffix(*known).is_some_and(|before| before.ends_with(' '))
    };
    IN_ENGLISH.iter().find(|(known, _)| known.iter().any(&said)).map(|(_, english)| *english)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_language_is_told_by_its_commonest_words() {
        for (text, language) in [
            ("700 g Roggenmehl, 720 g Wasser, 22 g Salz", Some("German")),
            ("900 g farine T65, 680 g eau, 20 g sel", Some("French")),
            ("500 g di farina 00, 12 g sale, acqua", Some("Italian")),
            ("500 g de harina, 10 g de sal, agua", Some("Spanish")),
            ("Pain de campagne with farine T65 and levain", None),
            ("Bake four trays for far less, on sale", None),
            ("Caff\u{e8} latte buns: 200 g latte, 500 g flour, salt", None),
        ] {
            assert_eq!(of_notes(&[text.to_owned()]), language, "{text}");
        }
        assert_eq!(of_told("Kneten 10 Min."), Some("German"));
        assert_eq!(of_told("Temper 5 min."), None);
    }

    #[test]
    fn what_is_of_everyday_is_known_by_its_name() {
        for (name, english) in [
            ("sale", Some("salt")),
            ("roggenmehl 1150", Some("rye flour")),
            ("di acqua", Some("water")),
            ("lievito di birra", Some("yeast")),
            ("farine de seigle", Some("rye flour")),
            ("seltzer", None),
            ("rye", None),
        ] {
            assert_eq!(in_english(name), english, "{name}");
        }
    }
}
