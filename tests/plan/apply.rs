//! Does to the files of a day what a message says would help, as somebody who reads it would.

use super::random_days::Files;
use jiff::civil::DateTime;

/// Files as changed, and by how many minutes work begins sooner.
pub struct Mended {
    pub files: Files,
    pub sooner: i64,
}

/// Does what one way out of a message says; what it did not understand where it cannot. What a message of one order says is of steps of
/// that order's recipe, `of`, and of what that uses.
pub fn apply(files: &Files, way: &str, of: Option<&str>) -> Result<Mended, String> {
    let others = |(_, text): &&(String, String)| {
        of.is_some_and(|of| {
            text.starts_with("recipe ") && !text.starts_with(&format!("recipe {of}\n")) && !is_used(files, of, text)
        })
    };
    let (away, kept): (Files, Files) = files.iter().cloned().partition(|file| others(&file));
    let mut mended = apply_to(&kept, way)?;
    // The day stands last.
    mended.files.splice(0..0, away);
    Ok(mended)
}

/// Whether the recipe of that name uses the file with a text.
fn is_used(files: &Files, of: &str, text: &str) -> bool {
    let user = files.iter().find(|(_, user)| user.starts_with(&format!("recipe {of}\n")));
    let file = files.iter().find(|(_, other)| other == text);
    user.zip(file).is_some_and(|((_, user), (name, _))| user.contains(&format!("use \"{name}\"")))
}

fn apply_to(files: &Files, way: &str) -> Result<Mended, String> {
    let mut mended = Mended { files: files.clone(), sooner: 0 };
    // `let X go on …, and let Y go on …` are two changes at once.
    for term in way.split("`, and ") {
        one(&mut mended, term).ok_or_else(|| term.to_owned())?;
    }
    Ok(mended)
}

/// The same figure one minute less; `None` where the way has no length in minutes.
pub fn a_minute_less(way: &str) -> Option<String> {
    let figures = ["`up to ", "`may stand ", "(`keeps ", "`within "];
    let (figure, at) = figures.iter().find_map(|figure| Some((figure, way.find(figure)? + figure.len())))?;
    let end = at + way[at..].find('`')?;
    let less = minutes(&way[at..end])? - 1;
    let _ = figure;
    (less > 0 && !way.contains("`, and ")).then(|| format!("{}{less} min{}", &way[..at], &way[end..]))
}

