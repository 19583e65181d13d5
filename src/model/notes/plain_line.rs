//! A line that is no heading by its form: what it may be, asked in one order. The first reading that fits has the line.

use super::divided;
use super::gathered::Gathered;
use super::ingredient;
use super::kinds::{self, Kind};
use super::method;
use super::title;
use super::together;
use super::words;
use super::{Place, Section};

/// One way to read a line: whether it was that. The line as it stands, and without the mark of a list before it.
type Reading<'n> = fn(&mut Place<'n>, &str, &str, &mut Gathered) -> bool;

/// What says more by its form goes before what is told by its words alone: an ingredient is asked for late, since nearly
/// every short line could be one.
fn readings<'n>() -> [Reading<'n>; 20] {
    [
        Place::is_subject,
        Place::is_labelled_note,
        Place::names_more_than_itself,
        Place::weighs_one_piece,
        Place::heads_a_stage,
        Place::says_first_what_it_makes,
        Place::names_and_counts,
        Place::is_numbered_title,
        Place::takes_a_part,
        Place::heads_a_timed_part,
        Place::heads_a_dated_part,
        Place::heads_a_plain_part,
        Place::puts_together,
        Place::tells_what_is_done,
        Place::takes_the_night,
        Place::is_title,
        Place::says_last_what_it_makes,
        Place::names_a_tin,
        Place::lists,
        Place::is_late_title,
    ]
}

