//! What is kept between two runs: its packs, files that change beside it, and packs damaged on the disk.

use std::fs;
use std::path::{Path, PathBuf};

/// Damages a pack in every way in turn; after each `hold` runs what keeps it and sees that nothing came of it, and the pack is whole again. At
/// the end a folder stands in its place.
pub fn is_made_anew(pack: &Path, mut hold: impl FnMut(&str)) {
    let whole = fs::read(pack).expect("there");
    let mut one_bit = whole.clone();
    let middle = one_bit.len() / 2;
    one_bit[middle] ^= 1;
    let cut = whole[..whole.len() / 3].to_vec();
    for (what, bytes) in [("one bit", one_bit), ("cut", cut), ("foreign", vec![b'x'; 9000])] {
        fs::write(pack, bytes).expect("written");
        hold(what);
        assert_eq!(fs::read(pack).expect("there"), whole, "{what}: the pack is whole again");
    }
    fs::remove_file(pack).expect("removed");
    fs::create_dir(pack).expect("a folder");
    hold("a folder in its place");
}

/// The packs in a cache folder.
pub fn packs(cache: &Path) -> Vec<PathBuf> {
    let all = fs::read_dir(cache.join("miche")).into_iter().flatten();
    all.map(|entry| entry.expect("an entry").path()).collect()
}

/// Changes a file in which that stands.
pub fn change(file: &Path, from: &str, to: &str) {
    let text = fs::read_to_string(file).expect("there");
    assert!(text.contains(from), "{} has no {from}", file.display());
    fs::write(file, text.replace(from, to)).expect("a file");
}
