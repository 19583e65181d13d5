//! What reaches outside: files, the command line, the preview, the language server.

pub mod cli;
pub mod editor;
pub mod loader;
mod past;
