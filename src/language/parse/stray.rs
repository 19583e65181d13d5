//! Problems of lines that fit nothing, in bakers' words.

use super::otherwise::{SaidHere, amount, heading, ingredient, step};
use super::reader::{Reader, shortened};
use super::{Clauses, Rule, words};
use crate::language::no_name::is_outside_names;
use crate::language::syntax::{BookLine, Content, FileKind, Name, Tree};
use crate::measure::unit::{Dimension, Unit};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// The nearest of some words, if one is near enough to be meant.
pub(crate) fn nearest<'w>(word: &str, known: impl IntoIterator<Item = &'w str>) -> Option<&'w str> {
    let length = word.chars().count();
    // One slip in a short word, a third of the letters in a long one.
    let allowed = (length / 3).clamp(1, 4);
    known
        .into_iter()
        // The distance costs the product of the lengths; far-off lengths cannot be near.
        .filter(|candidate| candidate.chars().count().abs_diff(length) <= allowed && length <= 64)
        .map(|candidate| (strsim::osa_distance(word, candidate), candidate))
        .filter(|(distance, _)| *distance <= allowed)
        .min_by_key(|(distance, candidate)| (*distance, *candidate))
        .map(|(_, candidate)| candidate)
}

/// A line that begins with no word that is known here.
pub(super) fn unknown(reader: &mut Reader<'_>, said: Span, word: &str) {
    if condition_first(reader, said) || misspelt_kind(reader, said) || key_with_colon(reader, said, word) {
        return;
    }
    let text = reader.slice(said);
    let is_recipe = reader.kind == FileKind::Recipe;
    let problem = Diagnostic::error(
        "stray-line",
        said,
        format!("this line fits nothing that {} can say", file_noun(reader.kind)),
    );
    let heading = heading::heading(reader.kind, word, text);
    // A slip in a word that a weight follows is one; `cold water 300 g` is an ingredient.
    let of_weight = nearest(word, ["makes", "divide", "loss", "scale"]).is_some();
    if heading.is_none() && !of_weight && misplaced_loss(text).is_none() && without_leader(reader, said) {
        return;
    }
    let meant = || nearest(word, words::first_words(reader.kind));
    let by_shape = || {
        ingredient::described_before(text)
            .or_else(|| ingredient::amount_first(text))
            .or_else(|| ingredient::of_a_little(text))
            .or_else(|| step::no_head(text).filter(|_| meant().is_none_or(|meant| !meant.starts_with(word))))
            .or_else(|| ingredient::without_amount(text))
    };
    let said_here = heading.or_else(|| is_recipe.then(by_shape).flatten());
    let help = if let Some(help) = misplaced_loss(text).filter(|_| is_recipe) {
        help.to_owned()
    } else if let Some(said_here) = said_here {
        report_otherwise(reader, problem, said, said_here);
        return;
    } else if let Some(meant) = meant() {
        format!("did you mean `{meant}`?")
    } else if let Some(other) = other_file(reader.kind, word) {
        format!("`{word}` stands in {}", file_noun(other))
    } else if text.contains(':') && is_recipe {
        "a step reads `NAME: hands TIME`, `NAME: tend TIME` or `NAME: wait TIME`".to_owned()
    } else if is_recipe {
        "an ingredient reads `NAME .... AMOUNT`, with a dotted leader of two dots or more; prose is indented deeper \
         than its step; a comment begins with `# `"
            .to_owned()
    } else {
        format!(
            "{} knows the lines that begin with: {}",
            file_noun(reader.kind),
            words::first_words(reader.kind).collect::<Vec<_>>().join(", ")
        )
    };
    reader.report(problem.help(help));
}

/// The kind of file in which a line that begins with a word would stand.
fn other_file(kind: FileKind, word: &str) -> Option<FileKind> {
    let kinds = [FileKind::Recipe, FileKind::Kitchen, FileKind::Day, FileKind::Book];
    kinds.into_iter().find(|other| *other != kind && words::rule_for(*other, word).is_some())
}