fn one(mended: &mut Mended, way: &str) -> Option<()> {
    let files = &mut mended.files;
    let between = |before: &str, after: &str| {
        let at = way.find(before)? + before.len();
        Some(way[at..at + way[at..].find(after).unwrap_or(way.len() - at)].to_owned())
    };
    let quoted = |before: &str| between(&format!("`{before}"), "`");
    let steps = || named(way);
    let rest = |prefix: &str| way.strip_prefix(prefix);
    if let Some(up_to) = quoted("up to ") {
        return clause(files, steps().first()?, "up to", &up_to);
    }
    if let Some(stands) = quoted("may stand ") {
        return clause(files, steps().first()?, "may stand", &stands);
    }
    if let Some(keeps) = quoted("keeps ") {
        return part_line(files, steps().first()?, "keeps ", &keeps);
    }
    if let Some(within) = quoted("within ") {
        let (first, then) = (steps().first()?.clone(), steps().get(1)?.clone());
        let after = first.step.clone();
        return on_line(files, &then, |line| {
            line.split(", ")
                .map(|clause| match clause.ends_with(&format!("after {after}")) && clause != format!("after {after}") {
                    true => format!("within {within} after {after}"),
                    false => clause.to_owned(),
                })
                .collect::<Vec<String>>()
                .join(", ")
        });
    }
    if let Some(count) = quoted("each, ") {
        return on_line(files, steps().last()?, |line| line.replace(", each", &format!(", each, {count}")));
    }
    if let Some(at_once) = quoted(", ").filter(|_| way.starts_with("make as much")) {
        let behind = way.split("` behind ").nth(1)?;
        for step in named(behind) {
            on_line(files, &step, |line| {
                let kept = line.split(", ").filter(|clause| !clause.ends_with("at a time"));
                format!("{}, {at_once}", kept.collect::<Vec<&str>>().join(", "))
            })?;
        }
        return Some(());
    }
    if way.contains("`shared by 2`") {
        if let Some(cooks) = quoted("cooks ") {
            kitchen(files, "cooks ", &format!("cooks {cooks}"))?;
        }
        if let Some(like) = between("with the hours of ", "\n") {
            another_cook(files, &like, 1)?;
        }
        return on_line(files, steps().first()?, |line| format!("{line}, shared by 2"));
    }
    if let Some(equipment) = rest("add another: `").or(rest("have more of it: `")) {
        let (name, count) = equipment.trim_end_matches('`').rsplit_once(" x ")?;
        let line = lines(files, "kitchen.miche").find(|line| line.starts_with(&format!("{name} x ")))?.to_owned();
        let clauses = line.split_once(',').map(|(_, clauses)| format!(",{clauses}")).unwrap_or_default();
        return kitchen(files, &format!("{name} x "), &format!("{name} x {count}{clauses}"));
    }
    if way.starts_with("work with ") {
        let cooks = quoted("cooks ")?;
        return kitchen(files, "cooks ", &format!("cooks {cooks}"));
    }
    if way.contains("`cook` there with the hours of ") {
        let like = between("with the hours of ", "\n")?;
        let many = if way.starts_with("have one more") { 1 } else { rest("have ")?.split(' ').next()?.parse().ok()? };
        return another_cook(files, &like, many);
    }
    if let Some(at) = rest("open at ") {
        let old = lines(files, "kitchen.miche").find(|line| line.starts_with("open "))?.to_owned();
        return kitchen(files, "open ", &format!("open {at}-{}", old.split_once('-')?.1));
    }
    if let Some(at) = rest("close at ") {
        let old = lines(files, "kitchen.miche").find(|line| line.starts_with("open "))?.to_owned();
        return kitchen(files, "open ", &format!("{}-{at}", old.split_once('-')?.0));
    }
    for (says, is_start) in [(" come at ", true), (" stay until ", false)] {
        if let Some((name, at)) = rest("let ").and_then(|rest| rest.split_once(says)).filter(|_| !way.contains('`')) {
            let (at, with_kitchen) = at.split_once(", and ").map_or((at, false), |(at, _)| (at, true));
            if with_kitchen {
                let open = lines(files, "kitchen.miche").find(|line| line.starts_with("open "))?.to_owned();
                let (opens, closes) = open.strip_prefix("open ")?.split_once('-')?;
                let open = if is_start { format!("open {at}-{closes}") } else { format!("open {opens}-{at}") };
                kitchen(files, "open ", &open)?;
            }
            let line = lines(files, "kitchen.miche").find(|line| line.starts_with(&format!("cook {name} ")))?;
            let (hours, clauses) = line.split_once(',').map_or((line, ""), |(hours, clauses)| (hours, clauses));
            let (from, to) = hours.rsplit_once(' ')?.1.split_once('-')?;
            let hours = if is_start { format!("{at}-{to}") } else { format!("{from}-{at}") };
            let kept = clauses.split(", ").filter(|clause| !clause.is_empty() && !clause.trim().starts_with("longest"));
            let kept: String = kept.map(|clause| format!(", {}", clause.trim())).collect();
            let line = format!("cook {name} {hours}{kept}");
            return kitchen(files, &format!("cook {name} "), &line);
        }
    }
    if let Some(longest) = quoted("longest ") {
        let known = lines(files, "kitchen.miche").any(|line| line.starts_with("longest "));
        if known {
            return kitchen(files, "longest ", &format!("longest {longest}"));
        }
        text(files, "kitchen.miche")?.push_str(&format!("longest {longest}\n"));
        return Some(());
    }
    if let Some(sooner) = rest("begin ") {
        mended.sooner = minutes(sooner.split(" sooner").next()?)?;
        return Some(());
    }
    if let Some(later) = rest("be ready ") {
        let by = minutes(later.split(" later").next()?)?;
        return wanted_later(files, by, &|_| true);
    }
    if let Some((order, sooner)) = rest("want the ").and_then(|rest| rest.split_once(" sooner, at ")) {
        let (order, by) = order.rsplit_once("` ")?;
        let (at, by) = (order_line(files, &format!("the {order}`"))?, minutes(by)?);
        let usual = lines(files, "day.miche").find_map(|line| line.strip_prefix("ready "))?.to_owned();
        let day = text(files, "day.miche")?;
        let line = day.lines().nth(at)?.to_owned();
        let (asked, ready) = line.split_once(", ready ").unwrap_or((&line, &usual));
        let due: DateTime = ready.get(..16)?.replace(' ', "T").parse().ok()?;
        let then = due - jiff::Span::new().minutes(by);
        let then = then.strftime("%Y-%m-%d %H:%M").to_string();
        if !sooner.starts_with(then.get(11..)?) {
            return None;
        }
        *day = day.replacen(&line, &format!("{asked}, ready {then}"), 1);
        return Some(());
    }
    if let Some(later) = rest("want `") {
        let (recipe, later) = later.split_once("` ")?;
        let by = minutes(later.split(" later").next()?)?;
        // The clock says which of several orders of one recipe.
        let at: String = later.split_once(", at ")?.1.chars().take(5).collect();
        let file = file_of(files, recipe)?;
        return wanted_later(files, by, &|(line, when)| {
            line.contains(&format!("\"{file}\""))
                && (when + jiff::Span::new().minutes(by)).strftime("%H:%M").to_string() == at
        });
    }
    if let Some(order) = rest("leave out ") {
        let at = order_line(files, order)?;
        *text(files, "day.miche")? = without_line(text(files, "day.miche")?, at);
        return Some(());
    }
    let of_several =
        rest("make ").and_then(|rest| rest.split_once(" doughs, ").or_else(|| rest.split_once(" batches, ")));
    if let Some((order, doughs)) = of_several {
        return in_doughs(files, order, doughs);
    }
    if let Some((few, order)) = rest("make ").and_then(|rest| rest.split_once(" of the ")) {
        let at = order_line(files, order)?;
        let day = text(files, "day.miche")?;
        let line = day.lines().nth(at)?.to_owned();
        let many = line.split(' ').nth(1)?;
        let fewer = line.replacen(&format!("make {many}"), &format!("make {few}"), 1);
        *day = day.replacen(&line, &fewer, 1);
        return Some(());
    }
    if way.starts_with("put a rest that may go on over night") {
        let step = steps().into_iter().find(|step| step.step != "up to")?;
        let mut found = false;
        for (_, text) in files.iter_mut() {
            *text = with_steps(text, &step, |line| {
                found = true;
                format!("{line}\nstand by: wait 1 min, up to 30 h")
            });
        }
        return found.then_some(());
    }
    if let Some(longer) = rest("let ").filter(|rest| rest.contains(" last ")) {
        let by = minutes(longer.rsplit_once(" last ")?.1.strip_suffix(" longer")?)?;
        return on_line(files, steps().first()?, |line| later_first_time(line, by));
    }
    if let Some(sooner) = rest("do ").and_then(|rest| rest.strip_suffix(" sooner")) {
        let by = minutes(sooner.rsplit_once("` ")?.1)?;
        return on_line(files, steps().first()?, |line| moments_sooner(line, by));
    }
    None
}

