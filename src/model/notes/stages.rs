//! Stages of a sour: `Stage 1 (5 h at 26 C): rye 20 g, water 30 g`, or the same above a list. Each is a part with its rest, and goes into the
//! next one, the last into the dough.

use super::gathered::Gathered;
use super::item::{NO_UNIT, Read};
use super::measure::holds_amount;
use super::part::main_part;
use super::stage_name::{is_stage, stage};
use super::{Place, Section, ingredient, times, words};

/// A list with what it takes of a stage said in full: `stage 2 + 350 g rye` takes all of it.
fn with_stages(list: &str) -> String {
    let mut whole = String::with_capacity(list.len() + 8);
    for piece in list.split_inclusive([',', '+']) {
        let name = piece.trim_end_matches([',', '+']);
        let before = name.len() - name.trim_start().len();
        let (blanks, rest) = piece.split_at_checked(before).unwrap_or(("", piece));
        whole.push_str(blanks);
        whole.push_str(if is_stage(name.trim()) { "all of " } else { "" });
        whole.push_str(rest);
    }
    whole
}

/// A list, and how long the stage is left where that stands behind it: `20 g rye, 30 g water - 6 h at 26 C`.
fn time_behind(list: &str) -> (&str, &str) {
    let marks = ["; ", " - ", " \u{2013} ", ", "];
    let last = marks.into_iter().filter_map(|mark| list.rfind(mark).map(|at| (at, mark.len()))).max();
    let parted = last.and_then(|(at, length)| Some((list.get(..at)?, list.get(at + length..)?)));
    parted.filter(|(_, tail)| times::durations(tail) > 0 && !holds_amount(tail)).unwrap_or((list, ""))
}

/// A heading and the list behind it, which a colon parts; not the colon of a clock.
fn apart(text: &str) -> (&str, &str) {
    let at = text.match_indices(':').map(|(at, _)| at).find(|at| {
        let behind = text.get(at + 1..).unwrap_or_default();
        behind.is_empty() || behind.starts_with(' ')
    });
    at.and_then(|at| Some((text.get(..at)?, text.get(at + 1..)?)))
        .map_or((text, ""), |(head, list)| (head, list.trim()))
}

/// `rye 100, water 60`: a list of numbers without a unit, which each is marked for.
fn counted(list: &str) -> Option<Vec<Read>> {
    let is_amount = |read: &Vec<Read>| read.iter().all(|one| one.amount.contains(char::is_numeric));
    let bare = |piece: &str| {
        let (_, number) = piece.rsplit_once(' ')?;
        let is_bare =
            number.starts_with(|c: char| c.is_ascii_digit()) && number.chars().all(|c| c.is_ascii_digit() || c == '.');
        let mut read = ingredient::read(&format!("{piece} g"), true).filter(|_| is_bare).filter(is_amount)?;
        for one in &mut read {
            one.amount = one.amount.trim_end_matches(" g").to_owned();
            one.look.push(NO_UNIT.to_owned());
        }
        Some(read)
    };
    let one = |piece: &str| ingredient::read(piece, true).filter(is_amount).or_else(|| bare(piece));
    let all = list.split([',', '+']).map(|piece| one(piece.trim())).collect::<Option<Vec<Vec<Read>>>>()?;
    (all.len() > 1).then(|| all.into_iter().flatten().collect())
}

impl Place<'_> {
    /// Takes a line for a stage of a sour with what goes in behind it or below; whether it is one.
    pub(super) fn heads_a_stage(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        // `stage 3 (all)` in a list takes it.
        let Some((name, rest)) = stage(bare).filter(|_| ingredient::all_of(bare).is_none()) else { return false };
        let (head, list) = apart(rest);
        let (list, behind) = time_behind(list);
        let list = with_stages(list);
        let head = if head.trim().is_empty() { behind } else { head };
        let (next, _) = words::without_mark(self.next(), 0);
        let is_listed = |line: &str| {
            ingredient::has_amount(line)
                || ingredient::all_of(line).is_some()
                || line.to_lowercase().starts_with("all ")
        };
        let read = match list.as_str() {
            "" if is_listed(next) => Vec::new(),
            "" => return false,
            list => {
                let is_list = |_: &Vec<Read>| ingredient::is_list(list) || ingredient::begins_a_list(list);
                match ingredient::read(list, false).filter(is_list).or_else(|| counted(list)) {
                    Some(read) => read,
                    None => return false,
                }
            }
        };
        sheet.part(&name);
        sheet.stages.push((sheet.at, line.to_owned()));
        let marks =
            |c: char| c.is_whitespace() || matches!(c, '-' | '\u{2013}' | '\u{2014}' | ',' | '(' | ')' | ':' | '.');
        let time = head.trim_matches(marks).replace(['(', ')'], " ");
        let has_time = times::durations(&time) > 0;
        if !time.is_empty() {
            sheet.part_remark(bare);
        }
        self.on_heading = (!read.is_empty()).then_some((sheet.at, read.len()));
        sheet.ingredients(read, line);
        if has_time {
            let from = time.find(char::is_numeric).and_then(|at| time.get(at..)).unwrap_or(&time);
            sheet.method(&format!("Leave {from}"), line);
        }
        self.began = true;
        self.section = Section::Ingredients;
        true
    }
}

impl Gathered {
    /// A stage that nothing takes goes into the one behind it, and the last into the dough: that is what stages are. Marked, for nobody says so.
    pub(super) fn chain_stages(&mut self) {
        let stages = std::mem::take(&mut self.stages);
        for (at, (stage, line)) in stages.iter().enumerate() {
            let Some(name) = self.parts.get(*stage).and_then(|part| part.name.clone()) else { continue };
            let is_taken = self.parts.iter().any(|part| part.names.contains(&name));
            let is_stage = |other: usize| stages.iter().any(|(known, _)| *known == other);
            let next = stages.get(at + 1).map(|(next, _)| *next);
            let places: Vec<bool> = (0..self.parts.len()).map(is_stage).collect();
            let behind = || {
                let others = self
                    .parts
                    .iter()
                    .enumerate()
                    .skip(*stage)
                    .filter(|(other, part)| places.get(*other) == Some(&false) && !part.ingredients.is_empty());
                let last = others.map(|(other, _)| other).collect::<Vec<usize>>();
                main_part(&self.parts, |part| {
                    last.iter().any(|at| self.parts.get(*at).is_some_and(|one| std::ptr::eq(one, part)))
                })
            };
            let Some(into) = next.or_else(behind).filter(|_| !is_taken) else { continue };
            self.at = into;
            let mut read = Read { name, amount: "all".to_owned(), ..Read::default() };
            read.look.push("nothing says where this stage goes: into what is made next?".to_owned());
            self.ingredient(read, line);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stage_is_told_from_other_words() {
        let name = |line: &str| stage(line).map(|(name, _)| name);
        for line in [
            "Stage 1 (5-6h @ 26C): rye 20g",
            "Stage 1, 6 h",
            "First stage: rye 20 g",
            "1st stage 6 h at 26 C",
            "STAGE 1",
        ] {
            assert_eq!(name(line).as_deref(), Some("stage 1"), "{line}");
        }
        for line in ["Stages", "Stage fright", "First mix the flour", "Build up", "Stage"] {
            assert_eq!(name(line), None, "{line}");
        }
        assert_eq!(apart(" at 18:00, 5 h: rye 20 g"), (" at 18:00, 5 h", "rye 20 g"));
    }
}
