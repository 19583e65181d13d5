//! The target `formula` of `cargo fuzz`: what it does is in `src/targets/formula.rs`.
#![no_main]

miche_fuzz::target!(miche_fuzz::targets::formula::run);
