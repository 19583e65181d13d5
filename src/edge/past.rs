//! What git and the logs of bakes know of a recipe: its revisions, files as they stood, and each bake with the formula of its day.

pub(in crate::edge) mod checked;
pub(in crate::edge) mod checkout;
pub(in crate::edge) mod gather;
pub(in crate::edge) mod logs;
mod of_git;
pub(in crate::edge) mod recalled;
pub(in crate::edge) mod revision;