/// Reports `makes: 12 buns`: a word that begins a line has no colon behind it.
fn key_with_colon(reader: &mut Reader<'_>, said: Span, word: &str) -> bool {
    let behind = reader.slice(said).get(word.len()..).and_then(|rest| rest.strip_prefix(':'));
    let is_key = words::rule_for(reader.kind, word).or_else(|| words::rule_anywhere(word)).is_some();
    let Some(behind) = behind.filter(|behind| is_key && !behind.trim().is_empty()) else { return false };
    let colon = said.range().start + word.len();
    let span = Span::new(said.source, colon, colon + 1);
    let blank = if behind.starts_with(char::is_whitespace) { "" } else { " " };
    reader.report(
        Diagnostic::error("stray-line", said, format!("`{word}` has no colon behind it here"))
            .help("leave the colon out")
            .mend("leave the colon out", span, blank),
    );
    true
}

/// Where a loss is said that stands on a line by itself.
fn misplaced_loss(text: &str) -> Option<&'static str> {
    let lower = text.trim_start().to_ascii_lowercase();
    let says = |words: &str| {
        let rest = lower.strip_prefix(words)?.trim_start_matches([':', ' ', '.', '=']);
        rest.starts_with(|c: char| c.is_ascii_digit()).then_some(())
    };
    if says("bake loss").or_else(|| says("baking loss")).or_else(|| says("bake-loss")).is_some() {
        return Some(
            "what is lost in the oven is said in the head, behind what is made: `makes 12 loaves, bake loss 12 %`",
        );
    }
    says("loss").map(
        |()| "a loss is said behind what comes out of it: `divide 12 x 90 g, loss 2 %` or `makes 1500 g, loss 8 %`",
    )
}

/// Reports `[hand] mix: hands 12 min`: for which options a line holds stands at its end.
fn condition_first(reader: &mut Reader<'_>, said: Span) -> bool {
    let text = reader.slice(said);
    let whole = text.trim_end();
    let Some((condition, rest)) = whole.strip_prefix('[').and_then(|rest| rest.split_once(']')) else { return false };
    let rest = rest.trim_start();
    if condition.trim().is_empty() || rest.is_empty() || condition.contains('[') || rest.contains('[') {
        return false;
    }
    let moved = format!("{rest} [{condition}]");
    let start = said.range().start;
    let bracket = Span::new(said.source, start, start + condition.len() + 2);
    let line = Span::new(said.source, start, start + whole.len());
    reader.report(
        Diagnostic::error("stray-line", bracket, format!("`[{}]` stands before its line", shortened(condition)))
            .help("the options for which a line holds stand at its end")
            .mend("write it at the end of the line".to_owned(), line, moved),
    );
    true
}

/// Reports `shape: hand 1 min`, which is a step but for one letter.
fn misspelt_kind(reader: &mut Reader<'_>, said: Span) -> bool {
    let text = reader.slice(said);
    let Some((before, after)) = text.split_once(':').filter(|_| reader.kind == FileKind::Recipe) else { return false };
    let skipped = after.len() - after.trim_start().len();
    let word = words::first_word(after.trim_start());
    let Some(meant) = nearest(&word.to_ascii_lowercase(), ["hands", "tend", "wait"]).filter(|meant| *meant != word)
    else {
        return false;
    };
    let start = said.range().start + before.len() + 1 + skipped;
    let span = Span::new(said.source, start, start + word.len());
    reader.report(
        Diagnostic::error("stray-line", span, format!("`{}` does not say who is busy in this step", shortened(word)))
            .help(format!("did you mean `{meant}`?"))
            .mend(format!("write `{meant}`"), span, meant),
    );
    true
}

