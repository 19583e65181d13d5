//! Walks through the files of a site and the links of its pages.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Component, Path};

/// All files of a folder, by their names from it on, with slashes.
pub fn files(top: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut all = BTreeMap::new();
    let mut folders = vec![top.to_owned()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let name = path.strip_prefix(top).expect("inside").to_string_lossy().replace('\\', "/");
                all.insert(name, fs::read(&path).expect("a file"));
            }
        }
    }
    all
}

/// The addresses that a page names, each with its attribute; a canonical one under that name.
pub fn links(page: &str) -> Vec<(&'static str, String)> {
    let mut all = Vec::new();
    for tag in page.split('<').skip(1).filter_map(|rest| rest.split_once('>')).map(|(tag, _)| tag) {
        for attribute in ["href", "src"] {
            let Some((_, after)) = tag.split_once(&format!(" {attribute}=\"")) else { continue };
            let address = after.split_once('"').expect("an end").0.replace("&amp;", "&");
            let kind = if tag.starts_with("link rel=\"canonical\"") { "canonical" } else { attribute };
            all.push((kind, address));
        }
    }
    all
}

/// The opening tags of a page's scripts.
pub fn scripts(page: &str) -> Vec<String> {
    let tags = page.split("<script").skip(1).filter_map(|rest| rest.split_once('>'));
    tags.map(|(tag, _)| tag.to_owned()).collect()
}

/// A path without `.` and `..`; it must not leave the folder.
pub fn without_dots(path: &Path) -> String {
    let mut parts: Vec<String> = Vec::new();
    for part in path.components() {
        match part {
            Component::ParentDir => {
                parts.pop().expect("a link stays in the site");
            }
            Component::Normal(name) => parts.push(name.to_string_lossy().into_owned()),
            _ => {}
        }
    }
    parts.join("/")
}