impl Place<'_> {
    /// Reads a line of words; what no reading takes is prose, or is kept.
    pub(super) fn words(&mut self, line: &str, bare: &str, sheet: &mut Gathered) {
        if !readings().iter().any(|is_read| is_read(self, line, bare, sheet)) {
            self.prose(line, bare, sheet);
        }
    }

    /// The head of a letter.
    fn is_subject(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        let subject = bare.split_once(": ").filter(|(word, _)| word.eq_ignore_ascii_case("subject"));
        let Some((_, subject)) = subject.filter(|_| !self.began && sheet.title.is_none()) else { return false };
        let mut name = subject.trim();
        let is_answer = |word: &str| ["re", "fw", "fwd"].contains(&word.to_lowercase().as_str());
        while let Some((_, rest)) = name.split_once(':').filter(|(word, _)| is_answer(word)) {
            name = rest.trim();
        }
        sheet.titled(words::name(name), line);
        true
    }

    /// `Note: 500 g flour is 4 cups` lists nothing.
    fn is_labelled_note(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        let lower = bare.to_lowercase();
        let is_labelled = ["note:", "nb:", "n.b.", "tip:", "ps:"].iter().any(|word| lower.starts_with(word));
        if !is_labelled || !bare.contains(' ') {
            return false;
        }
        match self.began {
            true => sheet.note(bare, line),
            false => sheet.head_note(bare, line),
        }
        true
    }

    fn says_first_what_it_makes(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        if self.section == Section::Open
            && !self.began
            && !sheet.says_what_it_makes()
            && let Some(Kind::Makes(makes, look)) = kinds::bare_makes(bare)
        {
            sheet.makes(&makes, look.as_deref(), line);
            return true;
        }
        false
    }

    /// `SEEDED TIN LOAF - 2 x 900 g` above everything.
    fn names_and_counts(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        if self.may_name_the_recipe(bare, sheet)
            && let Some((name, makes, look)) = kinds::with_pieces(bare)
            && (self.below.is_empty() || !ingredient::is_known(name) || kinds::each_weighs(bare).is_some())
        {
            sheet.title = Some(words::name(name));
            sheet.makes(&makes, look.as_deref(), line);
            return true;
        }
        false
    }

    fn is_numbered_title(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        let says_makes = |aside: String| kinds::says_makes(&aside).is_some();
        if !self.may_name_the_recipe(bare, sheet) || kinds::with_aside(bare).1.is_some_and(says_makes) {
            return false;
        }
        let Some(titled) = title::numbered(bare, self.below.is_empty()) else { return false };
        match titled.makes {
            Some(makes) => {
                sheet.title = Some(titled.name);
                sheet.makes(&makes, Some("read from the title"), line);
            }
            None if titled.name == bare && !bare.contains('(') && !title::is_for_so_many(bare) => {
                sheet.title = Some(titled.name)
            }
            None => sheet.titled(titled.name, line),
        }
        true
    }

    fn heads_a_plain_part(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        let (heading, aside) = kinds::with_aside(kinds::behind_day(bare));
        if !self.heads_a_part(heading, aside.as_deref(), sheet) {
            return false;
        }
        sheet.part(heading);
        if kinds::behind_day(bare) != bare {
            sheet.part_remark(bare);
        }
        if let Some(aside) = aside {
            sheet.heading_says(&aside, line);
        }
        self.section = Section::Ingredients;
        true
    }

    /// `To finish: brush with butter while they are warm`, `To finish: 100 g dark chocolate, 12 cherries`.
    fn puts_together(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        let headed = bare.split_once(':').filter(|(heading, told)| {
            self.began
                && self.section != Section::Notes
                && together::is_together(heading)
                && told.split_whitespace().count() > 3
        });
        let Some((heading, told)) = headed else { return false };
        sheet.part(heading);
        let listed = (ingredient::begins_a_list(told) && !method::tells(told)).then(|| ingredient::read(told, true));
        if let Some(mut read) = listed.flatten() {
            if let Some(first) = read.first_mut() {
                first.look.push(format!("`{heading}` is read as a part"));
            }
            sheet.ingredients(read, line);
            self.section = Section::Ingredients;
            return true;
        }
        self.section = Section::Method;
        sheet.method(told.trim(), line);
        true
    }

    fn tells_what_is_done(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        let may_tell = self.began || self.named || sheet.title.is_some() || divided::divided(bare, None).is_some();
        if !may_tell || self.section == Section::Notes || !(method::is_told(bare) || divided::is_told(bare)) {
            return false;
        }
        self.begin_method(sheet);
        sheet.method(bare, line);
        true
    }

    /// `fridge overnight`.
    fn takes_the_night(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        if !self.began || !method::is_overnight(bare) {
            return false;
        }
        self.section = Section::Method;
        sheet.method(bare, line);
        true
    }

    /// `Plum jam` is bought, too; above everything and without an amount it is what is made.
    fn is_title(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        let is_alone = self.below.is_empty();
        let stands_alone = is_alone || bare.starts_with(char::is_uppercase);
        // `Baguette 28.11.` has a date, and no amount.
        let dated = is_alone && ingredient::ends_in_bare_number(bare);
        let amount = ingredient::has_amount(bare) && !dated;
        let title = if dated { bare.trim_end_matches('.') } else { bare };
        let is_one_name = || {
            !bare.contains(',')
                || ingredient::ends_in_bare_number(bare)
                || (is_alone || title::says_what_kind(bare)) && !ingredient::lists_known(bare)
        };
        stands_alone
            && !amount
            && bare.split_whitespace().count() <= 6
            && self.may_name_the_recipe(title, sheet)
            && is_one_name()
            && self.title(line, bare, sheet)
    }

    /// `2 loaves` below what goes in, or below what is done.
    fn says_last_what_it_makes(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        if !bare.ends_with('.')
            && !sheet.says_what_it_makes()
            && let Some(Kind::Makes(makes, look)) = kinds::bare_makes(bare)
            && kinds::is_only_product(bare)
            && !ingredient::is_known(bare.trim_start_matches(|c: char| !c.is_alphabetic()))
        {
            sheet.makes(&makes, look.as_deref(), line);
            return true;
        }
        false
    }

    /// `450g/1lb loaf tin` among what goes in is what it is baked in.
    fn names_a_tin(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        const TINS: [&str; 9] = ["tin", "tins", "tray", "dish", "basin", "pan", "mould", "ring", "banneton"];
        const OF: [&str; 14] = [
            "loaf",
            "cake",
            "bread",
            "pie",
            "baking",
            "tart",
            "flan",
            "roasting",
            "pudding",
            "springform",
            "bundt",
            "pullman",
            "sandwich",
            "roll",
        ];
        let words: Vec<String> = words::all_of(bare.split([',', '(', ';']).next().unwrap_or_default()).collect();
        let is_tin =
            matches!(words.as_slice(), [.., of, tin] if TINS.contains(&tin.as_str()) && OF.contains(&of.as_str()));
        let is_one = is_tin && self.section != Section::Method && words.len() <= 6 && !method::tells(bare);
        if is_one {
            sheet.keep(line, "what it is baked in, and nothing that goes in");
        }
        is_one
    }

    fn lists(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        let prose = self.section == Section::Method && !self.headed && !bare.ends_with(['.', '!']);
        if !prose && !matches!(self.section, Section::Open | Section::Ingredients) {
            return false;
        }
        let Some(mut read) = ingredient::read(bare, self.section == Section::Ingredients) else { return false };
        // `Poolish: 100 g flour, 100 g water` ends with its line: what is listed below a gap, or below several, is of the dough.
        let on_heading = self.on_heading.take().filter(|(part, _)| *part == sheet.at);
        if on_heading.is_some_and(|(_, count)| count > 1 || self.after_gap) {
            let look = sheet.list_of_the_dough().filter(|_| !self.after_gap);
            read.iter_mut().take(1).for_each(|first| first.look.extend(look.clone()));
        }
        if self.after_gap && self.section == Section::Method {
            sheet.list_begins();
        }
        // `Croissant 2,5 kg` above the list of a recipe without a name is what is made, or it is bought: nobody says which.
        let is_first = !self.began && !self.named && sheet.title.is_none();
        if let [only] = read.as_mut_slice()
            && is_first
            && title::is_of_something_baked(&only.name)
        {
            only.look.push("is this the name of what is made, and how much of it?".to_owned());
        }
        self.began = true;
        self.section = Section::Ingredients;
        sheet.ingredients(read, line);
        true
    }

    /// A longer name, where it could be no ingredient either.
    fn is_late_title(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        let short = bare.split_whitespace().count() <= 10 && !bare.ends_with(':');
        short && self.may_name_the_recipe(bare, sheet) && self.title(line, bare, sheet)
    }

    fn prose(&mut self, line: &str, bare: &str, sheet: &mut Gathered) {
        let is_prose = bare.split_whitespace().count() > 3
            || self.section == Section::Method
            || self.section == Section::Notes
            || method::is_heat_and_time(bare);
        match self.section {
            _ if !is_prose => sheet.keep(line, "not understood"),
            // Among what goes in, an amount that was not understood is no step.
            Section::Ingredients if !self.after_gap && bare.contains(char::is_numeric) && !method::tells(bare) => {
                sheet.keep(line, "an amount stands in these words: give it a line, `NAME .... AMOUNT`");
            }
            Section::Method => sheet.method(bare, line),
            Section::Open if !self.began => sheet.head_note(bare, line),
            Section::Notes => sheet.note(bare, line),
            _ => {
                // Prose below the ingredients is what is done with them.
                self.begin_method(sheet);
                sheet.method(bare, line);
            }
        }
    }

    /// What is done begins, without a heading: of all parts where a blank line stands above and nothing was told of any.
    fn begin_method(&mut self, sheet: &mut Gathered) {
        if self.section != Section::Method && self.after_gap && !sheet.tells() {
            sheet.method_of_all();
        }
        self.section = Section::Method;
    }
}
