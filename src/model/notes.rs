//! Notes as people write them to each other, and published recipes, made into a first formula.
//!
//! Nothing is made up: an amount that the notes do not give stays open in the language's own words (`to taste`, `as
//! needed`), and whatever was guessed carries a comment that begins `# look`, with the words of the notes. A line that is
//! not understood stays as such a comment. What is written is read again before it is given out, and a line that the
//! language would not take becomes a comment too; so any text at all gives a file without a stray line.

mod about;
mod acts;
mod amount;
mod apart;
mod bare;
mod bare_list;
mod columns;
mod country;
mod divided;
mod done;
mod drawn;
mod each;
mod entry;
mod footnotes;
mod fruit;
mod full_name;
mod gathered;
mod glued;
mod headed;
mod heat;
mod hint;
mod in_prose;
mod ingredient;
mod item;
mod keeping;
mod kinds;
mod labelled;
mod language;
mod left_out;
mod letter;
mod manner;
mod measure;
mod method;
mod misread;
mod one_line;
mod one_piece;
mod one_unit;
mod packs;
mod part;
mod picked;
mod piece_weight;
mod pieces;
mod plain_line;
mod quoted;
mod recipe_data;
mod separators;
mod share;
mod sheet_head;
mod short;
mod signs;
mod spoken;
mod stage_name;
mod stage_table;
mod stages;
mod sticks;
mod stops;
mod strength;
mod table;
mod taken;
mod times;
mod title;
mod together;
mod unweighed;
mod vague;
mod verbs;
mod words;

use crate::text::hidden::replaced;
use crate::text::line_break;
use gathered::Gathered;
use kinds::Kind;

/// The most lines that are read. Notes are a page; more were given by mistake.
const MOST_LINES: usize = 2000;
/// The longest line that is read as anything but words to keep.
const LONGEST_LINE: usize = 600;

/// So many lines below one are looked at to know what it is.
const BELOW: usize = 6;
/// The longest line in which somebody tells a whole recipe.
const LONGEST_RECIPE: usize = 8000;

/// A first formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Draft {
    /// The recipe's name.
    pub name: String,
    /// The file.
    pub text: String,
    /// What a person has to look at: line of the file, from 1, and why.
    pub review: Vec<(usize, String)>,
}

/// In which form something is written that a formula is made from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// As people write to each other.
    Notes,
    /// Recipe data of schema.org, as JSON.
    Data,
    /// A page that holds such data.
    Page,
}

impl Form {
    /// The form of a text: by the ending of its file's name, else as it begins.
    pub fn of(text: &str, ending: Option<&str>) -> Form {
        match ending.map(str::to_lowercase).as_deref() {
            Some("json" | "jsonld") => return Form::Data,
            Some("html" | "htm" | "xhtml") => return Form::Page,
            _ => {}
        }
        let bare = text.trim_start_matches(|c: char| c.is_whitespace() || c == '\u{FEFF}');
        let begins = |word: &str| bare.get(..word.len()).is_some_and(|start| start.eq_ignore_ascii_case(word));
        let within = |bare: &str| bare.get(1..).unwrap_or("").trim_start().starts_with(['"', '{', '[', '}', ']']);
        if ["<!doctype html", "<html", "<head", "<script", "<!--"].into_iter().any(begins) {
            Form::Page
        } else if bare.starts_with(['{', '[']) && within(bare) && bare.contains('"') {
            Form::Data
        } else {
            Form::Notes
        }
    }
}

/// Makes what is written in a form into a formula, as [`draft`] does.
///
/// # Errors
/// In plain words, when there is no recipe in data or in a page; notes always give one.
pub fn read(text: &str, form: Form, name: Option<&str>, otherwise: &str) -> Result<Draft, String> {
    match form {
        Form::Notes => Ok(draft(text, name, otherwise)),
        Form::Data | Form::Page => recipe_data::draft(text, form, name, otherwise),
    }
}

