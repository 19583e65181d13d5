//! How long raw things cook at least, however the pot or the oven is called: what `odd-time` looks for where a time is in the common range for
//! what is done, and too short for what it is done to. Common practice, no source.

use super::Subject;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show;
use crate::model::cooking::raw_flesh::is_flesh;
use crate::model::cooking::{bakes, beginnings, called, cooks, first_draw, says, some_says, uses};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{HeadMakes, Ingredient, Part, PartId, Recipe};
use crate::model::step::{Step, StepKind, Target};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;

mod joints;

/// What is raw, by the beginnings of words of its name, and after how many minutes in the pot it is done at the soonest.
type Row = (&'static Beginnings, i64);

/// Flesh of much sinew, which is tough until it has stewed.
const SINEWS: Row = (
    &Beginnings::of(&[
        "chuck",
        "shin|",
        "shank",
        "brisket",
        "short rib",
        "oxtail",
        "cheek",
        "stewing",
        "braising",
        "pork belly",
        "pork shoulder",
        "lamb shoulder",
        "neck of",
        "osso",
    ]),
    50,
);

/// What is boiled whole or in chunks, and what was dried.
const HARD: &[Row] = &[
    (&Beginnings::of(&["beetroot", "beets"]), 15),
    // Of fish they give what they have in twenty minutes.
    (&Beginnings::of(&["bones", "carcas", "trotter", "knuckle"]), 15),
    (&Beginnings::of(&["potato"]), 6),
    (&Beginnings::of(&["celeriac", "swede", "rutabaga", "turnip", "parsnip", "kohlrabi"]), 5),
    (
        &Beginnings::of(&[
            "dried chickpea",
            "split pea",
            "yellow pea",
            "dried bean",
            "dried pea",
            "dried borlotti",
            "dried kidney",
            "dried cannellini",
        ]),
        18,
    ),
    (&Beginnings::of(&["lentil", "pearl barley", "wheat berr", "rye berr", "brown rice"]), 10),
    // From dry, whatever they are called; what is eaten green or comes tinned says so.
    (
        &Beginnings::of(&[
            "adzuki",
            "azuki",
            "black bean",
            "white bean",
            "haricot",
            "cannellini",
            "borlotti",
            "pinto",
            "navy bean",
            "butter bean",
            "chickpea",
        ]),
        20,
    ),
    (&Beginnings::of(&["risotto rice", "arborio", "carnaroli", "basmati", "long-grain rice", "long grain rice"]), 9),
];

/// What is cut so small, or made so, that it is done at once.
#[rustfmt::skip]
const SMALL: &[&str] = &[
    "grated", "minced", "ground", "thin", "shaved", "cooked", "boiled", "tinned", "canned", "mashed", "flour", "starch", "purée", "puree", "crisps", "strips",
    "roasted", "drained", "sprouted", "soaked for", "green", "fresh", "frozen", "smoked", "cured", "pulled", "julienne", "spiral", "peelings", "flakes", "powder", "sliced", "steamed", "leftover", "leaves", "ribbons", "fine",
];

/// The first raw thing that is not done when the heat is over.
pub(super) fn problem(
    subject: &Subject<'_>,
    (id, part): (PartId, &Part),
    solved: &SolvedPart,
    check: &'static str,
) -> Option<Diagnostic> {
    in_the_pot(subject.recipe, (id, part), check)
        .or_else(|| joints::problem(subject.recipe, (id, part), check))
        .or_else(|| roasted(part, solved, check))
        .or_else(|| baked_whole(subject, (id, part), solved, check))
}

fn is_small(line: &Ingredient) -> bool {
    let said = line.preparation.as_deref().unwrap_or_default().to_lowercase();
    // Floury potatoes are no flour.
    let name = line.name.key.as_str().replace("floury", "");
    SMALL.iter().any(|word| said.contains(word) || name.contains(word))
}

const PRESSED: &Beginnings = &Beginnings::of(&["pressure", "microwave", "autoclave"]);

/// The heat of a part from a step on, and how long it is at most.
fn heat(part: &Part, from: usize) -> Option<(Vec<&Step>, Duration)> {
    let hot: Vec<&Step> = part.steps.iter().skip(from).filter(|step| cooks(step)).collect();
    let time = Duration::sum(hot.iter().map(|step| step.up_to.unwrap_or(step.time.1).max(step.time.1))).ok()?;
    Some((hot, time)).filter(|(hot, time)| !hot.is_empty() && *time > Duration::ZERO)
}

fn in_the_pot(recipe: &Recipe, (id, part): (PartId, &Part), check: &'static str) -> Option<Diagnostic> {
    // Of most lines their kind tells that they are neither.
    let may_be = |line: &Ingredient| {
        matches!(line.kind, Kind::Meat | Kind::Vegetable | Kind::Pulse | Kind::Grain | Kind::Other)
            && line.part().is_none()
    };
    part.lines.iter().find(|line| may_be(line))?;
    let row = |line: &Ingredient| match is_flesh(line) {
        true => std::iter::once(&SINEWS).chain(HARD).find(|(words, _)| line.name.has_word_beginning(words)),
        false => HARD.iter().find(|(words, _)| line.name.has_word_beginning(words)),
    };
    let raw = part.lines.iter().enumerate().filter(|(_, line)| may_be(line)).filter_map(|(at, line)| {
        // Of most lines no row is; what is small is read letter by letter.
        let (_, least) = row(line)?;
        let is_raw = !line.aside && line.kind != Kind::Bread && !is_small(line);
        is_raw.then_some((at, line, *least))
    });
    let mut raw = raw.peekable();
    raw.peek()?;
    // What goes into another part is cooked on there.
    let later = |line: &Ingredient| {
        let users = recipe.users(id).filter_map(|(user, _)| recipe.part(user));
        // In a loaf beans get no softer.
        let in_dough = |part: &Part| {
            let made = part.lines.iter().filter_map(|line| recipe.part(line.part()?));
            made.chain([part]).any(|part| part.lines.iter().any(|line| line.is_flour && line.stays_in()))
        };
        let users = users.filter(|user| !(line.kind == Kind::Pulse && in_dough(user)));
        users.filter_map(|user| heat(user, 0)).map(|(_, time)| time).max()
    };
    raw.find_map(|(at, line, least)| {
        let (hot, time) = heat(part, first_draw(part, Target::Line(at))?)?;
        let wet = beginnings!["boil", "simmer", "stew", "brais", "cook", "finish", "poach", "steam"];
        let dry = beginnings!["blanch", "parboil", "fry", "grill", "char"];
        let is_wet = hot.iter().any(|step| called(step, wet) && !bakes(step) || uses(step, beginnings!["kettle"]));
        let otherwise = hot.iter().any(|step| says(step, PRESSED) || uses(step, PRESSED) || called(step, dry));
        // What is mashed is soft by then.
        let is_mashed = some_says(part, beginnings!["mash", "puree", "purée", "ricer", "sieve"]);
        let all = later(line).filter(|_| !is_mashed).map_or(Ok(time), |later| time.plus(later)).ok()?;
        if !is_wet || otherwise || all >= Duration::minutes(least) {
            return None;
        }
        let last = hot.last()?;
        let message = format!(
            "{} of heat do not cook {}: common practice is {} at least",
            show::duration(time),
            line.name,
            show::duration(Duration::minutes(least))
        );
        Some(Diagnostic::advice(check, last.time_span, message).also(line.name.span, "goes in raw").help(HELP))
    })
}

const HELP: &str =
    "look whether a point or the unit of the time has slipped; what is cooked before it goes in says so, `cooked`";

/// A whole bird takes a quarter of an hour a kilogram, in any oven that does not char it.
const A_KILOGRAM: Number = Number::whole(13 * 60);

fn roasted(part: &Part, solved: &SolvedPart, check: &'static str) -> Option<Diagnostic> {
    let is_bird = |line: &Ingredient| {
        matches!(line.kind, Kind::Meat | Kind::Other)
            && is_flesh(line)
            && line.name.has_word_beginning(beginnings!["chicken", "turkey", "duck", "goose", "capon", "hen|"])
            && !line.name.has_word_beginning(beginnings![
                "breast", "thigh", "leg", "wing", "mince", "liver", "stock", "fat", "skin", "carcas", "cooked",
                "fillet", "drum", "bone"
            ])
            && (line.preparation.as_deref().is_some_and(|said| said.to_lowercase().contains("whole"))
                || line.name.has_word_beginning(beginnings!["whole"]))
    };
    let (line, mass) = part
        .lines
        .iter()
        .zip(&solved.lines)
        .find_map(|(line, amount)| Some((line, amount.mass.filter(|_| is_bird(line))?)))?;
    let (hot, time) = heat(part, 0)?;
    let oven = hot.iter().find(|step| bakes(step))?;
    let least = mass.value().over(Number::whole(1000)).ok()?.times(A_KILOGRAM).ok()?;
    let is_light = mass <= Mass::new(Number::whole(8000));
    (is_light
        && mass >= Mass::new(Number::whole(700))
        && time.value() < least
        && hot.iter().all(|step| !says(step, PRESSED)))
    .then(|| {
        let message = format!(
            "{} in the oven do not roast {} of {} through",
            show::duration(time),
            show::mass_plain(mass),
            line.name
        );
        Diagnostic::advice(check, oven.time_span, message).help("look whether a digit of the time has slipped")
    })
}

/// What is baked in one and cut, or whole, by the beginnings of words.
#[rustfmt::skip]
const WHOLE: &Beginnings = &Beginnings::of(&[
    "cake|", "cheesecake", "quiche", "pie|", "tart|", "slice", "square", "wedge", "finger|", "fingers|", "bar|", "bars|", "loaf", "loaves", "pudding|", "portion",
]);
/// What is baked thin or in many pieces all the same.
#[rustfmt::skip]
const THIN: &Beginnings = &Beginnings::of(&[
    "roulade", "swiss", "sheet", "pizza", "flat", "tarte flamb", "flamm", "focaccia", "cracker", "crisp", "biscuit", "cookie", "yule", "bûche", "buche", "layer",
    "dacquoise", "joconde", "meringue", "mini", "small", "tartlet", "gratin", "au gratin", "roll", "wafer", "lace", "baked alaska", "souffl", "lava", "molten",
]);

/// Half a kilogram and more of what is raw, in one piece in an oven that is not fierce: ten minutes do not reach its middle.
fn baked_whole(
    subject: &Subject<'_>,
    (id, part): (PartId, &Part),
    solved: &SolvedPart,
    check: &'static str,
) -> Option<Diagnostic> {
    let recipe = subject.recipe;
    let Some(HeadMakes::Pieces { noun, .. }) = &recipe.makes else { return None };
    let is_whole = noun.has_word_beginning(WHOLE)
        && ![&recipe.name, &part.name, noun].iter().any(|name| name.has_word_beginning(THIN));
    if !recipe.is_final(id) || !is_whole || part.divide.is_some() || part.per_piece {
        return None;
    }
    let is_raw = |line: &Ingredient| line.kind == Kind::Egg || line.is_any_flour();
    part.lines.iter().find(|line| is_raw(line) && line.stays_in())?;
    // Layers are baked thin, and put together afterwards; what was cooked before is only browned.
    let is_cooked_before =
        some_says(part, beginnings!["layers", "sheets", "tins|", "trays", "leave to set", "no-bake", "grill", "torch"]);
    let oven: Vec<&Step> = part.steps.iter().filter(|step| step.kind != StepKind::Wait && bakes(step)).collect();
    let [bake] = oven.as_slice() else { return None };
    let heat = bake.temperature.map(|(low, high)| high.unwrap_or(low).celsius())?;
    let all = solved.goes_in?;
    let pieces = subject.formula.pieces?.value();
    // Of slices it is the whole that is baked.
    let each = match noun.has_word_beginning(beginnings![
        "cake|",
        "cheesecake",
        "quiche",
        "pie|",
        "tart|",
        "loaf",
        "loaves",
        "pudding|"
    ]) {
        true => all.over(pieces).ok()?,
        false => all,
    };
    let least = if each >= Mass::new(Number::whole(1000)) { 14 } else { 9 };
    let is_short = bake.time.1 < Duration::minutes(least) && heat <= Number::whole(220);
    (each >= Mass::new(Number::whole(500)) && is_short && bake.loads.size().is_none() && !is_cooked_before).then(|| {
        let message =
            format!("{} in an oven do not bake {} in one through", show::duration(bake.time.1), show::mass_plain(each));
        Diagnostic::advice(check, bake.time_span, message)
            .help("look whether a point or a digit of the time has slipped")
    })
}
