//! A table with a column for each stage of a dough beside one for all of it: `Overall formula`, `Sour`, `Final dough`. Each stage is a part,
//! and what stands below the whole is what they add up to.

use super::amount;
use super::kinds;
use super::measure::measure;

/// How the column of the whole is called.
const WHOLE: [&str; 8] =
    ["overall", "overall formula", "total formula", "formula", "whole", "whole formula", "total", "all"];
/// More columns than a table of stages has.
const MOST_COLUMNS: usize = 12;

/// A column of amounts: what it is called, and the unit that stands over it.
struct Column {
    at: usize,
    name: String,
    unit: Option<String>,
}

/// Writes the stages of such a table below each other, each as a part with its list. Gives the rows that told the whole, which stand
/// nowhere else.
pub(super) fn below_each_other(lines: &mut Vec<String>) -> Vec<String> {
    let Some(head) = lines.iter().position(|line| whole_in(&cells(line)).is_some()) else { return Vec::new() };
    let names = lines.get(head).map(|line| cells(line)).unwrap_or_default();
    let Some(whole) = whole_in(&names) else { return Vec::new() };
    let below = head + 1 + lines.iter().skip(head + 1).take_while(|line| is_rule(line)).count();
    let units = lines.get(below).map(|line| cells(line)).filter(|row| is_of_units(row));
    let first = below + usize::from(units.is_some());
    let wide = |line: &&String| {
        let row = cells(line);
        row.len() > whole + 1 && row.len() <= MOST_COLUMNS && !is_rule(line)
    };
    let count = lines.iter().skip(first).take_while(wide).count();
    let rows: Vec<Vec<String>> = lines.iter().skip(first).take(count).map(|line| cells(line)).collect();
    let widest = rows.iter().map(Vec::len).max().unwrap_or_default();
    if count < 2 || widest < names.len() {
        return Vec::new();
    }
    let Some(stages) = stages(&names, units.as_deref(), widest, whole) else { return Vec::new() };
    let mut written: Vec<String> = Vec::new();
    for stage in &stages {
        written.push(format!("For the {}:", stage.name));
        written.extend(rows.iter().filter_map(|row| item(row, stage)));
        written.push(String::new());
    }
    let title = names.first().filter(|name| !is_of_names(name)).cloned();
    let told = rows.iter().map(|row| row.join(" | ")).collect();
    lines.splice(head..first + count, title.into_iter().chain([String::new()]).chain(written));
    told
}

/// The columns of the stages; `None` where one of them has no unit, or they cannot be told apart.
fn stages(names: &[String], units: Option<&[String]>, widest: usize, whole: usize) -> Option<Vec<Column>> {
    // Where a name stands over two columns, those of the stages are the last.
    let shift = widest.checked_sub(names.len())?;
    let mut found = Vec::new();
    for (at, name) in names.iter().enumerate().skip(whole + 1).filter(|(_, name)| !name.is_empty()) {
        let (name, own) = match name.split_once('(') {
            Some((name, unit)) => (name.trim(), Some(unit.trim_end_matches(')').trim().to_owned())),
            None => (name.as_str(), None),
        };
        let unit = own.or_else(|| units.and_then(|row| row.get(at + shift).or_else(|| row.get(at))).cloned());
        let unit = unit.filter(|unit| !unit.is_empty());
        if unit.as_deref().is_some_and(|unit| !is_weight(unit)) || name.chars().any(char::is_numeric) {
            return None;
        }
        found.push(Column { at: at + shift, name: name.to_lowercase(), unit });
    }
    // Of `Total, Carbohydrate, Fat` none is made.
    let is_made = found.iter().any(|column| kinds::names_a_part(&column.name));
    (found.len() > 1 && is_made).then_some(found)
}

/// A row's amount of a stage, as a line of a list.
fn item(row: &[String], stage: &Column) -> Option<String> {
    let name = row.first().filter(|name| name.chars().any(char::is_alphabetic) && !is_sum(name))?;
    let amount = row.get(stage.at).filter(|cell| cell.starts_with(|c: char| c.is_ascii_digit() || c == '.'))?;
    let has_unit = amount.contains(char::is_alphabetic) || amount.contains('%');
    match (&stage.unit, has_unit) {
        (Some(unit), false) => Some(format!("{name}  {amount} {unit}")),
        _ => Some(format!("{name}  {amount}")),
    }
}

