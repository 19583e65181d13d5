//! A copy of the examples, with their pictures.

use std::fs;
use std::path::Path;

/// Copies the examples into a folder that is there.
pub fn into(folder: &Path) {
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    files(&examples, folder);
    let pictures = folder.join("pictures");
    fs::create_dir_all(&pictures).expect("made");
    files(&examples.join("pictures"), &pictures);
}

fn files(from: &Path, to: &Path) {
    for entry in fs::read_dir(from).expect("there are examples") {
        let path = entry.expect("readable").path();
        if path.is_file() {
            fs::copy(&path, to.join(path.file_name().expect("a name"))).expect("copied");
        }
    }
}
