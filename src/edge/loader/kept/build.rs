//! Which build of the program runs: another one finds nothing of what this one has kept.

use super::{Digest, Digesting};
use std::fs::File;
use std::io::Read;
use std::time::UNIX_EPOCH;

/// So many bytes of a program hold what its linker says of the build: the build number of an ELF file, the UUID of a Mach-O file, the
/// time of a PE file, and where everything lies.
const HEAD: u64 = 64 * 1024;

/// By what this build is told from others: its version, the head of its file, its length, and when it was written. The whole file is
/// not read, which would take longer than most runs. `None` where the program cannot be looked at.
pub(super) fn of_this_program() -> Option<Digest> {
    // What runs, also after another was put at its path.
    let running = cfg!(target_os = "linux").then(|| File::open("/proc/self/exe").ok()).flatten();
    let file = match running {
        Some(file) => file,
        None => File::open(std::env::current_exe().ok()?).ok()?,
    };
    let there = file.metadata().ok()?;
    let written = there.modified().ok()?.duration_since(UNIX_EPOCH).ok()?;
    let mut head = Vec::new();
    file.take(HEAD).read_to_end(&mut head).ok()?;
    let mut build = Digesting::of("build");
    build.put(env!("CARGO_PKG_VERSION").as_bytes()).put(&head);
    build.put(&there.len().to_le_bytes()).put(&written.as_nanos().to_le_bytes());
    Some(build.digest())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_build_is_known_by_its_file() {
        assert!(of_this_program().is_some());
        assert_eq!(of_this_program(), of_this_program());
    }
}