/// Where the column of the whole stands in a head, with two names of stages behind it.
fn whole_in(names: &[String]) -> Option<usize> {
    let named = |cell: &String| {
        let bare = cell.split('(').next().unwrap_or_default().trim().to_lowercase();
        WHOLE.contains(&bare.as_str())
    };
    let at = names.iter().position(named)?;
    let is_name = |cell: &&String| cell.chars().any(char::is_alphabetic) && !cell.starts_with(char::is_numeric);
    let behind = names.get(at + 1..)?;
    let others = behind.iter().filter(|cell| !cell.is_empty());
    let all_named = others.clone().all(|cell| is_name(&cell) && !amount::is_unit(&cell.to_lowercase()));
    (at > 0 && others.count() > 1 && all_named && names.len() <= MOST_COLUMNS).then_some(at)
}

fn is_of_units(row: &[String]) -> bool {
    let units = row.iter().skip(1).filter(|cell| !cell.is_empty());
    units.clone().count() > 1 && units.clone().all(|cell| cell == "%" || amount::is_unit(&cell.to_lowercase()))
}

fn is_weight(unit: &str) -> bool {
    measure(&format!("1 {unit}")).is_some_and(|(one, rest)| one.is_mass() && rest.trim().is_empty())
}

/// Whether a cell only says what stands below it.
fn is_of_names(cell: &str) -> bool {
    let lower = cell.to_lowercase();
    lower.is_empty() || ["ingredient", "ingredients", "item", "name", "product"].contains(&lower.as_str())
}

fn is_sum(name: &str) -> bool {
    let lower = name.to_lowercase();
    ["total", "sum", "all", "yield"].iter().any(|word| lower.starts_with(word))
}

fn is_rule(line: &str) -> bool {
    line.contains('-') && line.chars().all(|c| matches!(c, '-' | '|' | ':' | '+' | '=') || c.is_whitespace())
}

/// The cells of a line that tabs, bars or several blanks part.
fn cells(line: &str) -> Vec<String> {
    let bare = line.trim_matches(' ');
    let bars = bare.strip_prefix('|').unwrap_or(bare);
    let bars = bars.strip_suffix('|').unwrap_or(bars);
    let cell = |cell: &str| cell.trim().to_owned();
    match (line.contains('\t'), line.contains('|')) {
        (true, _) => line.split('\t').map(cell).collect(),
        (false, true) => bars.split('|').map(cell).collect(),
        (false, false) => bare.split("  ").map(cell).filter(|cell| !cell.is_empty()).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::below_each_other;

    #[test]
    fn a_column_for_each_stage_is_a_list_for_each() {
        let wanted = "For the sour:\nrye flour  2.40 kg\nwater  2.40 kg\n\nFor the final dough:\nrye flour  3.60 kg\nwater  5.10 kg\n\
                      sour  4.80 kg\n";
        for (table, title) in [
            (
                "Farm rye\toverall formula\t\tsour\tfinal dough\n\t%\tkg\tkg\tkg\nrye flour\t60\t6.00\t2.40\t3.60\nwater\t75\t7.50\t2.40\t5.10\n\
                 sour\t\t\t\t4.80\ntotal\t135\t13.50\t4.80\t13.50",
                "Farm rye\n\n",
            ),
            (
                "| Ingredient | Overall | Sour | Final dough |\n|---|---|---|---|\n| rye flour | 6 kg | 2.40 kg | 3.60 kg |\n\
                 | water | 7.5 kg | 2.40 kg | 5.10 kg |\n| sour | | | 4.80 kg |",
                "\n",
            ),
        ] {
            let mut lines: Vec<String> = table.lines().map(str::to_owned).collect();
            let told = below_each_other(&mut lines);
            assert_eq!(lines.join("\n"), format!("{title}{wanted}"), "{table}");
            assert!(told.len() > 2);
        }
    }

    #[test]
    fn another_table_stays() {
        for table in [
            "Item\tg\t%\nflour\t500\t100\nwater\t300\t60",
            "a   total   b\nflour  1  2",
            "Total time, rest, bake",
            "In 100 g\tTotal\tSugar\tFat\nbread\t50\t3\t2\ncake\t60\t30\t20",
        ] {
            let mut lines: Vec<String> = table.lines().map(str::to_owned).collect();
            assert!(below_each_other(&mut lines).is_empty() && lines.join("\n") == table, "{table}");
        }
    }
}
