//! The key words of a log of bakes.

use super::{KeyLine, Place, line};
use crate::language::parse::Rule;
use crate::language::syntax::FileKind::Bakes;

/// All of them, in the order in which they are told.
pub(super) const LINES: &[KeyLine] = &[
    line(
        Rule::bakes_of_line,
        &[(Bakes, &["bakes"])],
        "this line",
        "`bakes of \"rolls.miche\"`",
        &[(Place::Title, "bakes of \"", "a log of bakes")],
    ),
    line(
        Rule::bake_line,
        &[(Bakes, &["bake"])],
        "`bake`",
        "`bake 2027-03-02 05:30`, with `, 100 rolls`, `, 12 kg` or `, x 2`, `, choose OPTION` or `, from REVISION` behind it",
        &[(Place::Log, "bake ", "begins a bake")],
    ),
    line(Rule::by_line, &[(Bakes, &["by"])], "`by`", "`by Mara`", &[(Place::Log, "by ", "who baked")]),
    line(
        Rule::heat_line,
        &[(Bakes, &["room", "flour", "tap", "preferment"])],
        "a temperature of the day",
        "`room 21 C`, `flour at 19 C`, `tap 12 C` or `preferment at 22 C`",
        &[
            (Place::Log, "room ", "how warm the room was"),
            (Place::Log, "flour at ", "how warm the flour was"),
            (Place::Log, "tap ", "how warm the water came"),
            (Place::Log, "preferment at ", "how warm the preferment was"),
        ],
    ),
    line(
        Rule::log_note_line,
        &[(Bakes, &["note"])],
        "`note`",
        "`note Flour from a new sack.`",
        &[(Place::Log, "note ", "what else was seen")],
    ),
    line(
        Rule::verdict_line,
        &[(Bakes, &["verdict"])],
        "`verdict`",
        "`verdict keep`, `verdict change` or `verdict drop`, with words behind it",
        &[
            (Place::Log, "verdict keep", "the formula stays"),
            (Place::Log, "verdict change", "something is to be changed"),
            (Place::Log, "verdict drop", "the formula is given up"),
        ],
    ),
];
