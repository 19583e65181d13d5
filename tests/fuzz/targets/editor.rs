//! The target `editor` of `cargo fuzz`: what it does is in `src/targets/editor.rs`.
#![no_main]

miche_fuzz::target!(miche_fuzz::targets::editor::run);