/// Reports `salt: 10 g` and `flour 500 g`, which are an ingredient but for the dotted leader.
fn without_leader(reader: &mut Reader<'_>, said: Span) -> bool {
    if !matches!(reader.kind, FileKind::Recipe | FileKind::Bakes) {
        return false;
    }
    let text = reader.slice(said);
    let Some((before, amount)) = text.find(char::is_numeric).and_then(|at| text.split_at_checked(at)) else {
        return false;
    };
    let joints = |c: char| c.is_whitespace() || matches!(c, ':' | ',' | '=' | '-' | '.' | '\u{2026}' | '|');
    let name = before.trim_end_matches(joints);
    let figure = amount.trim_start_matches(|c: char| c.is_numeric() || matches!(c, '.' | ',' | '/'));
    let unit = figure.trim_start();
    let word = unit.split(|c: char| !c.is_alphabetic()).next().unwrap_or_default();
    let is_weight = |unit: Unit| matches!(unit.dimension(), Dimension::Mass | Dimension::Volume);
    let length = if unit.starts_with('%') {
        Some(1)
    } else {
        Unit::from_word(word).filter(|unit| is_weight(*unit)).map(|_| word.len())
    };
    // What goes on behind the amount is prose, or a second amount.
    let ends = length.and_then(|length| unit.get(length..)).is_some_and(|rest| {
        let rest = rest.trim_start();
        rest.is_empty() || rest.starts_with([',', '['])
    });
    let words: Vec<String> = name.split_whitespace().map(str::to_lowercase).collect();
    let is_name = name.len() < before.len()
        && before.ends_with(|c: char| c.is_whitespace() || c == ':' || c == '=')
        && name.chars().all(|c| c.is_alphanumeric() || matches!(c, ' ' | '-' | '\''))
        && (1..=4).contains(&words.len())
        && ![words.first(), words.last()].into_iter().flatten().any(|word| is_outside_names(word));
    if !ends || !is_name {
        return false;
    }
    let start = said.range().start + name.len();
    let gap = Span::new(said.source, start, said.range().start + before.len());
    reader.report(
        Diagnostic::error("stray-line", said, format!("`{}` has no leader before its amount", shortened(name)))
            .help("an ingredient reads `NAME .... AMOUNT`, with a dotted leader of two dots or more")
            .suggest(format!("write `{} .... `", shortened(name)), gap, " .... ".to_owned()),
    );
    true
}

/// A name without the mark of a list before it; that is reported.
pub(super) fn without_bullet(reader: &mut Reader<'_>, name: Name) -> Name {
    let written = reader.slice(name.span);
    let mark = ingredient::bullet(written);
    if mark == 0 {
        return name;
    }
    let (source, range) = (name.span.source, name.span.range());
    let span = Span::new(source, range.start, range.start + mark);
    reader.report(
        Diagnostic::error("stray-line", span, format!("`{}` marks no ingredient here", reader.slice(span).trim_end()))
            .help("each line is one: leave the mark out")
            .mend("leave the mark out", span, ""),
    );
    Name::new(written.get(mark..).unwrap_or(written), Span::new(source, span.range().end, range.end))
}

fn file_noun(kind: FileKind) -> &'static str {
    match kind {
        FileKind::Recipe => "a recipe",
        FileKind::Kitchen => "a kitchen or larder",
        FileKind::Day => "a day",
        FileKind::Bakes => "a log of bakes",
        FileKind::Book => "a book",
    }
}

/// Reports what is written otherwise, and what to write in its place.
fn report_otherwise(reader: &mut Reader<'_>, problem: Diagnostic, span: Span, said_here: SaidHere) {
    let problem = problem.help(said_here.help);
    reader.report(match said_here.instead {
        Some(instead) => problem.suggest(format!("write `{}`", shortened(&instead)), span, instead),
        None => problem,
    });
}