/// A step as a message names it.
#[derive(Clone)]
struct Named {
    step: String,
    part: Option<String>,
    recipe: Option<String>,
}

/// The steps that stand in quotation marks, each with its part and recipe.
fn named(way: &str) -> Vec<Named> {
    let pieces: Vec<&str> = way.split('`').collect();
    let mut steps: Vec<Named> = Vec::new();
    for (at, piece) in pieces.iter().enumerate().filter(|(at, _)| at % 2 == 1) {
        let belongs = at > 1 && pieces[at - 1] == " of ";
        match steps.last_mut() {
            Some(step) if belongs && step.part.is_none() => step.part = Some((*piece).to_owned()),
            Some(step) if belongs => step.recipe = Some((*piece).to_owned()),
            _ => steps.push(Named { step: (*piece).to_owned(), part: None, recipe: None }),
        }
    }
    steps
}

fn text<'f>(files: &'f mut Files, name: &str) -> Option<&'f mut String> {
    files.iter_mut().find(|(file, _)| file == name).map(|(_, text)| text)
}

fn lines<'f>(files: &'f Files, name: &str) -> impl Iterator<Item = &'f str> {
    files.iter().filter(move |(file, _)| file == name).flat_map(|(_, text)| text.lines())
}

fn file_of(files: &Files, recipe: &str) -> Option<String> {
    let title = format!("recipe {recipe}");
    files.iter().find(|(_, text)| text.lines().next() == Some(title.as_str())).map(|(file, _)| file.clone())
}

/// Puts another line in place of the one in the kitchen's file that begins so, or at its end.
fn kitchen(files: &mut Files, begins: &str, line: &str) -> Option<()> {
    let text = text(files, "kitchen.miche")?;
    if !text.lines().any(|line| line.starts_with(begins)) {
        text.push_str(&format!("{line}\n"));
        return Some(());
    }
    let lines = text.lines().map(|old| if old.starts_with(begins) { line } else { old });
    *text = lines.map(|line| format!("{line}\n")).collect();
    Some(())
}

