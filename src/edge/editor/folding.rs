//! What can be folded: parts, larder blocks, steps with their prose, runs of comments.

use super::view::View;
use crate::language::syntax::Content;

/// The first and the last line of something that can be folded, counted from 0, and whether it is comments.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Fold {
    pub first: usize,
    pub last: usize,
    pub comments: bool,
}

/// Everything that can be folded.
pub(super) fn folds(view: &View) -> Vec<Fold> {
    let lines = &view.tree().lines;
    let mut folds = Vec::new();
    let (mut part, mut step, mut comments): (Option<usize>, Option<usize>, Option<usize>) = (None, None, None);
    // The last line that says something.
    let mut said = 0;
    let close = |open: &mut Option<usize>, last: usize, comments: bool, folds: &mut Vec<Fold>| {
        if let Some(first) = open.take().filter(|first| *first < last) {
            folds.push(Fold { first, last, comments });
        }
    };
    for (at, line) in lines.iter().enumerate() {
        match &line.content {
            Content::Blank => close(&mut comments, at.saturating_sub(1), true, &mut folds),
            Content::Comment => {
                comments.get_or_insert(at);
            }
            content => {
                close(&mut comments, at.saturating_sub(1), true, &mut folds);
                if !line.continues {
                    close(&mut step, said, false, &mut folds);
                }
                if matches!(content, Content::Part { .. } | Content::IngredientBlock(_)) {
                    close(&mut part, said, false, &mut folds);
                    part = Some(at);
                }
                if matches!(content, Content::Step(_) | Content::Text { .. }) {
                    step = Some(at);
                }
                said = at;
            }
        }
    }
    close(&mut comments, lines.len().saturating_sub(1), true, &mut folds);
    close(&mut step, said, false, &mut folds);
    close(&mut part, said, false, &mut folds);
    folds.sort_by_key(|fold| (fold.first, std::cmp::Reverse(fold.last)));
    folds.dedup_by_key(|fold| fold.first);
    folds
}
