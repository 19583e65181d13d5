//! Words behind a number that measure nothing exactly: a pinch, a packet, a clove.

/// What such a word tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loose {
    /// A measure of the hand or of the table, which has no weight: `2 handfuls`, `1 glass`.
    Hand,
    /// What an amount is sold in, whose weight stands on it: `1 packet`.
    Container,
    /// A piece of something, counted: `2 cloves`, `4 leaves`.
    Piece,
}

/// Measures of the hand, which have no weight.
#[rustfmt::skip]
const HANDFULS: &[&str] = &[
    "pinch", "pinches", "dash", "dashes", "handful", "handfuls", "bunch", "bunches", "knob", "knobs", "drop", "drops", "drizzle",
    "splash", "glug", "scoop", "scoops", "spoonful", "spoonfuls", "spoon", "spoons", "dessertspoon", "dessertspoons", "dsp", "dsps", "dssp", "dollop",
    "glass", "glasses", "wineglass", "wineglasses", "wineglassful", "gill", "gills", "teacup", "teacups", "teacupful",
    "breakfastcup", "saltspoon", "saltspoons", "noggin", "punnet", "punnets", "mug", "mugs", "bit", "few", "little", "couple", "katori", "katoris", "prise", "prisen", "würfel", "bund", "becher",
    "dram", "drams", "msp", "messerspitze", "messerspitzen", "schuss", "tasse", "tassen", "glas", "pincée", "pincées", "tasses", "verre", "verres", "pizzico",
    "pizzichi", "tazza", "tazze", "bicchiere", "bicchieri", "pizca", "pizcas", "taza", "tazas", "vaso", "vasos",
];

/// What an amount is sold in. A weight beside it is the weight of one.
#[rustfmt::skip]
const CONTAINERS: &[&str] = &[
    "packet", "packets", "pk", "pks", "pkt", "pkts", "pack", "packs", "package", "packages", "pkg", "pkgs", "sachet", "sachets", "can", "cans", "tin",
    "tins", "jar", "jars", "bottle", "bottles", "stick", "sticks", "bag", "bags", "box", "boxes", "cube", "cubes", "tub",
    "tubs", "carton", "cartons", "block", "blocks", "envelope", "envelopes",
    "pck", "päckchen", "packung", "packungen", "tüte", "tüten", "dose", "dosen", "paquet", "paquets", "boîte", "boîtes", "bustina", "bustine",
    "sobre", "sobres", "lata", "latas",
];

/// What is counted one by one.
#[rustfmt::skip]
const PIECES: &[&str] = &[
    "pc", "pcs", "clove", "cloves", "sprig", "sprigs", "slice", "slices", "leaf", "leaves", "piece", "pieces", "sheet", "sheets",
    "fillet", "fillets", "rasher", "rashers", "stalk", "stalks", "head", "heads",
    "zehe", "zehen", "scheibe", "scheiben", "zweig", "zweige", "gousse", "gousses", "spicchio", "spicchi", "diente", "dientes",
];

/// Words, in small letters, by which a figure is not exact: `about 60 g`, `flour approx. 200 g`.
pub const ABOUT: [&str; 10] =
    ["about", "approx", "approx.", "approximately", "around", "roughly", "circa", "ca", "ca.", "c."];

/// Signs that say the same as [`ABOUT`].
pub const ABOUT_SIGNS: [char; 3] = ['~', '\u{b1}', '\u{2248}'];

/// How a spoon or a cup is filled, in small letters, and whether that leaves open how much it is: `heaped`, and not `level`.
pub const FILLED: [(&str, bool); 12] = [
    ("heaped", true),
    ("heaping", true),
    ("rounded", true),
    ("scant", true),
    ("generous", true),
    ("good", true),
    ("big", true),
    ("large", true),
    ("small", true),
    ("level", false),
    ("packed", false),
    ("flat", false),
];

/// What a word in small letters tells behind a number, where it is no unit.
pub fn loose(word: &str) -> Option<Loose> {
    let tables = [(Loose::Hand, HANDFULS), (Loose::Container, CONTAINERS), (Loose::Piece, PIECES)];
    tables.into_iter().find(|(_, words)| words.contains(&word)).map(|(loose, _)| loose)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::unit::Unit;

    #[test]
    fn no_word_stands_in_two_tables() {
        let mut all = [HANDFULS, CONTAINERS, PIECES].concat();
        let count = all.len();
        all.sort_unstable();
        all.dedup();
        assert_eq!(all.len(), count);
    }

    /// `pieces` alone is a unit of the language too.
    #[test]
    fn none_is_a_unit() {
        let units: Vec<&str> = [HANDFULS, CONTAINERS, PIECES]
            .concat()
            .into_iter()
            .filter(|word| Unit::from_word(word).is_some())
            .collect();
        assert!(units.iter().all(|word| word.starts_with("piece") || word.starts_with("pc")), "{units:?}");
    }
}
