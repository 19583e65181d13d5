//! Writes every text of `texts` at some sizes into a folder, for `tests/scripts/growth.py`: write FOLDER BYTES...

#[path = "texts.rs"]
mod texts;

fn main() -> std::io::Result<()> {
    let mut arguments = std::env::args().skip(1);
    let Some(folder) = arguments.next() else { return Ok(()) };
    let sizes: Vec<usize> = arguments.filter_map(|size| size.parse().ok()).collect();
    for trap in texts::TRAPS {
        for size in &sizes {
            let name = format!("{} {size}.miche", trap.name);
            std::fs::write(std::path::Path::new(&folder).join(name), (trap.make)(*size))?;
        }
    }
    Ok(())
}
