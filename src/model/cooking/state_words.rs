//! Words of state: what was done to something before it goes in, or how it is eaten, in one table for all who ask. Common practice, no
//! source.

/// What a word says of the thing of which it is said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// It is not raw any more, whatever it is.
    Cooked,
    /// Flour or egg that is safe to eat. What is left over is as raw as it was.
    SafeFlourOrEgg,
    /// Grain or pulses that went in with water in them already.
    Wet,
    /// Flesh that was not cooked and yet is not fresh; what a larder knows, it knows better.
    Preserved,
    /// Meat or fish that keeps where it is warm.
    KeepsFlesh,
    /// Meat or fish that keeps so by what it is called, if nothing says that it is fresh.
    KeptFlesh,
    /// Not preserved in any way.
    Fresh,
    /// Meat that was minced.
    Minced,
    /// Eaten raw on purpose.
    EatenRaw,
    /// As [`State::EatenRaw`], of flesh that nothing cooks.
    EatenCured,
    /// As [`State::EatenRaw`], of what is cooked and not through.
    EatenPink,
}

use State::{
    Cooked, EatenCured, EatenPink, EatenRaw, Fresh, KeepsFlesh, KeptFlesh, Minced, Preserved, SafeFlourOrEgg, Wet,
};

/// Whole words in lower case, for each of what they may say.
#[rustfmt::skip]
const TABLE: &[(&[State], &[&str])] = &[
    (&[Cooked, SafeFlourOrEgg, Wet], &["cooked", "boiled", "steamed"]),
    (&[Cooked, SafeFlourOrEgg], &["precooked", "roasted", "poached", "braised", "grilled", "chargrilled", "barbecued", "fried", "baked", "stewed",
        "simmered", "pasteurised", "pasteurized"]),
    (&[Cooked, Wet], &["tinned", "canned"]),
    (&[Cooked], &["jarred", "confit", "leftover", "leftovers", "rotisserie", "pulled"]),
    (&[SafeFlourOrEgg], &["toasted", "scrambled", "heat-treated"]),
    (&[Wet], &["drained", "soaked"]),
    (&[Preserved, KeepsFlesh], &["smoked"]),
    (&[Preserved, KeepsFlesh, EatenCured], &["cured"]),
    (&[Preserved, KeepsFlesh, SafeFlourOrEgg], &["dried"]),
    (&[Preserved], &["jerky", "biltong", "salami", "prosciutto", "pancetta", "chorizo", "corned", "bresaola", "pastrami", "deli"]),
    (&[KeepsFlesh], &["salted"]),
    (&[KeptFlesh], &["tinned", "canned", "jarred", "confit", "bacon", "ham", "hams", "salami", "prosciutto", "pancetta", "chorizo", "anchovy",
        "anchovies", "jerky", "saltfish", "stockfish", "stock", "broth", "gelatin", "gelatine"]),
    (&[Fresh], &["raw", "fresh"]),
    (&[Minced], &["mince", "minced", "ground", "sausage", "sausages", "burger", "burgers", "beefburger", "beefburgers", "hamburger",
        "hamburgers", "patty", "patties", "meatball", "meatballs", "sausagemeat", "forcemeat", "kofta"]),
    (&[EatenRaw, EatenCured, EatenPink], &["raw", "uncooked", "undercooked", "rare", "unbaked"]),
    (&[EatenPink], &["pink"]),
];

impl State {
    /// Whether a word, in lower case, says it.
    pub fn is_told_by(self, word: &str) -> bool {
        TABLE.iter().any(|(states, words)| words.contains(&word) && states.contains(&self))
    }
}
