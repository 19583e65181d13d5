//! Names that are cut short, `SR flour`, and names with a slip of the pen, `suger`.

use super::fruit;
use super::hint;
use super::item::Read;
use crate::language::syntax::Key;
use crate::model::larder::Larder;

/// Short names, and what each is in full. Common practice of the trade, no source.
#[rustfmt::skip]
const WHOLE: &[(&str, &str)] = &[
    ("rye", "rye flour"), ("caster", "caster sugar"), ("castor", "caster sugar"), ("castor sugar", "caster sugar"),
    ("demerara", "demerara sugar"), ("muscovado", "muscovado sugar"), ("granulated", "granulated sugar"),
    ("self-raising", "self-raising flour"), ("self raising", "self-raising flour"), ("self-rising", "self-raising flour"),
    ("self rising flour", "self-raising flour"), ("self raising flour", "self-raising flour"),
    ("self-rising flour", "self-raising flour"), ("sr", "self-raising flour"), ("srf", "self-raising flour"),
    ("all-purpose", "all-purpose flour"), ("all purpose", "all-purpose flour"), ("apf", "all-purpose flour"),
    ("wwf", "whole wheat flour"), ("whole wheat", "whole wheat flour"), ("wholewheat", "wholewheat flour"),
    ("b. powder", "baking powder"), ("b powder", "baking powder"), ("baking p", "baking powder"), ("bp", "baking powder"),
    ("b.p", "baking powder"), ("bkg powder", "baking powder"), ("b. soda", "baking soda"), ("b soda", "baking soda"),
    ("bi-carb", "bicarbonate of soda"), ("bicarb of soda", "bicarbonate of soda"), ("bicarb soda", "bicarbonate of soda"),
    ("bicarbonate", "bicarbonate of soda"), ("marg", "margarine"), ("oleo", "margarine"), ("choc", "chocolate"),
    ("conf sugar", "confectioners sugar"), ("confectioner's sugar", "confectioners sugar"), ("oj", "orange juice"),
    ("10x sugar", "confectioners sugar"), ("xxx sugar", "confectioners sugar"), ("pb", "peanut butter"),
    ("plain", "plain flour"), ("strong white", "strong white flour"), ("wholemeal", "wholemeal flour"), ("baking pwd", "baking powder"),
    ("bkg pwd", "baking powder"), ("yolk", "egg yolk"), ("yolks", "egg yolk"), ("whites", "egg white"), ("parm", "parmesan"), ("mozz", "mozzarella"), ("cinn", "cinnamon"), ("philly", "cream cheese"), ("schmalz", "lard"),
    ("ww", "whole wheat flour"), ("h2o", "water"), ("idy", "instant yeast"),
];
/// Short words within a name.
#[rustfmt::skip]
const WORDS: &[(&str, &str)] = &[
    ("sr", "self-raising"), ("s.r", "self-raising"), ("s/r", "self-raising"), ("ap", "all-purpose"), ("a.p", "all-purpose"),
    ("wm", "wholemeal"), ("ww", "whole wheat"), ("w/w", "whole wheat"), ("choc", "chocolate"), ("veg", "vegetable"), ("gran", "granulated"),
    ("conf", "confectioners"), ("brn", "brown"), ("br", "brown"), ("lt", "light"), ("dk", "dark"), ("pwd", "powdered"),
    ("powd", "powdered"), ("van", "vanilla"), ("ext", "extract"), ("cinn", "cinnamon"), ("fl", "flour"), ("sug", "sugar"),
    ("unsalt", "unsalted"), ("inst", "instant"), ("evap", "evaporated"), ("cond", "condensed"), ("gr", "ground"), ("swt", "sweet"),
    ("bttr", "butter"), ("crm", "cream"), ("chz", "cheese"), ("wh", "white"), ("bkg", "baking"), ("pdr", "powder"),
    ("desic", "desiccated"), ("dess", "desiccated"), ("coc", "coconut"), ("dbl", "double"), ("whipp", "whipping"),
    ("flr", "flour"), ("v", "very"),
];

/// Gives a name that is cut short in full, and asks whether another name was meant where one is not known; both marked.
pub(super) fn settle_name(read: &mut Read) {
    let larder = Larder::new();
    // `juice of lemon` is the lemon juice of a larder.
    if let Some(name) = fruit::as_named(&read.name) {
        read.name = name;
    }
    // `3 parts flour (300 g)`: shares, and no name.
    if let Some(name) = ["parts ", "part "].into_iter().find_map(|word| read.name.strip_prefix(word))
        && read.amount.contains(char::is_numeric)
        && larder.find(&Key::new(&read.name)).is_none()
    {
        read.look.push("the number is of parts: of how much is one?".to_owned());
        read.name = name.to_owned();
    }
    if read.amount == "all" || larder.find(&Key::new(&read.name)).is_some() {
        return;
    }
    if let Some(full) = in_full(&read.name, &larder) {
        read.look.push(format!("the notes say `{}`", read.name));
        read.name = full;
    } else {
        // `marg/butter`; `s/r flour` is one.
        let two = read
            .name
            .split_once('/')
            .is_some_and(|(one, other)| one.ends_with(char::is_alphabetic) && other.starts_with(char::is_alphabetic));
        read.look.extend(two.then(|| "which of the two goes in?".to_owned()));
        read.look.extend(hint::of(&read.name));
    }
}

/// A short name in full, where the larder knows that.
pub(super) fn in_full(name: &str, larder: &Larder) -> Option<String> {
    let lower = name.to_lowercase();
    let bare = lower.trim_end_matches('.');
    let known = |full: &String| larder.find(&Key::new(full)).is_some();
    let whole = WHOLE.iter().find(|(short, _)| *short == bare).map(|(_, full)| (*full).to_owned());
    whole.filter(known).or_else(|| {
        let long = |word: &str| {
            let bare = word.trim_end_matches('.').to_lowercase();
            WORDS
                .iter()
                .find(|(short, _)| *short == bare)
                .map_or_else(|| word.to_owned(), |(_, full)| (*full).to_owned())
        };
        let full = name.split_whitespace().map(long).collect::<Vec<String>>().join(" ");
        Some(full).filter(|full| full != name && known(full))
    })
}