/// What ends a line besides LF, CRLF and CR: separators of lines and paragraphs, the next-line sign, and tabs and feeds of printers.
const OTHER_BREAKS: [char; 5] = ['\u{2028}', '\u{2029}', '\u{85}', '\u{0B}', '\u{0C}'];

/// The line that begins at a byte, without what ends it.
fn line_at(text: &str, start: usize) -> &str {
    let end = line_break::next(text, start).map_or(text.len(), |(end, _)| end);
    text.get(start..end).unwrap_or("")
}

/// Makes notes into a formula, named `name`, or as the notes say, or `otherwise`.
pub fn draft(notes: &str, name: Option<&str>, otherwise: &str) -> Draft {
    let notes = notes.strip_prefix('\u{FEFF}').unwrap_or(notes);
    let listed = gathered(notes, name, false);
    if !listed.lists_nothing() {
        return listed.finish(otherwise);
    }
    // A formula that is told in prose alone.
    let picked = gathered(notes, name, true);
    if picked.lists_nothing() { listed.finish(otherwise) } else { picked.finish(otherwise) }
}

/// What notes say. `picks`: what their prose weighs is picked out of it.
fn gathered(notes: &str, name: Option<&str>, picks: bool) -> Gathered {
    let mut sheet = Gathered::default();
    sheet.title = name.map(words::name).filter(|name| !name.is_empty());
    let mut place = Place {
        section: Section::Open,
        numbered: 0,
        began: false,
        headed: false,
        named: name.is_some(),
        after_gap: true,
        on_heading: None,
        below: &[],
    };
    let (mut lines, heads) = one_by_one(notes, &mut sheet);
    let first = lines.iter().position(|line| !line.is_empty());
    let is_alone = |at: usize| lines.get(at + 1..).is_some_and(|rest| rest.iter().all(String::is_empty));
    let told = first
        .filter(|_| name.is_none())
        .and_then(|at| one_line::apart(lines.get(at).filter(|line| line.len() <= LONGEST_RECIPE)?, is_alone(at)));
    if let Some((at, told)) = first.zip(told).filter(|_| heads.is_empty()) {
        lines.splice(at..=at, told);
    }
    // A formula that is told in one long paragraph is read sentence by sentence.
    let is_long = |line: &String| line.len() > LONGEST_LINE && line.len() <= LONGEST_RECIPE && !line.contains('|');
    if heads.is_empty() && lines.iter().any(is_long) {
        let each = |line: String| if is_long(&line) { words::in_pieces(&line, LONGEST_LINE) } else { vec![line] };
        lines = lines.into_iter().flat_map(each).collect();
    }
    let mut picked = if picks { picked::out_of(&lines) } else { Vec::new() }.into_iter().peekable();
    let footnotes = footnotes::of(&mut lines);
    for (at, line) in lines.iter().enumerate() {
        if line.is_empty() {
            sheet.gap();
            place.after_gap = true;
            continue;
        }
        // No reading looks further.
        let below = lines.get(at + 1..).unwrap_or_default();
        let below = below.get(..BELOW).unwrap_or(below);
        let end = below.iter().position(String::is_empty).unwrap_or(below.len());
        place.below = below.get(..end).unwrap_or_default();
        if heads.contains(&at) {
            if let Some(title) = table::title(line).filter(|_| sheet.title.is_none()) {
                sheet.title = Some(words::name(title));
            }
            sheet.keep(line, "the head of a table: its units stand behind the numbers below");
            continue;
        }
        if let Some((_, of)) = footnotes.iter().find(|(note, _)| *note == at) {
            sheet.keep(line, &format!("a footnote of `{}`", words::name(of)));
            continue;
        }
        if at >= MOST_LINES || line.len() > LONGEST_LINE {
            sheet.keep(line, "too long to be read");
            continue;
        }
        if let Some((_, read)) = picked.next_if(|(of, _)| *of == at) {
            place.began = true;
            // `Custard: heat 500 ml milk …`.
            if let Some((name, _)) = line.split_once(": ").filter(|(name, _)| kinds::names_a_part(name)) {
                sheet.part(name);
            }
            read.into_iter().for_each(|(read, words)| sheet.ingredients(vec![read], &words));
        }
        place.read(line, &mut sheet);
        place.after_gap = false;
    }
    sheet
}