fn another_cook(files: &mut Files, like: &str, many: usize) -> Option<()> {
    let line = lines(files, "kitchen.miche").find(|line| line.starts_with(&format!("cook {like} ")))?.to_owned();
    for number in 0..many {
        let another = line.replacen(&format!("cook {like} "), &format!("cook Another{number} "), 1);
        text(files, "kitchen.miche")?.push_str(&format!("{another}\n"));
    }
    Some(())
}

/// A text with the head lines of a step changed.
fn with_steps(text: &str, step: &Named, mut change: impl FnMut(&str) -> String) -> String {
    let title = text.lines().next().and_then(|line| line.strip_prefix("recipe ")).unwrap_or_default().to_owned();
    let mut part = title.clone();
    let mut lines: Vec<String> = Vec::new();
    for line in text.lines() {
        if let Some(name) = line.strip_prefix("part ") {
            part = name.to_owned();
        }
        let is_here =
            step.part.as_ref().is_none_or(|of| *of == part) && step.recipe.as_ref().is_none_or(|of| *of == title);
        let is_step = is_here && line.starts_with(&format!("{}: ", step.step));
        lines.push(if is_step { change(line) } else { line.to_owned() });
    }
    lines.join("\n") + "\n"
}

fn on_line(files: &mut Files, step: &Named, change: impl Fn(&str) -> String) -> Option<()> {
    let mut found = 0;
    for (_, text) in files.iter_mut() {
        *text = with_steps(text, step, |line| {
            found += 1;
            change(line)
        });
    }
    (found == 1).then_some(())
}

/// A clause of a step with a time, in place of the one that it has.
fn clause(files: &mut Files, step: &Named, clause: &str, time: &str) -> Option<()> {
    on_line(files, step, |line| {
        let kept = line.split(", ").filter(|old| !old.starts_with(&format!("{clause} ")));
        format!("{}, {clause} {time}", kept.collect::<Vec<&str>>().join(", "))
    })
}

/// A line of the part in which a step is that begins so gets another time.
fn part_line(files: &mut Files, step: &Named, begins: &str, time: &str) -> Option<()> {
    for (_, text) in files.iter_mut() {
        let mut has_step = false;
        with_steps(text, step, |line| {
            has_step = true;
            line.to_owned()
        });
        if has_step {
            let lines = text.lines().map(|line| match line.strip_prefix(begins) {
                Some(old) => {
                    let how = old.split_once(',').map(|(_, how)| format!(",{how}")).unwrap_or_default();
                    format!("{begins}{time}{how}\n")
                }
                None => format!("{line}\n"),
            });
            *text = lines.collect();
            return Some(());
        }
    }
    None
}

/// The step's own time made longer.
fn later_first_time(line: &str, by: i64) -> String {
    let (head, clauses) = line.split_once(", ").map_or((line, None), |(head, clauses)| (head, Some(clauses)));
    let Some((kind, time)) = head.split_once("wait ") else { return line.to_owned() };
    let head = format!("{kind}wait {} min", minutes(time).unwrap_or(0) + by);
    clauses.map_or(head.clone(), |clauses| format!("{head}, {clauses}"))
}

/// `20 and 40 min into bulk` so much sooner.
fn moments_sooner(line: &str, by: i64) -> String {
    let sooner = |clause: &str| {
        let words = clause.split(' ').map(|word| word.parse::<i64>().map_or(word.to_owned(), |n| (n - by).to_string()));
        words.collect::<Vec<String>>().join(" ")
    };
    let clauses = line.split(", ").map(|one| if one.contains(" into ") { sooner(one) } else { one.to_owned() });
    clauses.collect::<Vec<String>>().join(", ")
}

/// Puts off what is wanted, of the orders that are meant.
fn wanted_later(files: &mut Files, by: i64, is_meant: &dyn Fn((&str, DateTime)) -> bool) -> Option<()> {
    let day = text(files, "day.miche")?;
    let when = |line: &str| -> Option<DateTime> {
        let said = line.split("ready ").nth(1)?;
        said.get(..16)?.replace(' ', "T").parse().ok()
    };
    let all = day.lines().find(|line| line.starts_with("ready ")).and_then(when)?;
    let mut found = false;
    let lines: Vec<String> = day
        .lines()
        .map(|line| {
            if !line.starts_with("make ") {
                return line.to_owned();
            }
            let old = when(line).unwrap_or(all);
            let is_meant = is_meant((line, old));
            found |= is_meant;
            let by = if is_meant { by } else { 0 };
            let said = (old + jiff::Span::new().minutes(by)).strftime("%Y-%m-%d %H:%M").to_string();
            let order = line.split(", ready ").next().unwrap_or(line);
            format!("{order}, ready {said}")
        })
        .collect();
    *day = lines.join("\n") + "\n";
    found.then_some(())
}

