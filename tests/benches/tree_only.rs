//! Reads files into trees and does nothing else, so that a whole process can be measured beside one that renders a text.
//! Prints how many lines and problems there were, which also keeps the work from being left out.

use miche::edge::loader::read_text;
use miche::language::parse::parse;
use miche::text::source::SourceId;
use std::path::Path;
use std::process::ExitCode;

/// The allocator of the program itself.
#[global_allocator]
static PIECES: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    let (mut lines, mut problems) = (0, 0);
    for path in std::env::args_os().skip(1) {
        match read_text(Path::new(&path)) {
            Ok(text) => {
                let (tree, found) = parse(SourceId(0), &text);
                lines += tree.lines.len();
                problems += found.len();
            }
            Err(error) => {
                eprintln!("{error}");
                return ExitCode::from(2);
            }
        }
    }
    println!("{lines} lines, {problems} problems");
    ExitCode::SUCCESS
}