/// A line whose first word is known but whose rest is not what follows it.
pub(super) fn unreadable(reader: &mut Reader<'_>, said: Span, rule: Rule, stopped_at: usize) {
    let (what, form) = words::form_of(rule);
    let stop = u32::try_from(stopped_at).unwrap_or(said.end).clamp(said.start, said.end);
    let stopped = Span { start: stop, ..said };
    let whole = reader.slice(stopped);
    let left = shortened(whole);
    let said_here = match rule {
        Rule::ingredient_line => amount::without_number(whole),
        Rule::step_line => step::without_time(whole),
        _ => None,
    };
    if let Some(said_here) = said_here {
        let problem = Diagnostic::error("stray-line", stopped, format!("{what} cannot go on with `{left}`"));
        report_otherwise(reader, problem, stopped, said_here);
        return;
    }
    let (span, label) = if left.trim().is_empty() {
        (said, "something is missing at the end".to_owned())
    } else {
        (stopped, "reading stopped here".to_owned())
    };
    let message = if left.trim().is_empty() {
        format!("{what} is not complete")
    } else {
        format!("{what} cannot go on with `{left}`")
    };
    reader.report(Diagnostic::error("stray-line", span, message).label(label).help(format!("it reads {form}")));
}

/// A line below a step that is an ingredient or a step itself.
pub(super) fn swallowed(reader: &mut Reader<'_>, said: Span, what: &str) {
    reader.report(
        Diagnostic::error("stray-line", said, format!("this looks like {what}, but stands as prose below a step"))
            .label("indented deeper than the step above")
            .help("take the indentation away; if it is prose, write it without the leader or the colon"),
    );
}

/// A line deeper than a text that is no words of it.
pub(super) fn swallowed_in_text(reader: &mut Reader<'_>, said: Span, what: &str) {
    reader.report(
        Diagnostic::error("stray-line", said, format!("this looks like {what}, but stands in the text above"))
            .label("indented deeper than the line above")
            .help("take the indentation away; a picture stands in the head, in a part, or below a step"),
    );
}

/// A word that is none of the three measures.
pub(super) fn unknown_measures(reader: &mut Reader<'_>, name: &Name) {
    reader.report(
        Diagnostic::error("which-cup", name.span, format!("`{}` is not a set of measures", shortened(&name.text)))
            .help("write `US`, `metric` or `imperial`"),
    );
}

/// The same clause a second time.
pub(super) fn said_twice(reader: &mut Reader<'_>, span: Span, what: &str) {
    reader
        .report(Diagnostic::error("twice-named", span, format!("{what} is said twice on this line")).help("keep one"));
}

/// Reports `600 g + 50 g`, `100 g plus 20 g for the tins` and `600 g .... 60 %`: a comma would take the second amount out of every sum.
fn second_amount(reader: &mut Reader<'_>, span: Span, after: Span) -> bool {
    let (whole, first) = (reader.slice(span), shortened(reader.slice(after)));
    let text = shortened(whole);
    let begins_with_figure = |text: &str| text.trim_start().starts_with(|c: char| c.is_numeric());
    let added =
        ["+", "plus ", "and ", "& "].iter().any(|word| whole.strip_prefix(word).is_some_and(begins_with_figure));
    let other = whole.trim_start_matches(['.', '…', ' ', '/', '|', '(']);
    let said_again = other.len() < whole.len() && begins_with_figure(other);
    let message = format!("`{text}` is a second amount behind `{first}`");
    let problem = Diagnostic::error("stray-line", span, message);
    let problem = if let Some(one) = in_two_units(&first, whole).filter(|_| added) {
        problem.help(format!("an amount in two units has none between them: `{one}`"))
    } else if added {
        problem.help("a line has one amount: add the two up, or give the second a line of its own")
    } else if said_again {
        problem.help(format!(
            "where both say the same, write `{first} = {}`; else give the second a line of its own",
            other.trim_end_matches(')')
        ))
    } else {
        return false;
    };
    reader.report(problem);
    true
}

