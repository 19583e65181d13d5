//! The target `bakes` of `cargo fuzz`: what it does is in `src/targets/bakes.rs`.
#![no_main]

miche_fuzz::target!(miche_fuzz::targets::bakes::run);
