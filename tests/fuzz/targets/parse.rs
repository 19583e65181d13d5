//! The target `parse` of `cargo fuzz`: what it does is in `src/targets/parse.rs`.
#![no_main]

miche_fuzz::target!(miche_fuzz::targets::parse::run);
