//! What the latest commits changed in the formulas of a book, in words.

use crate::edge::cli::diff::between;
use crate::edge::past::checkout::Checkout;
use crate::out::comparison::sentences;
use rayon::prelude::*;
use std::path::Path;

/// Of so many commits, the newest, is told what they changed: for each all files of two revisions are taken out of the repository.
const MOST_COMMITS: usize = 30;

/// A recipe of the book in a commit that changed its file.
pub(super) struct Revised {
    /// The commit.
    pub(super) commit: String,
    /// What the file was called before it, from the top of the repository.
    pub(super) was: String,
    /// What it is called in it.
    pub(super) name: String,
    /// The number of the recipe, and of the commit among those that changed it.
    pub(super) at: (usize, usize),
}

/// What a commit changed in a recipe, in sentences; `None` where it cannot be said, since one of the two is no recipe that can be read.
pub(super) type Words = Option<Vec<String>>;

/// What the newest of the commits changed, in sentences; none where only the text changed. `revised` stands the newest first. Left out is
/// what cannot be said.
///
/// A commit never changes, so what it changed is asked of what earlier runs have kept, and kept for the runs that come.
pub(super) fn tell(
    mut revised: Vec<Revised>,
    top: &Path,
    (known, keep): (impl Fn(&Revised) -> Option<Words>, impl Fn(&Revised, &Words)),
) -> Vec<(Revised, Vec<String>)> {
    let mut commits: Vec<&str> = revised.iter().map(|one| one.commit.as_str()).collect();
    commits.dedup();
    if let Some(last) = commits.get(MOST_COMMITS).map(|commit| (*commit).to_owned()) {
        let count = revised.iter().take_while(|one| one.commit != last).count();
        revised.truncate(count);
    }
    let (kept, new): (Vec<_>, Vec<_>) =
        revised.into_iter().map(|one| (known(&one), one)).partition(|(words, _)| words.is_some());
    let new: Vec<Revised> = new.into_iter().map(|(_, one)| one).collect();
    let of_commits: Vec<&[Revised]> = new.chunk_by(|one, other| one.commit == other.commit).collect();
    let told: Vec<Option<Words>> = of_commits.into_par_iter().flat_map_iter(|all| of_commit(all, top)).collect();
    let told: Vec<(Option<Words>, Revised)> = told.into_iter().zip(new).collect();
    for (words, one) in &told {
        words.iter().for_each(|words| keep(one, words));
    }
    kept.into_iter().chain(told).filter_map(|(words, one)| Some((one, words??))).collect()
}

/// What one commit changed in each of its recipes, in their order; `None` where git does not have it, as in a shallow clone.
fn of_commit(all: &[Revised], top: &Path) -> Vec<Option<Words>> {
    let Some(commit) = all.first().map(|one| one.commit.as_str()) else { return Vec::new() };
    let sides = Checkout::of(&format!("{commit}^"), top).and_then(|old| Ok((old, Checkout::of_commit(commit, top)?)));
    let Ok((old, new)) = sides else { return all.iter().map(|_| None).collect() };
    let version = |side: &Checkout, name: &str| side.version(name).ok().flatten();
    let one = |revised: &Revised| -> Words {
        let (before, now) = (version(&old, &revised.was)?, version(&new, &revised.name)?);
        let mut comparison = between(Some(&before), Some(&now), &revised.name)?.comparison;
        // What `check` says of a recipe is its writer's, and so is what it aims at.
        comparison.problems_raised.clear();
        comparison.problems_cleared.clear();
        comparison.aims.clear();
        Some(sentences(&comparison))
    };
    all.iter().map(|revised| Some(one(revised))).collect()
}
