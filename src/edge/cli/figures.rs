//! What commands that print a page of figures share: which batches, in which format, where to.

use super::deliver::{PageFormat, Paged};
use super::output::Output;
use super::stop::{Ended, Stop};
use super::to_make::ToMake;
use crate::language::syntax::{FileKind, Tree};
use crate::make::batch::Batch;
use crate::make::work::Work;
use crate::measure::number::Overflow;
use crate::measure::show::Units;
use crate::model::larder::Larder;
use crate::out::block::{Block, spaced};
use crate::out::page::Page;
use clap::Args;
use std::sync::Arc;

/// Which batches, in which format, where to.
#[derive(Debug, Args)]
pub(super) struct Figures {
    #[command(flatten)]
    pub(super) to_make: ToMake,
    #[command(flatten)]
    pub(super) paged: Paged,
}

/// The file that was asked for.
pub(super) struct AskedFor<'a> {
    /// Its tree.
    pub(super) tree: &'a Tree,
    /// Of a day, what the larders that it uses itself bring.
    pub(super) larder: Option<Arc<Larder>>,
}

impl Figures {
    /// Works out one thing a batch, from it and the file that was asked for, lays it out and delivers it; `foot` is what stands below all
    /// of them.
    pub(super) fn run<T>(
        &self,
        output: &mut Output,
        of: impl Fn(&Work, &Batch, &AskedFor<'_>) -> Result<T, String>,
        page: impl Fn(&T, Units) -> Result<Vec<Block>, Overflow>,
        foot: impl Fn(&[T]) -> Vec<Block>,
        json: impl Fn(&[T]) -> Result<String, String>,
    ) -> Ended {
        let format = self.paged.format(output)?;
        let all = self.all(output, of)?;
        let mut blocks = Vec::new();
        if format != PageFormat::Json {
            for one in &all {
                let page = page(one, self.to_make.scaling.units());
                blocks.extend(page.map_err(|_| "a figure leaves the range of exact numbers")?);
            }
            blocks.extend(foot(&all));
        }
        let title = blocks.iter().find_map(|block| match block {
            Block::Heading(title) => Some(title.text.clone()),
            _ => None,
        });
        let page = Page { title: title.unwrap_or_default(), below: 0, blocks: spaced(blocks) };
        self.paged.deliver((&page, &self.to_make.file), || json(&all), output)
    }

    /// Works out one thing a batch, from it and the file that was asked for.
    pub(super) fn all<T>(
        &self,
        output: &Output,
        of: impl Fn(&Work, &Batch, &AskedFor<'_>) -> Result<T, String>,
    ) -> Result<Vec<T>, Stop> {
        let (project, source, made) = self.to_make.make(output)?;
        let Some(file) = project.file(source) else { return Err("the file is not there any more".into()) };
        let work = &made.work;
        let is_day = file.tree.kind == FileKind::Day;
        let larder = is_day.then(|| project.pantry(&project.used(source).collect::<Vec<_>>()).larder);
        let asked = AskedFor { tree: &file.tree, larder };
        let all: Result<Vec<T>, String> = work.batches.iter().map(|batch| of(work, batch, &asked)).collect();
        Ok(all?)
    }
}
