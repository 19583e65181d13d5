//! The options that say what is made: a recipe or a day, how much of it, and whether as it was baked.

use super::bakes::as_baked::AsBaked;
use super::batches::{Made, make};
use super::output::Output;
use super::scaling::Scaling;
use super::stop::Stop;
use crate::model::project::Project;
use crate::text::source::SourceId;
use clap::Args;
use std::path::PathBuf;

/// A recipe or a day, how much of it, and whether as it was baked.
#[derive(Debug, Args)]
pub(super) struct ToMake {
    /// A recipe or a day; `-` is standard input
    #[arg(value_name = "FILE")]
    pub(super) file: PathBuf,
    #[command(flatten)]
    pub(super) scaling: Scaling,
    #[command(flatten)]
    as_baked: AsBaked,
}

impl ToMake {
    /// Reads, checks and scales the file.
    pub(super) fn make(&self, output: &Output) -> Result<(Project, SourceId, Made), Stop> {
        let mut loader = self.as_baked.loader(std::slice::from_ref(&self.file), output)?;
        let source = loader.load(&self.file)?;
        let project = loader.into_project();
        let made = make(&project, &[source], &self.scaling, output)?;
        Ok((project, source, made))
    }
}
