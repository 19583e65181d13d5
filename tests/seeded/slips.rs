//! The slips of the pen that are made into right recipes: fifteen kinds, each all the texts that come of it.

/// A way to break a recipe: all the texts that come of it.
pub type Slip = fn(&str) -> Vec<String>;

pub const KINDS: &[(&str, Slip)] = &[
    ("a name misspelt", misspell),
    ("a use dropped", drop_use),
    ("g for kg, kg for g", weight_unit),
    ("a percentage by ten", percent_by_ten),
    ("C for F, F for C", degrees),
    ("a line doubled", double_line),
    ("a loss changed", change_loss),
    ("a line dropped", drop_line),
    ("amounts swapped", swap_amounts),
    ("names swapped", swap_names),
    ("a digit changed", change_digit),
    ("a step's time by ten", time_by_ten),
    ("neighbouring steps swapped", swap_steps),
    ("an ingredient exchanged", exchange),
    ("bake, until or leaven gone", drop_what_matters),
];

/// What a line begins with that says nothing of the formula or its work: it stands there for whoever reads, buys or eats, and nothing
/// else in the file could tell that it was once another.
const BESIDE: [&str; 11] = [
    "#",
    "note",
    "credit",
    "story",
    "picture",
    "by ",
    "filed under",
    "best before",
    "store ",
    "serving ",
    "may contain",
];

/// A line that says something of the formula or its work.
fn says(line: &str) -> bool {
    let line = line.trim();
    !(line.is_empty() || BESIDE.iter().any(|word| line.starts_with(word)))
}

fn is_ingredient(line: &str) -> bool {
    says(line) && !line.starts_with(' ') && line.contains(" ..")
}

fn is_step(line: &str) -> bool {
    !line.starts_with(' ') && [": hands ", ": tend ", ": wait "].iter().any(|kind| line.contains(kind))
}

/// The line with which a step's prose ends: the first behind its head that is neither indented nor blank.
fn end_of_step(lines: &[&str], head: usize) -> usize {
    let behind = lines.iter().enumerate().skip(head + 1);
    let mut end = head + 1;
    for (at, line) in behind {
        if !line.starts_with(' ') {
            break;
        }
        end = at + 1;
    }
    end
}

/// The name, the leader and the rest of an ingredient line.
fn cut(line: &str) -> Option<(&str, &str, &str)> {
    let name = line.find(" ..")?;
    let dots = line[name..].find(". ").map(|at| name + at + 2)?;
    Some((&line[..name], &line[name..dots], &line[dots..]))
}

/// What stands behind the leader: the amount, and what follows it.
fn amount(rest: &str) -> (&str, &str) {
    let end = rest.find([',', '[', '#']).unwrap_or(rest.len());
    let amount = rest[..end].trim_end();
    (amount, &rest[amount.len()..])
}

fn text_of(lines: &[String]) -> String {
    lines.iter().map(|line| format!("{line}\n")).collect()
}

fn with_line(text: &str, at: usize, new: &str) -> String {
    let lines: Vec<String> = text
        .lines()
        .enumerate()
        .map(|(number, line)| if number == at { new.to_owned() } else { line.to_owned() })
        .collect();
    text_of(&lines)
}

/// Where the parts of a text begin, so that two lines can be seen to be of one part.
fn part_of(lines: &[&str], at: usize) -> usize {
    lines.iter().take(at + 1).filter(|line| line.starts_with("part ")).count()
}

/// Whether a place lies in a comment, a note or a credit, which no check reads.
fn in_note(text: &str, at: usize) -> bool {
    let start = text[..at].rfind('\n').map_or(0, |line| line + 1);
    let line = &text[start..];
    BESIDE.iter().chain(&["caution"]).any(|word| line.trim_start().starts_with(word)) || text[start..at].contains("# ")
}

