//! `miche editor`: the language server, version 3.17 of the protocol, over standard input and output.
//!
//! Only `server`, `convert` and `lsp` know the protocol. A feature is a function over a [`view::View`] (a file as the
//! editor has it, read with all that it uses) and speaks in byte spans; `position` alone turns those into lines and
//! columns. A text that is half typed is the usual case: its stray lines are nodes of the tree like all others.

mod actions;
mod completion;
mod convert;
mod definition;
mod folding;
mod formatting;
mod frames;
mod hint;
mod hints;
mod hover;
mod lens;
mod links;
mod log;
mod lsp;
mod mentions;
mod outline;
mod place;
mod position;
mod problems;
mod queue;
mod references;
mod rename;
mod scope;
mod server;
mod tokens;
mod uri;
mod view;
mod workspace;

pub use lsp::serve;
pub use position::{Encoding, LineStarts, Point};
pub use server::Server;
pub use workspace::Workspace;