/// `1 cup 2 tbsp` for `1 cup + 2 tbsp`: the second in another unit of what the first measures.
fn in_two_units(first: &str, added: &str) -> Option<String> {
    let second = added.trim_start_matches(|c: char| !c.is_numeric());
    let unit = |text: &str| text.rsplit_once(' ').and_then(|(_, word)| Unit::from_word(word));
    let (one, two) = (unit(first)?, unit(second)?);
    (one != two && one.dimension() == two.dimension()).then(|| format!("{first} {second}"))
}

/// Reports `12 oz.`, a point behind a unit.
fn point_behind(reader: &mut Reader<'_>, span: Span, after: Span) -> bool {
    let text = reader.slice(span);
    let all = Span { start: after.end, ..span };
    if text == "." {
        let problem = Diagnostic::error("stray-line", span, "a unit has no point behind it");
        reader.report(problem.help("leave the point out").mend("leave the point out", all, ""));
        return true;
    }
    false
}

/// Words between the amount and the next comma.
pub(super) fn wants_comma(reader: &mut Reader<'_>, span: Span, after: Span) {
    if point_behind(reader, span, after) || second_amount(reader, span, after) {
        return;
    }
    let text = shortened(reader.slice(span));
    let gap = Span { start: after.end, ..span };
    if let Some(said_here) = amount::behind_amount(reader.slice(after), reader.slice(span).trim_end()) {
        let problem = Diagnostic::error("stray-line", span, format!("`{text}` stands behind the amount"));
        report_otherwise(reader, problem, gap, said_here);
        return;
    }
    // Behind the comma the other way to say the amount would be read as words.
    if let Some((how, other)) = reader.slice(span).trim_end().split_once('=')
        && !how.trim().is_empty()
    {
        let amount = format!(" = {}, {}", other.trim(), how.trim());
        let message = format!("`{text}` stands behind the amount");
        let problem = Diagnostic::error("stray-line", span, message)
            .help(format!("write `{}{amount}`", shortened(reader.slice(after))));
        reader.report(problem.suggest("put the other way to say it before the words", gap, amount.as_str()));
        return;
    }
    let problem = Diagnostic::error("stray-line", span, format!("`{text}` stands behind the amount without a comma"))
        .help(format!("write `{}, {text}`", shortened(reader.slice(after))));
    let gap = Span { start: after.end, end: span.start, ..span };
    // What hangs on the amount without a blank, as in `1_000 g`, may belong to the number; and where a figure stands behind it, as in
    // `200 g plus 50 g`, it may belong to the amount, which a comma would take from it in silence.
    let has_figure = text.contains(|c: char| c.is_numeric());
    let is_apart = gap.start < gap.end && text.starts_with(char::is_alphabetic) && !has_figure;
    reader.report(match is_apart {
        true => problem.mend("put a comma before it", gap, ", "),
        false => problem.suggest("put a comma before it", gap, ", "),
    });
}

/// `60-65 %` where one amount is computed with.
pub(super) fn range_as_amount(reader: &mut Reader<'_>, span: Span) {
    let text = reader.slice(span);
    reader.report(
        Diagnostic::error("wrong-kind", span, format!("`{text}` is a range; a formula is computed with one amount"))
            .help("write one amount, that which is weighed first, and say in a step how it may be adjusted"),
    );
}

/// Words between the time of a step and the next comma.
pub(super) fn behind_time(reader: &mut Reader<'_>, span: Span, after: Span) {
    let text = reader.slice(span).trim_end();
    let Some(said_here) = step::clause(text.trim_start_matches(['-', '–', '(', ' ']).trim_end_matches(')')) else {
        wants_comma(reader, span, after);
        return;
    };
    let said_here = SaidHere { instead: said_here.instead.map(|clause| format!(", {clause}")), ..said_here };
    let message = format!("`{}` stands behind the time", shortened(text));
    let gap = Span { start: after.end, ..span };
    report_otherwise(reader, Diagnostic::error("stray-line", span, message), gap, said_here);
}