/// Two letters of a word swapped, or one left out: on the ingredient's line, or in braces.
fn misspell(text: &str) -> Vec<String> {
    let mut places = Vec::new();
    let mut from = 0;
    for line in text.split_inclusive('\n') {
        if is_ingredient(line)
            && let Some((name, ..)) = cut(line)
        {
            places.push((from, from + name.len()));
        }
        from += line.len();
    }
    for (at, _) in text.match_indices('{') {
        let Some(length) = text[at..].find('}') else { continue };
        let inside = &text[at + 1..at + length];
        let name = inside.rfind(" of ").map_or(0, |of| of + 4);
        if !inside[name..].starts_with(|c: char| c.is_ascii_digit()) {
            places.push((at + 1 + name, at + length));
        }
    }
    let mut all = Vec::new();
    for (start, end) in places {
        let name = &text[start..end];
        let Some(word) = name.split(' ').max_by_key(|word| word.len()).filter(|word| word.len() > 3 && word.is_ascii())
        else {
            continue;
        };
        let at = start + name.find(word).unwrap_or(0);
        let middle = word.len() / 2;
        let (one, other) = (&word[middle - 1..middle], &word[middle..=middle]);
        if one != other {
            all.push(format!("{}{other}{one}{}", &text[..at + middle - 1], &text[at + middle + 1..]));
        }
        all.push(format!("{}{}", &text[..at + middle], &text[at + middle + 1..]));
    }
    all
}

/// Every `{use}` as plain words.
fn drop_use(text: &str) -> Vec<String> {
    let mut all = Vec::new();
    for (at, _) in text.match_indices('{') {
        let Some(length) = text[at..].find('}') else { continue };
        let inside = &text[at + 1..at + length];
        // A fixed measure is no use.
        if !inside.starts_with(|c: char| c.is_ascii_digit()) || inside.contains(" of ") {
            all.push(format!("{}{inside}{}", &text[..at], &text[at + length + 1..]));
        }
    }
    all
}

/// Every unit of some pairs, put for the other.
fn units(text: &str, pairs: &[(&str, &str)]) -> Vec<String> {
    let mut all = Vec::new();
    for (from, to) in pairs {
        for (at, _) in text.match_indices(from) {
            let (before, behind) = (&text[..at], &text[at + from.len()..]);
            let is_unit = before.ends_with(|c: char| c.is_ascii_digit()) && !behind.starts_with(char::is_alphanumeric);
            if is_unit && !in_note(text, at) {
                all.push(format!("{before}{to}{behind}"));
            }
        }
    }
    all
}

fn weight_unit(text: &str) -> Vec<String> {
    units(text, &[(" g", " kg"), (" kg", " g")])
}

fn degrees(text: &str) -> Vec<String> {
    units(text, &[(" C", " F"), (" F", " C")])
}

/// A number with its point moved by one place.
fn by_ten(number: &str) -> Vec<String> {
    let Ok(value) = number.parse::<f64>() else { return Vec::new() };
    let written = |value: f64| format!("{}", (value * 100_000.0).round() / 100_000.0);
    vec![written(value * 10.0), written(value / 10.0)]
}

/// The number that ends at a place: where it begins.
fn number_before(text: &str, end: usize) -> usize {
    text[..end].rfind(|c: char| !c.is_ascii_digit() && c != '.').map_or(0, |at| at + 1)
}

fn percent_by_ten(text: &str) -> Vec<String> {
    let mut all = Vec::new();
    for (end, _) in text.match_indices(" %") {
        let start = number_before(text, end);
        if !in_note(text, start) {
            all.extend(
                by_ten(&text[start..end]).into_iter().map(|new| format!("{}{new}{}", &text[..start], &text[end..])),
            );
        }
    }
    all
}

fn double_line(text: &str) -> Vec<String> {
    let lines: Vec<&str> = text.lines().collect();
    let said = (0..lines.len()).filter(|at| says(lines[*at]));
    said.map(|at| with_line(text, at, &format!("{0}\n{0}", lines[at]))).collect()
}

fn drop_line(text: &str) -> Vec<String> {
    let lines: Vec<&str> = text.lines().collect();
    let said = (0..lines.len()).filter(|at| says(lines[*at]));
    said.map(|at| without(&lines, at, at + 1)).collect()
}

fn without(lines: &[&str], start: usize, end: usize) -> String {
    lines.iter().enumerate().filter(|(at, _)| !(start..end).contains(at)).map(|(_, line)| format!("{line}\n")).collect()
}

/// A loss ten times as high, three times as high, a tenth, and not said.
fn change_loss(text: &str) -> Vec<String> {
    let mut all = Vec::new();
    for (at, _) in text.match_indices(" loss ") {
        let start = at + " loss ".len();
        let Some(end) = text[start..].find(" %").map(|end| start + end) else { continue };
        let Ok(value) = text[start..end].parse::<f64>() else { continue };
        if in_note(text, at) {
            continue;
        }
        for new in by_ten(&text[start..end]) {
            all.push(format!("{}{new}{}", &text[..start], &text[end..]));
        }
        all.push(format!("{}{}{}", &text[..start], (value * 3000.0).round() / 1000.0, &text[end..]));
        let clause = text[..at].rfind(',').unwrap_or(at);
        all.push(format!("{}{}", &text[..clause], &text[end + " %".len()..]));
    }
    all
}