/// The lines of notes, plain, each with one thing; which of them are heads of tables.
fn one_by_one(notes: &str, sheet: &mut Gathered) -> (Vec<String>, Vec<usize>) {
    let mut lines: Vec<String> = Vec::new();
    for line in line_break::starts(notes).map(|start| line_at(notes, start)) {
        lines.extend(line.split(OTHER_BREAKS).map(str::to_owned));
    }
    for head in letter::opened(&mut lines) {
        sheet.remark(&format!("of the letter, {head}"), None);
    }
    if columns::part(&mut lines) {
        let why = "two columns are read as one list, row by row: do they belong to parts of their own?";
        sheet.remark("each row of the notes has two things beside each other", Some(why));
    }
    quoted::parted(&mut lines);
    let whole = stage_table::below_each_other(&mut lines);
    if !whole.is_empty() {
        let why = "each stage of the table is a part; the column of the whole, which they add up to, is in nothing";
        sheet.remark(&format!("of the whole, {}", whole.join("; ")), Some(why));
    }
    if let Some(head) = sheet_head::in_order(&mut lines) {
        sheet.remark(&format!("the head of the sheet: {}", words::name(&head)), None);
    }
    let table = table::with_units(&mut lines);
    for line in &mut lines {
        *line = plain(&vague::in_full(&replaced(&signs::plain(line), |_| Some('\u{FFFD}'))));
        *line = stops::as_a_list(line);
    }
    let misread = misread::figures(&mut lines);
    if !misread.is_empty() {
        sheet.remark(&misread.join(", "), Some("letters stand where figures are, and are read as such"));
    }
    let language = language::of_notes(&lines);
    // All the other languages that are known have a comma before their decimals.
    separators::settle(&mut lines, language.is_some());
    if !table.pieces.is_empty() {
        sheet.remark(&table.pieces.join(", "), Some("its unit stands over the column, and these are read as pieces"));
    }
    if table.heads.is_empty() {
        labelled::part(&mut lines);
        for (words, doubt) in one_unit::written_out(&mut lines) {
            match doubt {
                None => sheet.remark(&format!("Said once, and read of each number without a unit: {words}"), None),
                Some(why) => sheet.remark(&words, Some(&why)),
            }
        }
        bare_list::below_each_other(&mut lines);
    }
    if let Some(language) = language {
        let words = format!(
            "names stay as they are written, and what is done stays a note: no {language} is understood. Put the names in English, \
             or say in a larder file what each is; until then nothing here knows the flour, the salt or an allergen"
        );
        sheet.remark(&words, Some(&format!("these notes seem to be in {language}")));
    }
    (lines, table.heads)
}

/// What the lines are about just now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Section {
    /// Nothing said it yet.
    Open,
    /// What goes in.
    Ingredients,
    /// What is done.
    Method,
    /// Anything else worth knowing.
    Notes,
}

/// Where the reading stands.
struct Place<'n> {
    section: Section,
    /// The last number of a numbered list.
    numbered: usize,
    /// Whether an ingredient was read.
    began: bool,
    /// Whether a heading said that what is done follows; else only prose did.
    headed: bool,
    named: bool,
    /// Whether a blank line stands above, or nothing.
    after_gap: bool,
    /// The part whose heading had its list on its own line, and how many ingredients that was.
    on_heading: Option<(usize, usize)>,
    /// The lines below, up to a blank one.
    below: &'n [String],
}

