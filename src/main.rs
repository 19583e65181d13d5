//! The program `miche`: everything happens in the library; here is the exit code.

use std::process::ExitCode;

/// Trees and formulas are many small pieces: with the system's allocator a seventh of a check goes into handing them out.
#[global_allocator]
static PIECES: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    miche::edge::cli::run()
}