/// A line of a formula as [`cut`] takes it apart.
type Cut<'t> = (&'t str, &'t str, &'t str);

/// Pairs of ingredient lines of one part, of different name and amount.
fn pairs<'t>(lines: &[&'t str]) -> Vec<(usize, usize, [Cut<'t>; 2])> {
    let mut all = Vec::new();
    for (one, first) in lines.iter().enumerate().filter(|(_, line)| is_ingredient(line)) {
        for (other, second) in lines.iter().enumerate().skip(one + 1).filter(|(_, line)| is_ingredient(line)) {
            if part_of(lines, one) != part_of(lines, other) {
                break;
            }
            if let (Some(first), Some(second)) = (cut(first), cut(second))
                && first.0 != second.0
                && amount(first.2).0 != amount(second.2).0
            {
                all.push((one, other, [first, second]));
            }
        }
    }
    all
}

fn swap_amounts(text: &str) -> Vec<String> {
    let lines: Vec<&str> = text.lines().collect();
    let swapped = |(one, other, [first, second]): (usize, usize, [(&str, &str, &str); 2])| {
        let ((a, behind_a), (b, behind_b)) = (amount(first.2), amount(second.2));
        let mut new: Vec<String> = lines.iter().map(|line| (*line).to_owned()).collect();
        new[one] = format!("{}{}{b}{behind_a}", first.0, first.1);
        new[other] = format!("{}{}{a}{behind_b}", second.0, second.1);
        text_of(&new)
    };
    pairs(&lines).into_iter().map(swapped).collect()
}

fn swap_names(text: &str) -> Vec<String> {
    let lines: Vec<&str> = text.lines().collect();
    let swapped = |(one, other, [first, second]): (usize, usize, [(&str, &str, &str); 2])| {
        let mut new: Vec<String> = lines.iter().map(|line| (*line).to_owned()).collect();
        new[one] = format!("{}{}{}", second.0, first.1, first.2);
        new[other] = format!("{}{}{}", first.0, second.1, second.2);
        text_of(&new)
    };
    pairs(&lines).into_iter().map(swapped).collect()
}

/// Every digit, put for two others: its neighbour on the keys, and one far from it.
fn change_digit(text: &str) -> Vec<String> {
    let mut all = Vec::new();
    for (at, digit) in text.char_indices().filter(|(_, c)| c.is_ascii_digit()) {
        let line = text[..at].rfind('\n').map_or(text, |end| &text[end + 1..]);
        if in_note(text, at) || !says(line.lines().next().unwrap_or_default()) {
            continue;
        }
        let value = digit.to_digit(10).unwrap_or(0);
        for new in [(value + 1) % 10, (value + 4) % 10] {
            all.push(format!("{}{new}{}", &text[..at], &text[at + 1..]));
        }
    }
    all
}

/// The time in the head of a step, ten times as long and a tenth as long; of a range both ends.
fn time_by_ten(text: &str) -> Vec<String> {
    let lines: Vec<&str> = text.lines().collect();
    let mut all = Vec::new();
    for (at, line) in lines.iter().enumerate().filter(|(_, line)| is_step(line)) {
        let Some(start) =
            [": hands ", ": tend ", ": wait "].iter().find_map(|kind| Some(line.find(kind)? + kind.len()))
        else {
            continue;
        };
        let end = line[start..]
            .find(|c: char| !(c.is_ascii_digit() || ".-".contains(c)))
            .map_or(line.len(), |end| start + end);
        let ends: Vec<Vec<String>> = line[start..end].split('-').map(by_ten).collect();
        for way in 0..2 {
            let new: Vec<&str> = ends.iter().filter_map(|both| both.get(way)).map(String::as_str).collect();
            if !new.is_empty() {
                all.push(with_line(text, at, &format!("{}{}{}", &line[..start], new.join("-"), &line[end..])));
            }
        }
    }
    all
}

/// Two steps that stand one after the other, each with its prose.
fn swap_steps(text: &str) -> Vec<String> {
    let lines: Vec<&str> = text.lines().collect();
    let heads: Vec<usize> = (0..lines.len()).filter(|at| is_step(lines[*at])).collect();
    let mut all = Vec::new();
    for two in heads.windows(2) {
        let (one, other) = (two[0], two[1]);
        let (first_end, second_end) = (end_of_step(&lines, one), end_of_step(&lines, other));
        // Variants of one step, of which one holds, are no order of work.
        let name = |at: usize| lines[at].split(':').next();
        if part_of(&lines, one) != part_of(&lines, other) || name(one) == name(other) {
            continue;
        }
        let mut new: Vec<&str> = lines[..one].to_vec();
        new.extend(&lines[other..second_end]);
        new.extend(&lines[first_end..other]);
        new.extend(&lines[one..first_end]);
        new.extend(&lines[second_end..]);
        all.push(new.iter().map(|line| format!("{line}\n")).collect());
    }
    all
}

/// What is put for what, by the last words of a name.
const EXCHANGED: &[(&str, &str)] = &[
    ("salt", "caster sugar"),
    ("sugar", "salt"),
    ("yeast", "baking soda"),
    ("yeast", "salt"),
    ("baking soda", "baking powder"),
    ("baking powder", "cornflour"),
    ("flour", "icing sugar"),
    ("flour", "cornflour"),
    ("water", "sunflower oil"),
    ("milk", "heavy cream"),
    ("butter", "cream cheese"),
    ("egg", "butter"),
    ("oil", "vinegar"),
];

/// One ingredient of a part put for another, on its line and in the part's steps.
fn exchange(text: &str) -> Vec<String> {
    let lines: Vec<&str> = text.lines().collect();
    let mut all = Vec::new();
    for (at, line) in lines.iter().enumerate().filter(|(_, line)| is_ingredient(line)) {
        let Some((name, ..)) = cut(line) else { continue };
        for (_, new) in EXCHANGED.iter().filter(|(old, new)| name.ends_with(old) && name != *new) {
            let here = part_of(&lines, at);
            // One that is listed already would be listed twice, which anybody sees.
            let listed = lines.iter().enumerate().any(|(other, line)| {
                part_of(&lines, other) == here
                    && is_ingredient(line)
                    && cut(line).is_some_and(|(name, ..)| name == *new)
            });
            if listed {
                continue;
            }
            let renamed = lines.iter().enumerate().map(|(other, line)| {
                if part_of(&lines, other) != here {
                    (*line).to_owned()
                } else if is_ingredient(line) && cut(line).is_some_and(|(other, ..)| other == name) {
                    format!("{new}{}", &line[name.len()..])
                } else {
                    line.replace(&format!("{{{name}}}"), &format!("{{{new}}}"))
                        .replace(&format!("of {name}}}"), &format!("of {new}}}"))
                }
            });
            all.push(text_of(&renamed.collect::<Vec<String>>()));
        }
    }
    all
}

/// The head of a baking step with or without its prose, the sign of a step, the line of the leaven or of the salt with
/// its uses.
fn drop_what_matters(text: &str) -> Vec<String> {
    let lines: Vec<&str> = text.lines().collect();
    let mut all = Vec::new();
    for (at, line) in lines.iter().enumerate() {
        if is_step(line) && line.starts_with("bake") {
            all.push(without(&lines, at, at + 1));
            all.push(without(&lines, at, end_of_step(&lines, at)));
        }
        if line.trim_start().starts_with("until ") {
            all.push(without(&lines, at, at + 1));
        }
        let Some((name, ..)) = cut(line).filter(|_| is_ingredient(line)) else { continue };
        if ["yeast", "starter", "seed", "baking soda", "baking powder", "salt"]
            .iter()
            .any(|leaven| name.ends_with(leaven))
        {
            let here = part_of(&lines, at);
            let left = lines.iter().enumerate().filter(|(other, line)| {
                let is_it = is_ingredient(line) && cut(line).is_some_and(|(other, ..)| other == name);
                !(is_it && part_of(&lines, *other) == here)
            });
            let left = left.map(|(other, line)| {
                if part_of(&lines, other) == here {
                    line.replace(&format!("{{{name}}}"), "")
                } else {
                    (*line).to_owned()
                }
            });
            all.push(text_of(&left.collect::<Vec<String>>()));
        }
    }
    all
}