/// A line without the marks of a quoted letter, with a plain space for each kind of white space and the usual sign for each kind of dash.
fn plain(line: &str) -> String {
    let mut bare = line.trim();
    while let Some(rest) = bare.strip_prefix('>') {
        bare = rest.trim_start();
    }
    let one = |character: char| match character {
        '\u{2212}' | '\u{2010}' | '\u{2011}' | '\u{FE63}' | '\u{FF0D}' => '-',
        '\u{2012}' | '\u{2015}' => '\u{2013}',
        white if white.is_whitespace() => ' ',
        other => other,
    };
    bare.chars().map(one).collect::<String>().trim().to_owned()
}

impl Place<'_> {
    /// The line right below; nothing where it is blank.
    fn next(&self) -> &str {
        self.below.first().map(String::as_str).unwrap_or_default()
    }

    fn read(&mut self, line: &str, sheet: &mut Gathered) {
        let (bare, number) = words::without_mark(line, self.numbered);
        let bare = &glued::apart(bare);
        self.numbered = number.unwrap_or(self.numbered);
        if bare.is_empty() || !bare.chars().any(char::is_alphanumeric) {
            // A line of dashes, and the one below a table's head, says nothing.
            if line.chars().any(char::is_alphanumeric) {
                sheet.keep(line, "not understood");
            }
            return;
        }
        let kind = kinds::of(line, bare, self.section == Section::Method);
        // `Makes 8. Bake at 200 C for 20 min.`
        if matches!(kind, Kind::Makes(..))
            && let Some((said, told)) = bare.split_once(". ").filter(|(_, told)| method::tells(told))
        {
            self.read(said, sheet);
            self.read(told, sheet);
            return;
        }
        match kind {
            Kind::Ingredients => {
                self.section = Section::Ingredients;
                self.list_says(bare, line, sheet);
            }
            Kind::Method => {
                self.list_says(bare, line, sheet);
                self.section = Section::Method;
                self.headed = true;
                sheet.method_of_all();
            }
            Kind::Notes => self.section = Section::Notes,
            Kind::Part(name, aside)
                if !self.named
                    && sheet.title.is_none()
                    && !self.began
                    && !line.trim_end().ends_with(':')
                    && aside.as_deref().is_none_or(|aside| kinds::says_makes(aside).is_some()) =>
            {
                sheet.title = Some(words::name(&name)).filter(|name| !name.is_empty());
                self.title_makes(aside.as_deref(), line, sheet);
            }
            // `PLUM CHUTNEY (mum's)` above everything is the name, too; `Relish (keeps 2 weeks)` is a part.
            Kind::Part(name, Some(aside))
                if !self.named
                    && sheet.title.is_none()
                    && !self.began
                    && self.after_gap
                    && keeping::keeping(&aside).is_none()
                    && !line.starts_with('#')
                    && name.chars().any(char::is_alphabetic) =>
            {
                sheet.titled(words::name(&name), line);
            }
            Kind::Part(name, aside) => {
                sheet.part(&name);
                if let Some(aside) = aside {
                    sheet.heading_says(&aside, line);
                }
                if self.section != Section::Method {
                    self.section = Section::Ingredients;
                }
            }
            Kind::Makes(makes, look) => sheet.makes(&makes, look.as_deref(), line),
            // Percentages want it: where no flour is listed, it is the flour.
            Kind::Sum if bare.to_lowercase().contains("flour") && !sheet.has_flour() => {
                let flour: Vec<&str> = bare
                    .split_whitespace()
                    .filter(|word| !["total", "weight", "wt"].iter().any(|sum| word.to_lowercase().starts_with(sum)))
                    .collect();
                self.words(line, &flour.join(" "), sheet);
            }
            Kind::Sum => sheet.keep(line, "a figure about the whole, and nothing that goes in"),
            Kind::Words => self.words(line, bare, sheet),
        }
    }
}
