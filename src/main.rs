//! The program `miche`: everything happens in the library; here is the exit code.

use std::process::ExitCode;

fn main() -> ExitCode {
    miche::cli::run()
}
