//! What commands that print a page of figures share: which batches, in which format, where to.

use super::Outcome;
use super::bakes::as_baked::AsBaked;
use super::batches::{self, complain};
use super::deliver::{Delivery, PageFormat, wanted};
use super::output::Output;
use super::scaling::Scaling;
use crate::language::syntax::Tree;
use crate::make::batch::Batch;
use crate::make::have::There;
use crate::measure::show::Units;
use crate::out::block::{Block, spaced};
use crate::out::page::Page;
use clap::Args;
use std::path::PathBuf;

/// Which batches, in which format, where to.
#[derive(Debug, Args)]
pub(super) struct Figures {
    /// A recipe or a day; `-` is standard input
    #[arg(value_name = "FILE")]
    file: PathBuf,
    #[command(flatten)]
    scaling: Scaling,
    #[command(flatten)]
    as_baked: AsBaked,
    /// The format; without it text on a terminal, Markdown elsewhere, or what the ending of `-o` says
    #[arg(long, value_enum)]
    format: Option<PageFormat>,
    #[command(flatten)]
    delivery: Delivery,
}

impl Figures {
    /// The size of batch that was asked for.
    ///
    /// # Errors
    /// A sentence that says which option cannot be read.
    pub(super) fn size(&self) -> Result<crate::make::size::Size, String> {
        self.scaling.size()
    }

    /// Where the result goes.
    pub(super) fn delivery(&self) -> &Delivery {
        &self.delivery
    }

    /// The format that was asked for.
    pub(super) fn format(&self) -> Option<PageFormat> {
        self.format
    }

    /// Makes the batches of what there is.
    pub(super) fn take_stock(&mut self, stock: Vec<There>) {
        self.scaling.stock = stock;
    }

    /// Works out one thing a batch, from it and the file that was asked for, lays it out and delivers it; `foot` is what stands below all
    /// of them.
    pub(super) fn run<T>(
        &self,
        output: &mut Output,
        of: impl Fn(&Batch, &Tree) -> Result<T, String>,
        page: impl Fn(&T, Units) -> Result<Vec<Block>, crate::measure::number::Overflow>,
        foot: impl Fn(&[T]) -> Vec<Block>,
        json: impl Fn(&[T]) -> Result<String, String>,
    ) -> Outcome {
        match self.text(output, of, page, foot, json) {
            Ok(text) => self.delivery.deliver(&text, output),
            Err(outcome) => outcome,
        }
    }

    fn text<T>(
        &self,
        output: &Output,
        of: impl Fn(&Batch, &Tree) -> Result<T, String>,
        page: impl Fn(&T, Units) -> Result<Vec<Block>, crate::measure::number::Overflow>,
        foot: impl Fn(&[T]) -> Vec<Block>,
        json: impl Fn(&[T]) -> Result<String, String>,
    ) -> Result<String, Outcome> {
        let format =
            wanted(self.format, &self.delivery, PageFormat::usual(output)).map_err(|why| complain(output, &why))?;
        let all = self.all(output, of)?;
        let mut blocks = Vec::new();
        if format != PageFormat::Json {
            for one in &all {
                let page = page(one, self.scaling.units());
                blocks.extend(page.map_err(|_| complain(output, "a figure leaves the range of exact numbers"))?);
            }
        }
        if format != PageFormat::Json {
            blocks.extend(foot(&all));
        }
        let title = blocks.iter().find_map(|block| match block {
            Block::Heading(title) => Some(title.text.clone()),
            _ => None,
        });
        let page = Page { title: title.unwrap_or_default(), below: 0, blocks: spaced(blocks) };
        format.print(&page, self.delivery.style(output), || json(&all)).map_err(|why| complain(output, &why))
    }

    /// Works out one thing a batch, from it and the file that was asked for.
    pub(super) fn all<T>(
        &self,
        output: &Output,
        of: impl Fn(&Batch, &Tree) -> Result<T, String>,
    ) -> Result<Vec<T>, Outcome> {
        let mut loader =
            self.as_baked.loader(std::slice::from_ref(&self.file), output).map_err(|why| complain(output, &why))?;
        let source = loader.load(&self.file).map_err(|error| complain(output, &error.to_string()))?;
        let project = loader.into_project();
        let made = batches::make(&project, &[source], &self.scaling, output)?;
        let Some(file) = project.file(source) else { return Err(complain(output, "the file is not there any more")) };
        let all: Result<Vec<T>, String> = made.work.batches.iter().map(|batch| of(batch, &file.tree)).collect();
        all.map_err(|why| complain(output, &why))
    }
}
