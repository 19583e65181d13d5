//! Sheets that were saved with quotes round their cells: `"water","6,5","kg"`, `water,6.5,kg,"cold, 8 C"`.

/// Writes the rows of such a sheet with tabs between their cells, so that a mark within a cell parts nothing.
pub(super) fn parted(lines: &mut [String]) {
    for mark in [';', ','] {
        let rows: Vec<Option<Vec<String>>> = lines.iter().map(|line| cells(line, mark)).collect();
        let is_quoted = |(line, row): &(&String, &Option<Vec<String>>)| line.contains('"') && row.is_some();
        let count = lines.iter().zip(&rows).filter(is_quoted).count();
        let wide = rows.iter().flatten().map(Vec::len).max().unwrap_or_default();
        // Three cells at least, and as many in all rows: inches and speech have none of it.
        let fits = rows.iter().flatten().filter(|row| row.len() > 1).all(|row| row.len() == wide);
        if count == 0 || wide < 3 || !fits || rows.iter().flatten().filter(|row| row.len() == wide).count() < 3 {
            continue;
        }
        for (line, row) in lines.iter_mut().zip(rows) {
            if let Some(row) = row.filter(|row| row.len() == wide) {
                *line = row.join("\t");
            }
        }
        return;
    }
}

/// The cells of a row; `None` where a quote stands within a word or is not closed.
fn cells(line: &str, mark: char) -> Option<Vec<String>> {
    let mut all = vec![String::new()];
    let (mut inside, mut closed) = (false, false);
    for character in line.trim().chars() {
        let cell = all.last_mut()?;
        match character {
            '"' if inside => (inside, closed) = (false, true),
            '"' if cell.trim().is_empty() && !closed => {
                cell.clear();
                inside = true;
            }
            // Twice within quotes it is one.
            '"' if closed => {
                cell.push('"');
                (inside, closed) = (true, false);
            }
            '"' => return None,
            _ if character == mark && !inside => {
                all.push(String::new());
                closed = false;
            }
            '\t' => cell.push(' '),
            _ => cell.push(character),
        }
    }
    (!inside).then_some(all)
}

#[cfg(test)]
mod tests {
    use super::parted;

    #[test]
    fn quotes_hold_a_cell_together() {
        for (text, wanted) in [
            (
                "item,qty,unit\nwater,6.5,kg\n\"salt, fine\",200,g",
                "item\tqty\tunit\nwater\t6.5\tkg\nsalt, fine\t200\tg",
            ),
            (
                "\"Mehl\";\"1,5\";\"kg\"\n\"Salz\";\"30\";\"g\"\n\"Ei\";\"2\";\"\"",
                "Mehl\t1,5\tkg\nSalz\t30\tg\nEi\t2\t",
            ),
            ("roll 3/4\" thick, cut, bake\n200 g flour, sifted", "roll 3/4\" thick, cut, bake\n200 g flour, sifted"),
        ] {
            let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
            parted(&mut lines);
            assert_eq!(lines.join("\n"), wanted);
        }
    }
}