/// `1:30` and `30'` for a time. Reports it and says so.
pub(super) fn clock_for_time(reader: &mut Reader<'_>, time: Span, glued: Span) -> bool {
    let Some(meant) = step::clock_for_time(reader.slice(time), reader.slice(glued).trim()) else { return false };
    let span = Span { end: glued.end, ..time };
    let message = format!("`{}` is no time here", shortened(reader.slice(span).trim_end()));
    reader.report(Diagnostic::error("wrong-kind", span, message).help(format!("write `{meant}`")).suggest(
        format!("write `{meant}`"),
        span,
        meant,
    ));
    true
}

/// A clause that a step does not have.
pub(super) fn unknown_step_clause(reader: &mut Reader<'_>, span: Span) {
    let known = Clauses::Step.forms();
    let first = words::first_word(reader.slice(span)).to_ascii_lowercase();
    let is_slip =
        nearest(&first, known.iter().map(|form| words::first_word(form)).filter(|word| *word != first)).is_some();
    match step::clause(reader.slice(span)).filter(|_| !is_slip) {
        Some(said_here) => {
            let quoted = shortened(reader.slice(span));
            let problem =
                Diagnostic::error("stray-line", span, format!("`{quoted}` is not something that can be said here"));
            report_otherwise(reader, problem, span, said_here);
        }
        None => unknown_clause(reader, span, &known),
    }
}

/// A clause that nothing is known about.
pub(super) fn unknown_clause(reader: &mut Reader<'_>, span: Span, known: &[&str]) {
    let text = reader.slice(span);
    let quoted = shortened(text);
    // The word is there, and what it takes is not.
    let word = |text: &str| text.trim_end_matches([' ', ':']).to_ascii_lowercase();
    let said = word(text);
    let is_begun = |form: &&&str| !said.is_empty() && word(words::words_of(form)) == said;
    let begun: Vec<&str> = known.iter().filter(is_begun).copied().collect();
    if !begun.is_empty() {
        let problem = Diagnostic::error("stray-line", span, format!("`{quoted}` is not complete"));
        let problem = problem.label("something is missing behind it").help(format!("it reads {}", begun.join("; or ")));
        return reader.report(problem);
    }
    let problem = Diagnostic::error("stray-line", span, format!("`{quoted}` is not something that can be said here"));
    let first = words::first_word(text).to_ascii_lowercase();
    let first_words = known.iter().map(|form| form.split(' ').next().unwrap_or(form));
    let help = match nearest(&first, first_words.filter(|word| *word != first)) {
        Some(meant) => format!("did you mean `{meant}`? Known here: {}", known.join("; ")),
        None => format!("known here: {}", known.join("; ")),
    };
    reader.report(problem.help(help));
}

/// A file without its first line.
pub(super) fn check_head(tree: &Tree, text: &str, diagnostics: &mut Vec<Diagnostic>) {
    let first = tree.lines.iter().find(|line| !matches!(line.content, Content::Blank | Content::Comment));
    let span = first.map_or(Span::new(tree.source, 0, 0), |line| line.said);
    let titled = first.is_some_and(|line| match &line.content {
        Content::Recipe(_) | Content::Kitchen(_) | Content::Day(_) | Content::IngredientBlock(_) => true,
        Content::OfBook(line) => matches!(**line, BookLine::Title(_)),
        _ => false,
    });
    if titled {
        return;
    }
    // `recipe` alone was already reported as incomplete.
    let word = words::first_word(text.get(span.range()).unwrap_or(""));
    if words::is_title(word) || tree.kind == FileKind::Book {
        return;
    }
    let problem = if first.is_none() {
        Diagnostic::error("no-title", span, "the file says nothing").help("a recipe begins with `recipe NAME`")
    } else {
        Diagnostic::error("no-title", span, "the file does not say what it is").help(
            "write `recipe NAME`, `kitchen NAME`, `ingredient NAME`, `day NAME`, `book NAME` or `bakes of \"PATH\"` above this line",
        )
    };
    diagnostics.push(problem);
}
