//! The table of key lines: which words begin them, in which files, how they read, what an editor offers.

use super::super::Rule;
use crate::language::syntax::FileKind::{self, Day, Kitchen, Recipe};

/// Where an editor offers a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Place {
    /// In a file that does not say yet what it is.
    Title,
    /// Before the first part of a recipe.
    Head,
    /// In a part.
    Part,
    /// In a kitchen or a larder.
    Pantry,
    /// In a day.
    Day,
    /// In a log of bakes.
    Log,
    /// In a book.
    Book,
}

/// Lines of one rule.
pub(super) struct KeyLine {
    pub(super) rule: Rule,
    /// In which files they may stand, and the words that can begin them there.
    pub(super) begins: &'static [(FileKind, &'static [&'static str])],
    /// What such a line is called in a problem.
    pub(super) what: &'static str,
    /// How it reads.
    pub(super) form: &'static str,
    /// What is offered where, and what it is for.
    pub(super) offers: &'static [(Place, &'static str, &'static str)],
}

pub(super) const fn line(
    rule: Rule,
    begins: &'static [(FileKind, &'static [&'static str])],
    what: &'static str,
    form: &'static str,
    offers: &'static [(Place, &'static str, &'static str)],
) -> KeyLine {
    KeyLine { rule, begins, what, form, offers }
}

/// All key words, in the order in which they are told to somebody who asks what can be said.
pub(super) const LINES: &[KeyLine] = &[
    line(
        Rule::titled_line,
        &[(Recipe, &["recipe"]), (Kitchen, &["kitchen", "ingredient"]), (Day, &["day"])],
        "this line",
        "`recipe NAME`, `kitchen NAME`, `day NAME` or `ingredient NAME`",
        &[
            (Place::Title, "recipe ", "a recipe"),
            (Place::Title, "kitchen ", "a kitchen"),
            (Place::Title, "day ", "a day"),
            (Place::Title, "ingredient ", "a larder block"),
            (Place::Pantry, "kitchen ", "a kitchen"),
            (Place::Pantry, "ingredient ", "a larder block"),
        ],
    ),
    line(
        Rule::part_line,
        &[(Recipe, &["part"])],
        "`part`",
        "`part NAME`, or `part NAME, from OTHER PART` for a preferment",
        &[(Place::Part, "part ", "begins a part")],
    ),
    line(
        Rule::percent_line,
        &[(Recipe, &["percent"])],
        "`percent`",
        "`percent of flour`, `percent of total` or `percent of NAME`",
        &[(Place::Part, "percent of ", "what 100 % is")],
    ),
    line(
        Rule::per_piece_line,
        &[(Recipe, &["per"])],
        "`per`",
        "`per piece`, or `per small` for the pieces of one sort",
        &[(Place::Part, "per piece", "amounts are for one piece")],
    ),
    line(
        Rule::divide_line,
        &[(Recipe, &["divide"])],
        "`divide`",
        "`divide 24 x 78 g` or `divide 24 x 450 g small and 36 x 900 g large`, with `, loss 1.5 %` behind it where some is lost",
        &[(Place::Part, "divide ", "pieces made of this part")],
    ),
    line(
        Rule::makes_line,
        &[(Recipe, &["makes"])],
        "`makes`",
        "`makes 24 buns` or `makes 12 kg`, with `, loss 3 %`, `, tin 23 cm x 13 cm x 7 cm` or `, bake loss 12 %` behind it",
        &[(Place::Head, "makes ", "the batch as written"), (Place::Part, "makes ", "what comes out")],
    ),
    line(
        Rule::keeps_line,
        &[(Recipe, &["keeps"])],
        "`keeps`",
        "`keeps 2 days`, with `, chilled`, `, frozen` or `, at 18 C` behind it",
        &[(Place::Part, "keeps ", "longest time to its use")],
    ),
    line(
        Rule::spare_line,
        &[(Recipe, &["spare"])],
        "`spare`",
        "`spare 60 g`",
        &[(Place::Part, "spare ", "meant to be left over")],
    ),
    line(
        Rule::aim_line,
        &[(Recipe, &["aim"])],
        "`aim`",
        "`aim hydration 66-68 %`, `aim sugar at most 8 % of total`, `aim fat 12 % of total` or `aim cost at most 0.45 each`",
        &[
            (Place::Head, "aim ", "what the whole must hold, under every choice"),
            (Place::Part, "aim ", "what the part must hold"),
        ],
    ),
    line(
        Rule::desired_line,
        &[(Recipe, &["desired"])],
        "`desired`",
        "`desired temperature 25 C`",
        &[(Place::Part, "desired temperature ", "of the dough at the end of the mix")],
    ),
    line(
        Rule::use_line,
        &[(Recipe, &["use"]), (Kitchen, &["use"]), (Day, &["use"])],
        "`use`",
        "`use \"path.miche\"`; on a label `use by 2 days, REASON`, where it says why it is not `best before`",
        &[
            (Place::Head, "use \"", "a kitchen, a larder or another recipe"),
            (Place::Head, "use by ", "on the label: how long it is safe, and why"),
            (Place::Pantry, "use \"", "another kitchen or larder"),
            (Place::Day, "use \"", "the kitchen"),
        ],
    ),
    line(
        Rule::choose_line,
        &[(Recipe, &["choose"])],
        "`choose`",
        "`choose NAME: A or B`",
        &[(Place::Head, "choose ", "method alternatives")],
    ),
    line(
        Rule::measures_line,
        &[(Recipe, &["measures"])],
        "`measures`",
        "`measures US`, `measures metric` or `measures imperial`",
        &[(Place::Head, "measures ", "which cup and spoon")],
    ),
    line(
        Rule::ready_line,
        &[(Day, &["ready"])],
        "`ready`",
        "`ready 2026-12-05 15:00`",
        &[(Place::Day, "ready ", "when everything is wanted")],
    ),
    line(
        Rule::make_line,
        &[(Day, &["make"])],
        "`make`",
        "`make 48 of \"buns.miche\"`, with `, choose OPTION` or `, ready DATE TIME` behind it",
        &[(Place::Day, "make ", "an order")],
    ),
    line(
        Rule::store_line,
        &[(Day, &["store"])],
        "`store`",
        "`store 3.2 kg of jam of \"doughnuts.miche\"`, with `, made DATE` behind it",
        &[(Place::Day, "store ", "what there is already of a part")],
    ),
    line(
        Rule::stock_line,
        &[(Day, &["stock"])],
        "`stock`",
        "`stock \"stock.txt\"`",
        &[(Place::Day, "stock \"", "a list of what there is: only what is lacking is bought")],
    ),
    line(
        Rule::sale_line,
        &[
            (Recipe, &["sold", "store", "batch", "business", "may", "origin", "directions"]),
            (Kitchen, &["business", "may"]),
            (Day, &["batch", "business", "may"]),
        ],
        "a text for the label",
        "`sold as NAME OF THE FOOD`, `store HOW`, `batch LOT`, `business NAME AND ADDRESS`, `origin PLACE`, `directions HOW IT IS PREPARED` \
         or `may contain ALLERGEN, ALLERGEN`",
        &[
            (Place::Head, "sold as ", "the name of the food on the label"),
            (Place::Head, "store ", "how to keep it, on the label"),
            (Place::Head, "batch ", "the lot, on the label"),
            (Place::Head, "business ", "name and address, on the label"),
            (Place::Head, "origin ", "where it comes from, on the label"),
            (Place::Head, "directions ", "what a buyer does with it before it is eaten, on the label"),
            (Place::Head, "may contain ", "allergens of which traces may have come in, on the label"),
            (Place::Pantry, "may contain ", "allergens of which traces may have come in, on the labels"),
            (Place::Day, "may contain ", "allergens of which traces may have come in, on the labels"),
            (Place::Pantry, "business ", "name and address, on the labels"),
            (Place::Day, "batch ", "the lot, on the labels"),
            (Place::Day, "business ", "name and address, on the labels"),
        ],
    ),
    line(
        Rule::serving_line,
        &[(Recipe, &["serving"])],
        "`serving`",
        "`serving 55 g` or `serving 50 g, 1 slice`",
        &[(Place::Head, "serving ", "on a label of the United States: what one eats of it at once")],
    ),
    line(
        Rule::drained_line,
        &[(Recipe, &["drained"])],
        "`drained`",
        "`drained 320 g of 550 g`, `drained 58 %` or `drained as packed`",
        &[(
            Place::Head,
            "drained ",
            "what is left on a sieve of what is sold in brine, vinegar, syrup or juice, on the label",
        )],
    ),
    line(
        Rule::best_line,
        &[(Recipe, &["best"])],
        "`best before`",
        "`best before 3 days`",
        &[(Place::Head, "best before ", "how long it is at its best, on the label")],
    ),
    line(
        Rule::text_line,
        &[(Recipe, &["note", "caution", "credit", "story"]), (Kitchen, TEXTS), (Day, TEXTS)],
        "a text for the cards",
        "`note TEXT`, `caution TEXT`, `credit TEXT`, or in a recipe `story TEXT`",
        &[
            (Place::Head, "story ", "what a reader is told first"),
            (Place::Head, "credit ", "where it comes from"),
            (Place::Part, "note ", "printed on the cards"),
            (Place::Part, "caution ", "printed on the cards"),
            (Place::Pantry, "note ", ""),
            (Place::Pantry, "caution ", ""),
            (Place::Pantry, "credit ", "where it comes from"),
            (Place::Day, "note ", ""),
            (Place::Day, "caution ", ""),
            (Place::Day, "credit ", "where it comes from"),
        ],
    ),
    line(
        Rule::picture_line,
        &[(Recipe, &["picture"])],
        "a picture",
        "`picture \"FILE\", WHAT IS SEEN ON IT`",
        &[
            (Place::Head, "picture \"", "for readers: a file, and what is seen on it"),
            (Place::Part, "picture \"", "for readers: a file, and what is seen on it; also below a step"),
        ],
    ),
    line(
        Rule::author_line,
        &[(Recipe, &["by"])],
        "`by`",
        "`by NAME`",
        &[(Place::Head, "by ", "for readers: who wrote the recipe")],
    ),
    line(
        Rule::filed_line,
        &[(Recipe, &["filed"])],
        "`filed under`",
        "`filed under WORD, WORD`",
        &[(Place::Head, "filed under ", "for readers: where it is looked for")],
    ),
    line(
        Rule::cooks_line,
        &[(Kitchen, &["cooks"])],
        "`cooks`",
        "`cooks 2`",
        &[(Place::Pantry, "cooks ", "how many people work")],
    ),
    line(
        Rule::cook_line,
        &[(Kitchen, &["cook"])],
        "`cook`",
        "`cook Mara 22:00-06:00`, with `, on Tue-Sat`, `, rests 30 min` or `, longest 9 h` behind it",
        &[(Place::Pantry, "cook ", "somebody by name, with their hours")],
    ),
    line(
        Rule::longest_line,
        &[(Kitchen, &["longest"])],
        "`longest`",
        "`longest 9 h`",
        &[(Place::Pantry, "longest ", "the longest that anybody works in a day")],
    ),
    line(
        Rule::open_line,
        &[(Kitchen, &["open"])],
        "`open`",
        "`open 07:00-21:00`, or `open 22:00-14:00` through midnight",
        &[(Place::Pantry, "open ", "when work can be done")],
    ),
    line(
        Rule::scale_line,
        &[(Kitchen, &["scale", "fine"])],
        "`scale`",
        "`scale 1 g`, or `fine scale 0.1 g, up to 200 g`",
        &[
            (Place::Pantry, "scale ", "the smallest step of the scale"),
            (Place::Pantry, "fine scale ", "the scale for small amounts"),
        ],
    ),
    line(
        Rule::weighs_line,
        &[(Recipe, &["weighs"]), (Kitchen, &["weighs"])],
        "`weighs`",
        "`weighs 245 g per cup US` or `weighs 1.03 g per ml`",
        &[
            (Place::Head, "weighs ", "of what is poured and sold by volume: weight of a volume, `1.06 kg per l`"),
            (Place::Pantry, "weighs ", "weight of a volume"),
        ],
    ),
    line(
        Rule::one_weighs_line,
        &[(Kitchen, &["one"])],
        "`one weighs`",
        "`one weighs 50 g`",
        &[(Place::Pantry, "one weighs ", "weight of a piece")],
    ),
    line(
        Rule::fact_line,
        &[(
            Kitchen,
            &[
                "water",
                "fat",
                "saturates",
                "trans",
                "salt",
                "sugar",
                "added",
                "polyols",
                "protein",
                "carbohydrate",
                "fibre",
                "acid",
                "alcohol",
                "yield",
            ],
        )],
        "a figure of the larder",
        "`water 88 %`, `trans fat 0.4 %`, `added sugar 60 %`",
        &[
            (Place::Pantry, "water ", "share of water"),
            (Place::Pantry, "fat ", "share of fat"),
            (Place::Pantry, "salt ", "share of salt"),
            (Place::Pantry, "sugar ", "share of sugar"),
            (Place::Pantry, "protein ", "share of protein"),
            (Place::Pantry, "carbohydrate ", "share of carbohydrate"),
            (Place::Pantry, "fibre ", "share of fibre"),
            (Place::Pantry, "acid ", "share of acid"),
            (Place::Pantry, "saturates ", "share of saturated fat"),
            (Place::Pantry, "trans fat ", "share of trans fat"),
            (Place::Pantry, "added sugar ", "share of sugar that was added to it"),
            (Place::Pantry, "polyols ", "share of polyols"),
            (Place::Pantry, "alcohol ", "share of alcohol by weight"),
            (Place::Pantry, "yield ", "edible part"),
        ],
    ),
    line(
        Rule::energy_line,
        &[(Kitchen, &["energy"])],
        "`energy`",
        "`energy 364 kcal` (in 100 g)",
        &[(Place::Pantry, "energy ", "in 100 g")],
    ),
    line(
        Rule::trace_line,
        &[(Kitchen, &["cholesterol", "vitamin", "calcium", "iron", "potassium"])],
        "a figure of the larder",
        "`calcium 120 mg`, `vitamin D 1.2 ug` (in 100 g)",
        &[
            (Place::Pantry, "cholesterol ", "mg in 100 g"),
            (Place::Pantry, "vitamin D ", "micrograms in 100 g"),
            (Place::Pantry, "calcium ", "mg in 100 g"),
            (Place::Pantry, "iron ", "mg in 100 g"),
            (Place::Pantry, "potassium ", "mg in 100 g"),
        ],
    ),
    line(
        Rule::nitrogen_line,
        &[(Kitchen, &["nitrogen"])],
        "`nitrogen factor`",
        "`nitrogen factor 5.7`",
        &[(Place::Pantry, "nitrogen factor ", "by what its nitrogen was multiplied for `protein`")],
    ),
    line(
        Rule::is_line,
        &[(Kitchen, &["is"])],
        "`is`",
        "`is salt`, `is instant yeast`: what the ingredient is; or `is butter`: all that butter is",
        &[(Place::Pantry, "is ", "what it is: `is salt`, `is instant yeast`")],
    ),
    line(
        Rule::flag_line,
        &[(Kitchen, &["counts", "not", "raw", "ready", "bought", "compound"])],
        "this line",
        "`counts as flour`, `not flour`, `raw flour`, `raw egg`, `ready to eat`, `not vegan`, `not vegetarian`, `compound`, or `bought by \
         the litre`, `by the piece` or `by weight`",
        &[
            (Place::Pantry, "counts as flour", ""),
            (Place::Pantry, "not flour", ""),
            (Place::Pantry, "raw flour", ""),
            (Place::Pantry, "raw egg", ""),
            (Place::Pantry, "ready to eat", ""),
            (Place::Pantry, "not vegan", "of an animal"),
            (Place::Pantry, "not vegetarian", "of a killed animal"),
            (Place::Pantry, "bought by the litre", "how it stands on lists"),
            (Place::Pantry, "bought by the piece", "how it stands on lists"),
            (Place::Pantry, "bought by weight", "how it stands on lists"),
            (Place::Pantry, "compound", "made of several things; its pack says of which"),
        ],
    ),
    line(
        Rule::names_line,
        &[(Kitchen, &["also", "contains"])],
        "this line",
        "`also called NAME, NAME` or `contains ALLERGEN, ALLERGEN`",
        &[(Place::Pantry, "also called ", "other names"), (Place::Pantry, "contains ", "allergens")],
    ),
    line(
        Rule::costs_line,
        &[(Kitchen, &["costs"])],
        "`costs`",
        "`costs 1.20 per kg`, with `, on 2026-11-01` behind it to say of which day the price is",
        &[(Place::Pantry, "costs ", "a price: `costs 1.20 EUR per kg, on 2026-03-01`")],
    ),
    line(
        Rule::free_line,
        &[(Kitchen, &["source", "section", "listed", "consists"])],
        "this line",
        "`source TEXT`, `section NAME`, `listed as WORDS` or `consists of LIST`",
        &[
            (Place::Pantry, "source ", "where the figures come from"),
            (Place::Pantry, "section ", "where in a shop"),
            (Place::Pantry, "listed as ", "its words in a list of ingredients"),
            (Place::Pantry, "consists of ", "the list on its own pack"),
        ],
    ),
];

/// The words that begin a text for the cards.
const TEXTS: &[&str] = &["note", "caution", "credit"];