/// The number of the day's line with an order that is told as `24 loaves of `Loaf 0``, or `the 24 loaves … for 09:00 on Saturday`.
fn order_line(files: &Files, order: &str) -> Option<usize> {
    let words = order.strip_prefix("one of the orders for ").unwrap_or(order);
    let words = words.strip_prefix("the ").unwrap_or(words);
    let many = words.split(' ').next()?;
    let recipe = words.split('`').nth(1)?;
    let at = words.split("` for ").nth(1).map(|at| at.chars().take(5).collect::<String>());
    let file = file_of(files, recipe)?;
    let usual = lines(files, "day.miche").find_map(|line| line.strip_prefix("ready ")).unwrap_or_default().to_owned();
    lines(files, "day.miche").position(|line| {
        let ready = line.split(", ready ").nth(1).unwrap_or(&usual);
        line.starts_with(&format!("make {many} of \"{file}\""))
            && at.as_ref().is_none_or(|at| ready.ends_with(at.as_str()))
    })
}

/// `the 16 buns of `Bun 0` in 2`, `14 of the 16 buns of `Bun 0` in 2`: the order in several lines, each for its own time.
fn in_doughs(files: &mut Files, order: &str, doughs: &str) -> Option<()> {
    let order = order.rsplit_once(" in ")?.0;
    let whole = match order.split_once(" of the ") {
        Some((_, rest)) => format!("the {rest}"),
        None => order.to_owned(),
    };
    // `2 h later: 36 ready at 10:45 and 36 ready at 11:00`, or `the second 45 min later: 60 ready at 07:30 and 30 ready at 08:15`
    let (by, doughs) = doughs
        .split_once(" later: ")
        .map_or((0, doughs), |(by, doughs)| (minutes(by.trim_start_matches("the second ")).unwrap_or(0), doughs));
    let each: Vec<(&str, String)> = doughs
        .split(", ")
        .flat_map(|some| some.split(" and "))
        .map(|one| one.split_once(" ready at ").map(|(many, at)| (many, at.chars().take(5).collect())))
        .collect::<Option<_>>()?;
    let (_, last) = each.last()?;
    let wanted: jiff::civil::Time = last.parse().ok()?;
    let wanted = wanted.wrapping_sub(jiff::Span::new().minutes(by)).strftime("%H:%M").to_string();
    let at = order_line(files, &format!("{whole} for {wanted}"))?;
    let usual = lines(files, "day.miche").find_map(|line| line.strip_prefix("ready "))?.to_owned();
    let day = text(files, "day.miche")?;
    let line = day.lines().nth(at)?.to_owned();
    let (asked, ready) = line.split_once(", ready ").unwrap_or((&line, &usual));
    let due: DateTime = ready.get(..16)?.replace(' ', "T").parse().ok()?;
    let due = due + jiff::Span::new().minutes(by);
    let own = asked.split_once(" of ")?.1;
    let lines = each.iter().map(|(many, at)| {
        // None is wanted a day before the last: what is later by the clock is of the evening before.
        let day = if at > last { due.yesterday().ok()? } else { due };
        Some(format!("make {many} of {own}, ready {} {at}", day.date()))
    });
    let lines: Vec<String> = lines.collect::<Option<_>>()?;
    *day = day.replacen(&line, &lines.join("\n"), 1);
    Some(())
}

fn without_line(text: &str, at: usize) -> String {
    text.lines().enumerate().filter(|(number, _)| *number != at).map(|(_, line)| format!("{line}\n")).collect()
}

/// `1 h 30 min` in minutes.
fn minutes(said: &str) -> Option<i64> {
    let words: Vec<&str> = said.split_whitespace().collect();
    let one = |pair: &[&str]| {
        let [number, unit] = pair else { return None };
        let minutes = match *unit {
            "min" => 1,
            "h" => 60,
            "day" | "days" => 1440,
            _ => return None,
        };
        Some(number.parse::<i64>().ok()? * minutes)
    };
    let all: Option<Vec<i64>> = words.chunks(2).map(one).collect();
    all.map(|all| all.into_iter().sum())
}
